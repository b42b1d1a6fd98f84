"""Where in the job file the things a rule names are stated."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray

if TYPE_CHECKING:
    from planset.design.design import Design


def array_line(design: Design, array_id: str, *field: str) -> int:
    """Return the line of a field of an array, the first of one that was on the roof before."""
    if array_id in [item.id for item in design.inputs.job.obstructions]:
        return obstruction_line(design, array_id)
    place = [item.id for item in design.inputs.job.arrays].index(array_id)
    return design.inputs.line_of("arrays", place, *field)


def attachment_fields(array: PlacedArray) -> tuple[str, str]:
    """Return the fields that place the first attachment and those after it on every rail."""
    if array.stated_mounting.fewest_attachments:
        return ("fewest_attachments", "fewest_attachments")
    if array.system.across:
        return ("first_line", "attach_every")
    return ("first_attachment", "attachment_spacing")


def spacing_line(design: Design, array_id: str) -> int:
    """Return the line that says how far apart the attachments of an array stand."""
    array = next(item for item in design.mounted if item.id == array_id)
    return array_line(design, array_id, "mounting", attachment_fields(array)[1])


def plane_line(design: Design, plane_id: str) -> int:
    """Return the line that places the first array on a plane, of the arrays when it has none."""
    for array in design.arrays:
        if array.plane.id == plane_id:
            return array_line(design, array.id, "corner")
    return design.inputs.line_of("arrays")


def obstruction_line(design: Design, obstruction_id: str, *field: str) -> int:
    """Return the line of a field of an obstruction."""
    place = [item.id for item in design.inputs.job.obstructions].index(obstruction_id)
    return design.inputs.line_of("obstructions", place, *field)


def string_line(design: Design, string_id: str, *field: str) -> int:
    """Return the line of a field of a string."""
    place = [item.id for item in design.inputs.job.electrical.strings].index(string_id)
    return design.inputs.line_of("electrical", "strings", place, *field)


def lot_line(design: Design, name: str, *field: str) -> int:
    """Return the line of a field of a property line by its tag, PL1 the first of the job."""
    return design.inputs.line_of("site_plan", "lot", int(name.removeprefix("PL")) - 1, *field)
