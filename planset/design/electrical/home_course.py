"""By what course array conductors run from the end of a circuit to its junction box.

They run along the frames of modules, a little inside of their outlines, and leave them only at the
box. All in (u, v) of the plane [in].
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

import shapely
from shapely.geometry.base import BaseGeometry

from planset.design.once import once
from planset.drawing.geometry import Point, distance

if TYPE_CHECKING:
    from planset.design.electrical.boxes import PlacedBox
    from planset.design.layout import PlacedArray, PlacedModule

INSIDE_IN = 1.5
"""How far inside the outline of a frame conductors run along it: at its lower flange
(common practice, no source) [in]."""

_ACROSS, _BELOW_IN = 0.12, 6.0  # of a module's width, and below its upper edge: its circuit
_NOISE_IN = 1e-6


def circuit_point(module: PlacedModule) -> Point:
    """Where the circuit of a module goes through it, beside its upper edge."""
    box = module.surface
    return (box.x0 + _ACROSS * box.width, box.y1 - _BELOW_IN)


def home_course(
    array: PlacedArray, end: PlacedModule, beside: PlacedModule | None, box: PlacedBox
) -> tuple[Point, ...]:
    """From the end of a circuit to its box, or to the corner of the array nearest to it.

    Of the edges of columns along which it may go up or down the one is taken that leaves the frames
    least, then the one nearest to the box.

    Args:
        array: The array.
        end: The first or last module of the circuit.
        beside: The module next to it in the circuit, None when it has only one.
        box: The box; on another plane it is reached from a corner of the array.
    """
    target = box.at if box.plane is array.plane else _corner_toward(array, box)
    start = circuit_point(end)
    below = beside is not None and beside.row > end.row
    lane = end.surface.y0 + INSIDE_IN if below else end.surface.y1 - INSIDE_IN
    covered = _covered(array)

    def worth(column: float) -> tuple[float, float, float]:
        way = shapely.LineString([(start[0], lane), (column, lane), (column, target[1])])
        outside = 0.0 if covered.covers(way) else way.difference(covered).length
        return (round(outside, 3), round(abs(column - target[0]), 3), column)

    column = min(_columns(array), key=worth)
    course = (start, (start[0], lane), (column, lane), (column, target[1]), target)
    kept = (b for a, b in pairwise(course) if distance(a, b) > _NOISE_IN)
    return (start, *kept)


def way_to_box_in(
    array: PlacedArray, end: PlacedModule, beside: PlacedModule | None, box: PlacedBox
) -> float:
    """Length of that course and, to a box on another plane, on straight to it [in]."""
    course = home_course(array, end, beside, box)
    on_frames = math.fsum(distance(a, b) for a, b in pairwise(course))
    last = array.plane.lift(array.plane.to_plan(course[-1]))
    return on_frames + math.dist(last, box.plane.lift(box.plane.to_plan(box.at)))


@once
def _covered(array: PlacedArray) -> BaseGeometry:
    """What the frames of an array cover, gaps included."""
    covered = array.field.buffer(_NOISE_IN)
    shapely.prepare(covered)
    return covered


@once
def _columns(array: PlacedArray) -> list[float]:
    """Inside the upright edges of all modules."""
    edges = ((m.surface.x0 + INSIDE_IN, m.surface.x1 - INSIDE_IN) for m in array.modules)
    return sorted({round(u, 6) for pair in edges for u in pair})


def _corner_toward(array: PlacedArray, box: PlacedBox) -> Point:
    """The corner of an array that is nearest to a box in plan, inside its frames."""
    target = box.plane.to_plan(box.at)

    def away(corner: Point) -> float:
        return distance(array.plane.to_plan(corner), target)

    return min(array.frames.grown(-INSIDE_IN).corners, key=away)
