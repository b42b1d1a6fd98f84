"""The courses of strings and branches on a plane, as they are drawn, and what they leave for tags.

A circuit goes through one point of each of its modules, off to a side, so that the tag has room.
All in (u, v) of the plane [in].
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planset.design.electrical.home_course import circuit_point
from planset.design.layout import PlacedModule
from planset.drawing.geometry import Box, Point

_TAG = Box(0.165, 0.14, 0.985, 0.68)  # of a module's size, what is left for its tag
_NOISE_IN = 1e-6


def tag_room(module: PlacedModule) -> Box:
    """What of a module its tag may cover."""
    box = module.surface
    across, up = (box.x0, box.width), (box.y0, box.height)
    return Box(
        across[0] + _TAG.x0 * across[1],
        up[0] + _TAG.y0 * up[1],
        across[0] + _TAG.x1 * across[1],
        up[0] + _TAG.y1 * up[1],
    )


def circuit_course(modules: tuple[PlacedModule, ...]) -> tuple[Point, ...]:
    """Through all modules in order, square where one does not lie beside the next."""
    points = [circuit_point(modules[0])]
    for before, after in pairwise(modules):
        end = circuit_point(after)
        if before.row != after.row and before.column != after.column:
            points.append((end[0], points[-1][1]))
        points.append(end)
    return tuple(points)


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
