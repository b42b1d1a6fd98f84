"""What lies on the roof."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planset.catalog.fields import Distance, Force, Size, StrictModel, Text, between
from planset.job.by_plane import DistanceByPlane, on_plane


class CurvedTile(StrictModel):
    """Curved tile; `rise` is the top of the cover above the pan, inches.

    `first_course` runs from the eave's edge up the slope to the nose of the second course, where
    the first lap is; `first_pan` from the left end of the eave, as one faces a plane, to the
    middle of the first pan. Each is one distance for every plane, or one by the name of each
    plane that was surveyed; attachments in tile need both.
    """

    kind: Literal["curved_tile"]
    material: Text
    exposure: Size
    length: Size
    pan_pitch: Size
    rise: Size
    thickness: Size
    batten: Distance
    first_course: DistanceByPlane | None = None
    first_pan: DistanceByPlane | None = None

    def __hash__(self) -> int:
        """Hash without the distances by plane, which compare but have no hash of their own."""
        return hash((self.kind, self.material, self.exposure, self.length, self.pan_pitch))

    @model_validator(mode="after")
    def _check_order(self) -> Self:
        if self.exposure >= self.length:
            msg = "exposure is not less than length, so courses do not lap; check both"
            raise ValueError(msg)
        if any(first > self.exposure for first in (self.first_course or {}).values()):
            msg = (
                "first_course is more than exposure, so the first tile would begin above the "
                "eave's edge; measure to the nose of the second course"
            )
            raise ValueError(msg)
        return self

    def first_course_on(self, plane: str) -> float:
        """The first lap of a plane from its eave's edge, inches; raises ValueError if unknown."""
        return _surveyed(self.first_course, plane)

    def first_pan_on(self, plane: str) -> float:
        """The first pan from the left end of the eave, inches; raises ValueError if unknown."""
        return _surveyed(self.first_pan, plane)


def _surveyed(distances: dict[str, float] | None, plane: str) -> float:
    distance = on_plane(distances or {}, plane)
    if distance is None:
        msg = f"the tile of plane {plane} is not surveyed"
        raise ValueError(msg)
    return distance


class AsphaltShingle(StrictModel):
    """Asphalt shingles; `exposure` is course to course, `thickness` of all layers, inches."""

    kind: Literal["asphalt_shingle"]
    material: Text
    exposure: Size
    thickness: Size


class SeamClips(StrictModel):
    """What holds the panels: clips along every seam and what one holds, pounds, with its source."""

    spacing: Size
    uplift: Force
    document: Text


class StandingSeam(StrictModel):
    """Metal panels with standing seams up the slope; inches.

    `profile` is the seam's name by the maker of the panels, `seam_spacing` seam to seam along the
    eave, `seam_height` above the pan. `first_seam` is from the left end of the eave, as one faces
    a plane, one distance for every plane or one by plane; clamps on seams need it. `clips` may
    be absent, where nobody could tell: a rule then leaves the panels' own hold open.
    """

    kind: Literal["standing_seam"]
    material: Text
    profile: Text
    seam_spacing: Annotated[Size, between(6, 60, "in")]
    seam_height: Size
    thickness: Size
    first_seam: DistanceByPlane | None = None
    clips: SeamClips | None = None

    def __hash__(self) -> int:
        """Hash without the distances by plane, which compare but have no hash of their own."""
        return hash((self.kind, self.material, self.profile, self.seam_spacing))

    def first_seam_on(self, plane: str) -> float | None:
        """The first seam of a plane, None where it was not surveyed, inches."""
        return on_plane(self.first_seam or {}, plane)


class Membrane(StrictModel):
    """A membrane over a low slope; `thickness` is of membrane and cover board, inches."""

    kind: Literal["membrane"]
    material: Text
    thickness: Size


Covering = Annotated[
    CurvedTile | AsphaltShingle | StandingSeam | Membrane, Field(discriminator="kind")
]
"""Any covering."""
