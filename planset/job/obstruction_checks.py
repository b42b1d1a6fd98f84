"""What obstructions must agree with: the plane each of them stands on."""

from collections.abc import Iterator, Mapping

from planset.errors import Problem
from planset.job.sections import Sections
from planset.roof.plane import Plane
from planset.source import SourceDocument
from planset.units import format_feet_inches


def check_obstructions(
    sections: Sections, planes: Mapping[str, Plane], document: SourceDocument
) -> Iterator[Problem]:
    """Yield obstructions larger than their plane; one that hangs over its edge a rule tells of.

    Args:
        sections: The valid sections of the job.
        planes: Every plane of the roofs by id.
        document: The job file.
    """
    for number, item in enumerate(sections.get("obstructions", ())):
        plane = planes.get(item.plane)
        if plane is None:
            continue
        across, up = _extent_in(plane)
        sizes = {
            "diameter": (item.diameter, min(across, up)),
            "width": (item.width, across),
            "height": (item.height, up),
        }
        for field, (size, most) in sizes.items():
            if size is not None and size > most:
                room = format_feet_inches(most, rounding="down")
                message = f"larger than plane {item.plane} (got {format_feet_inches(size)})"
                mend = f"the plane has {room} there; check the size and its unit"
                yield document.problem(("obstructions", number, field), message, mend)


def _extent_in(plane: Plane) -> tuple[float, float]:
    """Width along the eave and height up the slope of the box around a plane [in]."""
    us, vs = zip(*plane.surface_outline, strict=True)
    return max(us) - min(us), max(vs) - min(vs)
