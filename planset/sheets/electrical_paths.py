"""The courses of strings and branches on a plane, as they are drawn, and what they leave for tags.

A circuit goes through one point of each of its modules, off to a side, so that the tag has room.
All in (u, v) of the plane [in].
"""

from __future__ import annotations

from itertools import pairwise

from planset.design.electrical.home_runs import circuit_point
from planset.design.layout import PlacedModule
from planset.drawing.geometry import Box, Point

_TAG = Box(0.165, 0.14, 0.985, 0.68)  # of a module's size, what is left for its tag


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
