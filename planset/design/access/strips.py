"""Strips of a roof plane that are clear from the lowest roof edge to the ridge.

A strip runs straight up the slope, or along a hip or valley. Widths are on the surface, square to
the way the strip runs. All of it is geometry: what is enough is decided by the rules.
"""

from __future__ import annotations

import math
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
_BESIDE_FOOT_IN = 18.0  # where along an eave from the foot of a hip: half a pathway

Outlines = list[tuple[str, shapely.Polygon]]
"""Ids and plan outlines of planes."""


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
        below: Its way on down from the pitch break it starts at, as wide; None at an eave.
    """

    plane: str
    side: str
    surface: Box
    unfinished: str = ""
    apex_u: float | None = None
    below: ClearStrip | None = None

    @property
    def planes(self) -> tuple[str, ...]:
        """Ids of the planes it runs over, from the top down."""
        return (self.plane, *(self.below.planes if self.below else ()))

    def on(self, plane: str) -> Box:
        """The part of it on one of its planes, (u, v) [in]."""
        return self.surface if self.below is None or plane == self.plane else self.below.on(plane)

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
    others = _planes_apart_from(roof, plane)
    found = [
        ClearStrip(
            plane.id,
            "middle",
            _box(run, u0, u1),
            amiss,
            None if run[0].ends_at_top else top_of(plane)[0],
        )
        for run in runs
        for free in _free(run, closed)
        for u0, u1, amiss in _by_foot(others, plane, run, free)
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
        if edge.kind not in (EdgeKind.HIP, EdgeKind.VALLEY):
            continue
        if not _starts_at_eave(roof, edge, plane):
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


def _by_foot(
    others: Outlines, plane: Plane, run: tuple[Column, ...], free: tuple[float, float]
) -> list[tuple[float, float, str]]:
    """Parts of a free range of u, each with why its foot may not be one.

    A pathway stands on the lowest roof edge, so what ends over a lower roof is parted from what
    ends over the ground.
    """
    found: list[tuple[float, float, str]] = []
    for column in run:
        low, high = max(free[0], column.u0), min(free[1], column.u1)
        if high - low < _NOISE:
            continue
        if column.foot.kind is EdgeKind.PITCH_BREAK:
            parts = [(low, high, f"it starts at the pitch break {column.foot.id}")]
        else:
            parts = _over_roofs(others, plane, column, low, high)
        for part in parts:
            if found and bool(found[-1][2]) == bool(part[2]):
                found[-1] = (found[-1][0], part[1], found[-1][2])
            else:
                found.append(part)
    return found


def _over_roofs(
    others: Outlines, plane: Plane, column: Column, low: float, high: float
) -> list[tuple[float, float, str]]:
    """The foot of a column from u to u, parted where another plane lies below it."""
    (ax, ay), (bx, by) = (plane.to_plan((u, column.foot_at(u))) for u in (low, high))
    dx, dy = (_BELOW_IN * part for part in plane.downslope)
    line = shapely.LineString([(ax + dx, ay + dy), (bx + dx, by + dy)])
    covered: list[tuple[float, float, str]] = []
    for name, outline in others:
        for part in shapely.get_parts(line.intersection(outline)):
            if part.length > TOUCH_IN:
                ends = (line.project(shapely.Point(end)) for end in part.coords)
                u0, u1 = sorted(low + end / line.length * (high - low) for end in ends)
                covered.append((u0, u1, f"it ends over plane {name}"))
    found: list[tuple[float, float, str]] = []
    reached = low
    for u0, u1, amiss in [*sorted(covered), (high, high, "")]:
        if u0 - reached > TOUCH_IN:
            found.append((reached, u0, ""))
        if u1 > max(reached, u0) and amiss:
            found.append((max(reached, u0), u1, amiss))
        reached = max(reached, u1)
    return found


def _planes_apart_from(roof: Roof, plane: Plane) -> Outlines:
    return [
        (other.id, shapely.Polygon(other.outline, other.holes))
        for other in roof.planes
        if other is not plane
    ]


def _roof_at(roof: Roof, plane: Plane, point: Point, way: Point) -> str:
    """Id of the other plane that lies a little way off a plan point, "" for none."""
    probe = shapely.Point(point[0] + way[0] * _BELOW_IN, point[1] + way[1] * _BELOW_IN)
    others = _planes_apart_from(roof, plane)
    return next((name for name, outline in others if outline.covers(probe)), "")


def _along_rakes(roof: Roof, plane: Plane, overhang_in: float) -> Iterable[BaseGeometry]:
    if overhang_in <= 0:
        return []
    return [
        band_of(plane, edge).ground(overhang_in) for edge in roof.edges_of(plane.id, EdgeKind.RAKE)
    ]


def _starts_at_eave(roof: Roof, edge: Edge, plane: Plane) -> bool:
    """Whether a pathway can start at the foot of an edge.

    At a hip the plane has an eave there: where a gable is clipped it has a rake, and the eave of
    the clip is not its lowest edge.
    """
    eaves = _eaves_at_foot(roof, edge)
    if edge.kind is EdgeKind.HIP:
        eaves = [eave for eave in eaves if plane.id in eave.planes]
    return edge.a[2] != edge.b[2] and bool(eaves)


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
    """Why no ladder may reach the foot of an edge: the eaves there hang over a lower roof."""
    foot = min(edge.a, edge.b, key=lambda end: end[2])[:2]
    below = ""
    for eave in _eaves_at_foot(roof, edge):
        plane = roof.plane(eave.planes[0])
        line = shapely.LineString(sorted(eave.plan, key=lambda end: math.dist(end, foot)))
        beside = line.interpolate(min(_BESIDE_FOOT_IN, line.length / 2))
        below = _roof_at(roof, plane, (beside.x, beside.y), plane.downslope)
        if not below:
            return ""
    return f"it ends over plane {below}"


def _edges_beside(roof: Roof, edge: Edge, kind: EdgeKind) -> list[Edge]:
    return [other for name in edge.planes for other in roof.edges_of(name, kind)]


def _touches(edge: Edge, point: Point) -> bool:
    return bool(shapely.LineString(edge.plan).distance(shapely.Point(point)) < 2 * TOUCH_IN)
