"""Places on the roof: a box and the points of a route lie on their planes."""

from collections.abc import Iterator, Mapping

from planset.errors import Problem
from planset.job.electrical.wiring import RoofPlace
from planset.job.position import Position
from planset.job.sections import Sections
from planset.roof.plane import Plane
from planset.source import Location, SourceDocument
from planset.units import format_feet_inches

_PAST_EDGE_IN = 12.0  # a raceway bends down to a wall past the edge of the roof


def check_places(
    sections: Sections, planes: Mapping[str, Plane], document: SourceDocument
) -> Iterator[Problem]:
    """Yield boxes and points far off the plane they are measured on, as slips of a unit bring them.

    Args:
        sections: The valid sections of the job.
        planes: Every plane of the roofs by id.
        document: The job file.
    """
    for place, plane_id, at in _positions(sections):
        plane = planes.get(plane_id)
        if plane is None:
            continue  # told where it is named
        along, up = zip(*plane.surface_outline, strict=True)
        for field, value, ends in (("along", at.along, along), ("up", at.up, up)):
            low, high = min(ends), max(ends)
            if not low - _PAST_EDGE_IN <= value <= high + _PAST_EDGE_IN:
                message = f"off plane {plane_id} (got {format_feet_inches(value)})"
                reach = f"{format_feet_inches(low)} to {format_feet_inches(high)}"
                mend = f"the plane goes from {reach} there; check the place and its unit"
                yield document.problem((*place, field), message, mend)


def _positions(sections: Sections) -> Iterator[tuple[Location, str, Position]]:
    """Yield where a position is stated, the plane it is measured on, and the position."""
    electrical = sections.get("electrical")
    if electrical is None:
        return
    planes = {array.id: array.plane for array in sections.get("arrays", ())}
    for number, box in enumerate(electrical.junction_boxes):
        place: Location = ("electrical", "junction_boxes", number, "at")
        yield place, planes.get(box.array, ""), box.at
    for stated in electrical.wiring.runs:
        for number, part in enumerate(stated.run.places):
            if isinstance(part, RoofPlace) and part.plane is not None:
                route = ("electrical", "wiring", *stated.place, "places", number, "route")
                for point, at in enumerate(part.route):
                    yield (*route, point), part.plane, at
