"""The courses of strings, branches and array conductors on a plane, as they are drawn.

A circuit goes through one point of each of its modules, off to a side, so that the tag has room.
Array conductors run along edges of modules, a little inside of them so that their lines are told
from frames, and beside the array. All in (u, v) of the plane [in].
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.geometry import Box, Point

_POINT = (0.12, 0.80)  # of a module's size, where its circuit goes through
_TAG = Box(0.165, 0.14, 0.985, 0.68)  # of a module's size, what is left for its tag
_BESIDE_IN = 3.0  # of array conductors from the edges of modules
_NOISE_IN = 1e-6


def circuit_point(module: PlacedModule) -> Point:
    """Where the circuit of a module goes through it."""
    return _within(module, *_POINT)


def tag_room(module: PlacedModule) -> Box:
    """What of a module its tag may cover."""
    low, high = _within(module, _TAG.x0, _TAG.y0), _within(module, _TAG.x1, _TAG.y1)
    return Box(*low, *high)


def _within(module: PlacedModule, across: float, up: float) -> Point:
    box = module.surface
    return (box.x0 + across * box.width, box.y0 + up * box.height)


def circuit_course(modules: tuple[PlacedModule, ...]) -> tuple[Point, ...]:
    """Through all modules in order, square where one does not lie beside the next."""
    points = [circuit_point(modules[0])]
    for before, after in pairwise(modules):
        end = circuit_point(after)
        if before.row != after.row and before.column != after.column:
            points.append((end[0], points[-1][1]))
        points.append(end)
    return tuple(points)


def home_run(
    array: PlacedArray, end: PlacedModule, beside: PlacedModule | None, target: Point
) -> tuple[Point, ...]:
    """From the end of a circuit along the edges of its array's modules to a target.

    Args:
        array: The array.
        end: The first or last module of the circuit.
        beside: The module next to it in the circuit, None when it has only one.
        target: Where the conductors go.
    """
    start = circuit_point(end)
    below = beside is not None and beside.row > end.row
    lane = end.surface.y0 + _BESIDE_IN if below else end.surface.y1 - _BESIDE_IN
    column = min(_columns(array), key=lambda u: (abs(u - target[0]), u))
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


class Bundle:
    """Square courses that are drawn once where they lie in each other, as their dashes would."""

    def __init__(self) -> None:
        self._drawn: dict[tuple[bool, float], list[tuple[float, float]]] = {}

    def added(self, course: tuple[Point, ...]) -> Iterator[tuple[Point, Point]]:
        """The pieces of a course that are not drawn yet."""
        for a, b in pairwise(course):
            upright = abs(a[0] - b[0]) < abs(a[1] - b[1])
            line = round(a[0] if upright else a[1], 3)
            along = 1 if upright else 0
            known = self._drawn.setdefault((upright, line), [])
            span = (min(a[along], b[along]), max(a[along], b[along]))
            for low, high in _less(span, known):
                yield ((line, low), (line, high)) if upright else ((low, line), (high, line))
            known.append(span)


def _less(
    span: tuple[float, float], others: list[tuple[float, float]]
) -> list[tuple[float, float]]:
    """What of a span none of others covers."""
    left = [span]
    for start, end in others:
        cut = [((low, min(high, start)), (max(low, end), high)) for low, high in left]
        left = [piece for pair in cut for piece in pair if piece[1] - piece[0] > _NOISE_IN]
    return left


def corner_toward(array: PlacedArray, plan: Point) -> Point:
    """The corner of an array that is nearest to a point in plan, beside its frames."""
    corners = array.frames.grown(_BESIDE_IN).corners

    def away(corner: Point) -> float:
        x, y = array.plane.to_plan(corner)
        return (x - plan[0]) ** 2 + (y - plan[1]) ** 2

    return min(corners, key=away)
