"""Where the lower left corner of one module may lie on a plane.

A module is inside when its corner lies in the free region shrunk by the module: every edge of
the free region, swept by the module turned about its corner (a Minkowski sum), is taken out of
the region. What is left is a polygon again, exact for outlines of any shape. The module is
taken smaller by the tolerance on every side, so that an exact fit leaves a sliver and not a
line or a point, which would be lost.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from planset.drawing.geometry import Box, Point, box_around

Numbers = NDArray[np.float64]
Size = tuple[float, float]

TOUCH_IN = 1e-6
"""A module this much over an edge still counts as touching it [in]."""


@dataclass(frozen=True, slots=True)
class Positions:
    """The region a module's lower left corner may lie in.

    Attributes:
        edges: Its edges, one a line as u0, v0, u1, v1, the region to the left of the way from
            0 to 1 [in].
    """

    edges: Numbers

    @property
    def empty(self) -> bool:
        """Whether no module fits anywhere."""
        return len(self.edges) == 0

    @property
    def box(self) -> Box:
        """The box around the region [in]."""
        return box_around([*map(tuple, self.edges[:, :2].tolist())])

    @property
    def turned(self) -> Positions:
        """The same region with u and v exchanged."""
        return Positions(self.edges[:, [3, 2, 1, 0]])

    def intervals(self, v: float) -> Numbers:
        """The stretches of u that are free at a height v, one a line as from, to [in]."""
        u0, v0, u1, v1 = self.edges.T
        met = (np.minimum(v0, v1) <= v) & (v < np.maximum(v0, v1))
        share = (v - v0[met]) / (v1[met] - v0[met])
        crossings: Numbers = np.sort(u0[met] + share * (u1[met] - u0[met]))
        return crossings.reshape(-1, 2)


def free_positions(
    outline: Sequence[Point], keep_outs: Sequence[Sequence[Point]], module: Size, past_in: float
) -> Positions:
    """The region in which a module with the rail ends below and above it is free.

    Args:
        outline: Corners of the plane, a simple polygon, (u, v) [in].
        keep_outs: Corners of the areas modules and rails keep out of [in].
        module: Size across and up the slope [in].
        past_in: Length of the rails beyond the frame, below and above [in].

    Raises:
        ValueError: The outline or a keep-out is no simple polygon.
    """
    taken = shapely.union_all([_simple(corners, "a keep-out") for corners in keep_outs])
    free = shapely.difference(_simple(outline, "the outline"), taken)
    low = np.array([TOUCH_IN, TOUCH_IN - past_in])
    high = np.array([module[0] - TOUCH_IN, module[1] + past_in - TOUCH_IN])
    blocked = _swept(_edges(free), low, high)
    corner_inside = shapely.transform(free, lambda points: points - low)
    return Positions(_edges(shapely.difference(corner_inside, blocked)))


def _simple(corners: Sequence[Point], what: str) -> BaseGeometry:
    shape = shapely.Polygon(corners)
    if not shape.is_valid:
        msg = f"{what} is no simple polygon: {shapely.is_valid_reason(shape)}"
        raise ValueError(msg)
    return shape


def _edges(region: BaseGeometry) -> Numbers:
    """The edges of every polygon of a region, the region to their left."""
    found = [np.empty((0, 4))]
    for part in shapely.get_parts(region):
        if part.geom_type != "Polygon" or part.is_empty:
            continue
        for ring in shapely.get_rings(orient(part)):
            corners = shapely.get_coordinates(ring)
            found.append(np.hstack([corners[:-1], corners[1:]]))
    return np.vstack(found)


def _swept(edges: Numbers, low: Numbers, high: Numbers) -> BaseGeometry:
    """Where a module may not have its corner, lest an edge cross it."""
    corners = np.array([low, (high[0], low[1]), high, (low[0], high[1])])
    ends = edges.reshape(-1, 2, 1, 2) - corners
    hulls = shapely.convex_hull(shapely.multipoints(ends.reshape(len(edges), 8, 2)))
    return shapely.union_all(hulls)
