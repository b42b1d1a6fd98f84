"""Columns of a roof plane that run unbroken from its lowest edge to its top.

A plane is cut at every corner across the slope; between two cuts the line up the slope meets the
same edges everywhere, so what a pathway could run on is found exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from planset.drawing.geometry import Point
from planset.roof.edges import TOUCH_IN
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof

_NOISE = 1e-6
_FEET = (EdgeKind.EAVE, EdgeKind.PITCH_BREAK)


@dataclass(frozen=True, slots=True)
class Column:
    """A piece of a plane between two cuts, from one edge below to one edge above.

    Attributes:
        u0: From here along the eave [in].
        u1: To here [in].
        ground: The piece, (u, v) [in].
        foot: The edge it stands on.
        foot_line: That edge on the plane, (u, v) [in].
        ends_at_top: Whether it ends at the ridge, or at the level top of a plane without one.
    """

    u0: float
    u1: float
    ground: Polygon
    foot: Edge
    foot_line: tuple[Point, Point]
    ends_at_top: bool

    def foot_at(self, u: float) -> float:
        """The v of the foot [in]."""
        (ua, va), (ub, vb) = self.foot_line
        return va if abs(ub - ua) < _NOISE else va + (vb - va) * (u - ua) / (ub - ua)


def top_of(plane: Plane) -> Point:
    """The highest corner of a plane, (u, v) [in]; the middle of those that share the height."""
    top = max(v for _, v in plane.surface_outline)
    at = [u for u, v in plane.surface_outline if top - v < TOUCH_IN]
    return ((min(at) + max(at)) / 2, top)


def columns_of(roof: Roof, plane: Plane) -> list[tuple[Column, ...]]:
    """The columns of a plane that a pathway can run on, in runs of columns side by side.

    They end at a ridge of the plane. Where it has none they end at its top: a level edge, or, on
    the triangle of a hip roof, the corner, and then every column that stands on an eave is given.
    """
    cuts = _apart(sorted(u for ring in _rings(plane) for u, _ in ring))
    edges = [(edge, _line(plane, edge)) for edge in roof.edges_of(plane.id)]
    tops = _tops(plane, edges)
    runs: list[list[Column]] = []
    for u0, u1 in zip(cuts, cuts[1:], strict=False):
        for column in _between(plane, u0, u1, edges, tops):
            for run in runs:
                if abs(run[-1].u1 - u0) < _NOISE and run[-1].ground.distance(column.ground) < 1e-3:
                    run.append(column)
                    break
            else:
                runs.append([column])
    return [tuple(run) for run in runs]


def _between(
    plane: Plane,
    u0: float,
    u1: float,
    edges: list[tuple[Edge, LineString]],
    tops: list[LineString],
) -> list[Column]:
    """The columns between two cuts, from the eave up."""
    _, low, _, high = plane.surface_polygon.bounds
    piece = shapely.box(u0, low - 1, u1, high + 1).intersection(plane.surface_polygon)
    found = []
    for ground in shapely.get_parts(piece):
        if ground.area < 1e-3:
            continue
        middle = (u0 + u1) / 2
        chord = LineString([(middle, low - 1), (middle, high + 1)]).intersection(ground)
        foot, line = _nearest(edges, (middle, chord.bounds[1]))
        head = shapely.Point(middle, chord.bounds[3])
        at_top = any(top.distance(head) < TOUCH_IN for top in tops)
        if foot.kind in _FEET and (at_top or not tops):
            a, b = line.coords
            found.append(Column(u0, u1, ground, foot, (a, b), at_top))
    return found


def _tops(plane: Plane, edges: list[tuple[Edge, LineString]]) -> list[LineString]:
    """Where a pathway may end; nothing when the top is a corner."""
    ridges = [line for edge, line in edges if edge.kind is EdgeKind.RIDGE]
    if ridges:
        return ridges
    top = top_of(plane)[1]
    return [
        line
        for edge, line in edges
        if line.bounds[1] > top - TOUCH_IN and edge.length_in > 2 * TOUCH_IN
    ]


def _nearest(edges: list[tuple[Edge, LineString]], point: Point) -> tuple[Edge, LineString]:
    at = shapely.Point(point)
    return min(edges, key=lambda pair: pair[1].distance(at))


def _line(plane: Plane, edge: Edge) -> LineString:
    return LineString([plane.to_surface(end) for end in edge.plan])


def _rings(plane: Plane) -> list[list[Point]]:
    return [[plane.to_surface(corner) for corner in ring] for ring in plane.rings]


def _apart(values: list[float]) -> list[float]:
    """Values in order, without those that arithmetic alone tells from the one before."""
    kept = values[:1]
    kept += [b for a, b in pairwise(values) if b - a > _NOISE]
    return kept
