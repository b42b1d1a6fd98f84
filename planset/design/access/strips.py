"""Strips of a roof plane that are clear from the lowest roof edge to the ridge.

A strip runs straight up the slope, or along a hip or valley. Widths are on the surface, square to
the way the strip runs. All of it is geometry: what is enough is decided by the rules.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import shapely
from shapely.geometry.base import BaseGeometry

from planset.design.access.columns import Column, columns_of, top_of
from planset.design.access.edge_band import band_of
from planset.drawing.geometry import Box
from planset.roof.edges import TOUCH_IN
from planset.roof.plane import Plane, Point
from planset.roof.solid import Edge, EdgeKind, Roof

_NOISE = 1e-6
_SLIVER_SQIN = 1e-3
_BELOW_IN = 1.0  # how far off an eave the roof below it is looked for


@dataclass(frozen=True, slots=True)
class ClearStrip:
    """A strip of one plane that is free from the eave to the ridge.

    Attributes:
        plane: Id of the plane.
        side: Where it lies: "left", "right" or "middle", facing the plane from its eave.
        surface: The strip on the plane, (u, v) [in]; where the top of the plane is a point, the
            plane ends inside it.
        unfinished: Why somebody must decide whether it counts, "" when nothing is amiss.
        apex_u: Where that point lies, which the pathway must hold; None at a level top [in].
    """

    plane: str
    side: str
    surface: Box
    unfinished: str = ""
    apex_u: float | None = None

    @property
    def width_in(self) -> float:
        """Clear width along the eave [in]."""
        return self.surface.width


@dataclass(frozen=True, slots=True)
class EdgeStrip:
    """What is clear on one plane along a hip or valley that runs from an eave to the top.

    Attributes:
        plane: Id of the plane.
        edge: Id of the hip or valley.
        width_in: Clear width on this plane, square to the edge [in].
        unfinished: Why somebody must decide whether it counts, "" when nothing is amiss.
    """

    plane: str
    edge: str
    width_in: float
    unfinished: str = ""


def clear_strips(
    roof: Roof, plane: Plane, blocked: BaseGeometry, rake_overhang_in: float = 0.0
) -> list[ClearStrip]:
    """The strips that run straight up a plane, widest first.

    Args:
        roof: The roof.
        plane: The plane.
        blocked: What stands on it, (u, v) [in].
        rake_overhang_in: What does not count along each rake [in].
    """
    runs = columns_of(roof, plane)
    if not runs:
        return []
    closed = shapely.union_all([blocked, *_along_rakes(roof, plane, rake_overhang_in)])
    found = [
        ClearStrip(
            plane.id,
            "middle",
            _box(run, u0, u1),
            _foot_amiss(roof, plane, run, u0, u1),
            None if run[0].ends_at_top else top_of(plane)[0],
        )
        for run in runs
        for u0, u1 in _free(run, closed)
        if _reaches_top(plane, run, u0, u1)
    ]
    left = min(run[0].u0 for run in runs) + rake_overhang_in
    right = max(run[-1].u1 for run in runs) - rake_overhang_in
    sided = [replace(strip, side=_side(strip.surface, left, right)) for strip in found]
    return sorted(sided, key=lambda strip: (-strip.width_in, strip.surface.x0))


def edge_strips(roof: Roof, plane: Plane, blocked: BaseGeometry) -> list[EdgeStrip]:
    """What is clear on a plane along each of its hips and valleys that a pathway can follow.

    Such an edge starts at an eave and ends at a ridge, or at the top of a plane without one.

    Args:
        roof: The roof.
        plane: The plane.
        blocked: What stands on it, (u, v) [in].
    """
    notches = plane.surface_polygon.convex_hull.difference(plane.surface_polygon)
    closed = shapely.union_all([blocked, notches])
    found = []
    for edge in roof.edges_of(plane.id):
        if edge.kind not in (EdgeKind.HIP, EdgeKind.VALLEY) or not _starts_at_eave(roof, edge):
            continue
        amiss = _top_amiss(roof, edge, plane)
        if amiss is not None:
            band = band_of(plane, edge)
            width = min(band.clear_in(closed), band.reach_in)
            found.append(EdgeStrip(plane.id, edge.id, width, amiss))
    return found


def _free(run: tuple[Column, ...], closed: BaseGeometry) -> list[tuple[float, float]]:
    """The parts of a run of columns that nothing stands in, as ranges of u."""
    ground = shapely.union_all([column.ground for column in run])
    parts = shapely.get_parts(ground.intersection(closed))
    taken = sorted((p.bounds[0], p.bounds[2]) for p in parts if p.area > _SLIVER_SQIN)
    free: list[tuple[float, float]] = []
    reached, end = run[0].u0, run[-1].u1
    for u0, u1 in [*taken, (end, end)]:
        if u0 - reached > _NOISE:
            free.append((reached, u0))
        reached = max(reached, u1)
    return free


def _box(run: tuple[Column, ...], u0: float, u1: float) -> Box:
    bounds = [c.ground.bounds for c in run if c.u0 < u1 - _NOISE and c.u1 > u0 + _NOISE]
    return Box(u0, min(b[1] for b in bounds), u1, max(b[3] for b in bounds))


def _side(box: Box, left: float, right: float) -> str:
    if box.x0 <= left + _NOISE:
        return "left"
    return "right" if box.x1 >= right - _NOISE else "middle"


def _reaches_top(plane: Plane, run: tuple[Column, ...], u0: float, u1: float) -> bool:
    """Whether a strip ends at the top where that is a point; else its columns all do."""
    if run[0].ends_at_top:
        return True
    return u0 - _NOISE <= top_of(plane)[0] <= u1 + _NOISE


def _foot_amiss(roof: Roof, plane: Plane, run: tuple[Column, ...], u0: float, u1: float) -> str:
    """Why the foot of a strip may not be one: it must stand on the lowest roof edge."""
    for column in run:
        low, high = max(u0, column.u0), min(u1, column.u1)
        if high - low < _NOISE:
            continue
        if column.foot.kind is EdgeKind.PITCH_BREAK:
            return f"it starts at the pitch break {column.foot.id}"
        foot = plane.to_plan(((low + high) / 2, column.foot_at((low + high) / 2)))
        if below := _roof_at(roof, plane, foot, plane.downslope):
            return f"it ends over plane {below}"
    return ""


def _roof_at(roof: Roof, plane: Plane, point: Point, way: Point) -> str:
    """Id of the other plane that lies a little way off a plan point, "" for none."""
    probe = shapely.Point(point[0] + way[0] * _BELOW_IN, point[1] + way[1] * _BELOW_IN)
    for other in roof.planes:
        if other is not plane and shapely.Polygon(other.outline, other.holes).contains(probe):
            return other.id
    return ""


def _along_rakes(roof: Roof, plane: Plane, overhang_in: float) -> Iterable[BaseGeometry]:
    if overhang_in <= 0:
        return []
    return [
        band_of(plane, edge).ground(overhang_in) for edge in roof.edges_of(plane.id, EdgeKind.RAKE)
    ]


def _starts_at_eave(roof: Roof, edge: Edge) -> bool:
    return edge.a[2] != edge.b[2] and bool(_eaves_at_foot(roof, edge))


def _eaves_at_foot(roof: Roof, edge: Edge) -> list[Edge]:
    foot = min(edge.a, edge.b, key=lambda end: end[2])[:2]
    return [eave for eave in _edges_beside(roof, edge, EdgeKind.EAVE) if _touches(eave, foot)]


def _top_amiss(roof: Roof, edge: Edge, plane: Plane) -> str | None:
    """Why a pathway along an edge may not count; None when it plainly reaches no ridge."""
    high = max(edge.a, edge.b, key=lambda end: end[2])[:2]
    amiss = _over_lower_roof(roof, edge)
    own = roof.edges_of(plane.id, EdgeKind.RIDGE)
    at_top = abs(plane.to_surface(high)[1] - top_of(plane)[1]) < TOUCH_IN
    if any(_touches(ridge, high) for ridge in own) or (not own and at_top):
        return amiss
    for ridge in _edges_beside(roof, edge, EdgeKind.RIDGE):
        if _touches(ridge, high):
            return f"it ends at {ridge.id}, below the ridge of {plane.id}"
    return None


def _over_lower_roof(roof: Roof, edge: Edge) -> str:
    """Why no ladder may reach the foot of an edge: its eaves hang over a lower roof."""
    below = ""
    for eave in _eaves_at_foot(roof, edge):
        plane = roof.plane(eave.planes[0])
        (xa, ya), (xb, yb) = eave.plan
        middle = ((xa + xb) / 2, (ya + yb) / 2)
        below = _roof_at(roof, plane, middle, plane.downslope)
        if not below:
            return ""
    return f"it ends over plane {below}"


def _edges_beside(roof: Roof, edge: Edge, kind: EdgeKind) -> list[Edge]:
    return [other for name in edge.planes for other in roof.edges_of(name, kind)]


def _touches(edge: Edge, point: Point) -> bool:
    return bool(shapely.LineString(edge.plan).distance(shapely.Point(point)) < 2 * TOUCH_IN)
