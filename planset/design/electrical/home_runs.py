"""Where array conductors run from the ends of strings and branches to their junction boxes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.electrical.boxes import PlacedBox, box_of_circuits, placed_boxes
from planset.design.electrical.home_course import home_course
from planset.design.electrical.module_devices import circuit_modules
from planset.design.layout import PlacedArray
from planset.design.once import once
from planset.drawing.geometry import Point

if TYPE_CHECKING:
    from planset.design.design import Design


@dataclass(frozen=True, slots=True)
class HomeRun:
    """One way to a box; conductors that lie side by side are one.

    Attributes:
        array: The array it starts under.
        course: From the end of a circuit to the box, or to the corner of the array that is nearest
            to a box on another plane, (u, v) [in].
        box: The box.
    """

    array: PlacedArray
    course: tuple[Point, ...]
    box: PlacedBox


@once
def home_runs(design: Design) -> tuple[HomeRun, ...]:
    """Every way once: from both ends of a string, from the first module of a branch."""
    placed = {m.id: (array, m) for array in design.arrays for m in array.modules}
    boxes = {box.id: box for box in placed_boxes(design)}
    reached = box_of_circuits(design.inputs.job.electrical)
    branches = {branch.id for branch in design.electrical.branches}
    made: dict[tuple[str, tuple[Point, ...]], HomeRun] = {}
    for circuit, tags in circuit_modules(design):
        if not tags:  # its array has fewer modules than its circuits ask for
            continue
        box = boxes[reached[circuit]]
        ends = [tags[:2], tags[::-1][:2]]
        for end in ends[:1] if circuit in branches else ends:
            array, module = placed[end[0]]
            beside = placed[end[1]][1] if len(end) > 1 else None
            course = home_course(array, module, beside, box)
            made.setdefault((box.id, course), HomeRun(array, course, box))
    return tuple(made.values())
