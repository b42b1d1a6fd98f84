"""What was measured of the roof's own accuracy before the layout."""

from planset.catalog.fields import StrictModel, Text
from planset.job.by_plane import DistanceByPlane, on_plane


class Survey(StrictModel):
    """How far a roof is from true; inches.

    `unevenness` is the greatest height of the surface over a straight edge less the least, over
    the area of an array. `eave_out_of_straight` is the greatest distance of the eave's edge from
    a string between its ends. Each is one distance for every plane or one by plane.
    """

    unevenness: DistanceByPlane
    eave_out_of_straight: DistanceByPlane
    source: Text

    def unevenness_on(self, plane: str) -> float | None:
        """The unevenness of a plane, None where it was not measured, inches."""
        return on_plane(self.unevenness, plane)

    def eave_out_of_straight_on(self, plane: str) -> float | None:
        """How far the eave of a plane is out of straight, None if not measured, inches."""
        return on_plane(self.eave_out_of_straight, plane)
