"""Where array conductors run from the ends of strings and branches to their junction boxes.

They run along edges of modules, a little inside of them, and beside the array. All in (u, v) of the
plane [in].
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.electrical.boxes import PlacedBox, box_of_circuits, placed_boxes
from planset.design.electrical.module_devices import circuit_modules
from planset.design.layout import PlacedArray, PlacedModule
from planset.design.once import once
from planset.drawing.geometry import Point

if TYPE_CHECKING:
    from planset.design.design import Design

_POINT = (0.12, 0.80)  # of a module's size, where its circuit goes through
_BESIDE_IN = 3.0  # of array conductors from the edges of modules
_NOISE_IN = 1e-6


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
    columns = {array.id: _columns(array) for array in design.arrays}
    made: dict[tuple[str, tuple[Point, ...]], HomeRun] = {}
    for circuit, tags in circuit_modules(design):
        if not tags:  # its array has fewer modules than its circuits ask for
            continue
        box = boxes[reached[circuit]]
        ends = [tags[:2], tags[::-1][:2]]
        for end in ends[:1] if circuit in branches else ends:
            array, module = placed[end[0]]
            beside = placed[end[1]][1] if len(end) > 1 else None
            target = box.at if box.plane is array.plane else _corner_toward(array, box)
            course = _course(columns[array.id], module, beside, target)
            made.setdefault((box.id, course), HomeRun(array, course, box))
    return tuple(made.values())


def circuit_point(module: PlacedModule) -> Point:
    """Where the circuit of a module goes through it."""
    box, (across, up) = module.surface, _POINT
    return (box.x0 + across * box.width, box.y0 + up * box.height)


def _course(
    columns: Sequence[float], end: PlacedModule, beside: PlacedModule | None, target: Point
) -> tuple[Point, ...]:
    """From the end of a circuit along the edges of its array's modules to a target.

    Args:
        columns: Where it may run up or down, of the array [in].
        end: The first or last module of the circuit.
        beside: The module next to it in the circuit, None when it has only one.
        target: Where the conductors go.
    """
    start = circuit_point(end)
    below = beside is not None and beside.row > end.row
    lane = end.surface.y0 + _BESIDE_IN if below else end.surface.y1 - _BESIDE_IN
    column = min(columns, key=lambda u: (abs(u - target[0]), u))
    course = (start, (start[0], lane), (column, lane), (column, target[1]), target)
    return tuple(
        [course[0], *(b for a, b in pairwise(course) if max(map(abs, _step(a, b))) > _NOISE_IN)]
    )


def _step(a: Point, b: Point) -> Point:
    return (b[0] - a[0], b[1] - a[1])


def _columns(array: PlacedArray) -> list[float]:
    """Left edges of columns but the first, and beside the array at both ends."""
    lefts = sorted({round(module.surface.x0, 6) for module in array.modules})[1:]
    between = [left + _BESIDE_IN for left in lefts]
    return [array.frames.x0 - _BESIDE_IN, *between, array.frames.x1 + _BESIDE_IN]


def _corner_toward(array: PlacedArray, box: PlacedBox) -> Point:
    """The corner of an array that is nearest to a box in plan, beside its frames."""
    target = box.plane.to_plan(box.at)

    def away(corner: Point) -> float:
        x, y = array.plane.to_plan(corner)
        return (x - target[0]) ** 2 + (y - target[1]) ** 2

    return min(array.frames.grown(_BESIDE_IN).corners, key=away)
