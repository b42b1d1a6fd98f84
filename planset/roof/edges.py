"""The edges of a roof, found and classified from the geometry of its planes.

A side of one plane may run along parts of several others, so sides are first cut where corners of
other planes lie on them. Two cut sides that coincide in plan are one edge when their heights agree,
and a step in the roof with a wall between when they do not. What belongs together is joined again.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from planset.roof.plane import Plane, Point, sides
from planset.roof.solid import Edge, EdgeKind, Roof

TOUCH_IN = 0.25
"""Corners nearer than this in plan are one corner (a survey is no better)."""

LEVEL_IN = 0.5
"""Heights nearer than this are one height."""

_BESIDE_IN = 0.5  # how far off an edge its planes are compared


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a plane, or a part of it; the plane lies to the left."""

    plane: Plane
    a: Point
    b: Point
    across: Plane | None = None

    @property
    def heights(self) -> tuple[float, float]:
        return (self.plane.height_at(self.a), self.plane.height_at(self.b))


def roof_of(planes: Iterable[Plane]) -> Roof:
    """The roof of these planes, its edges found and classified from their geometry."""
    listed = tuple(planes)
    of_sides = _all_sides(listed)
    edges: list[Edge] = []
    for side in of_sides:
        first = side.across is None or listed.index(side.plane) < listed.index(side.across)
        if first or _is_step(side):
            edges.append(_edge(side))
    return Roof(listed, tuple(_with_unique_ids(listed, edges)))


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two planes that meet in plan at different heights.

    Attributes:
        plane: Id of one plane.
        other: Id of the other.
        a: One end of the line in plan [in].
        b: Other end [in].
        heights: Of the plane at both ends [in].
        other_heights: Of the other plane there [in].
    """

    plane: str
    other: str
    a: Point
    b: Point
    heights: tuple[float, float]
    other_heights: tuple[float, float]


def heights_of_meeting_planes(planes: tuple[Plane, ...]) -> list[Meeting]:
    """Every line where two planes meet in plan and their heights differ, once per plane."""
    return [
        Meeting(
            side.plane.id,
            side.across.id,
            side.a,
            side.b,
            side.heights,
            (side.across.height_at(side.a), side.across.height_at(side.b)),
        )
        for side in _all_sides(planes)
        if side.across is not None and _is_step(side)
    ]


def _all_sides(planes: tuple[Plane, ...]) -> list[_Side]:
    """Every side of every plane with the plane across it, cut and joined as needed."""
    corners = [corner for plane in planes for ring in plane.rings for corner in ring]
    parts: list[_Side] = []
    per_ring: list[list[_Side]] = []
    for plane in planes:
        for ring in plane.rings:
            cut = [_Side(plane, a, b) for side in sides(ring) for a, b in _cut(*side, corners)]
            per_ring.append(cut)
            parts += cut
    return [side for ring in per_ring for side in _joined([_met(one, parts) for one in ring])]


def _cut(a: Point, b: Point, corners: list[Point]) -> list[tuple[Point, Point]]:
    """A side cut at every corner that lies on it."""
    length = math.dist(a, b)
    if length < TOUCH_IN:
        return [(a, b)]
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    stops: list[tuple[float, Point]] = []
    for corner in corners:
        dx, dy = corner[0] - a[0], corner[1] - a[1]
        along, off = dx * ux + dy * uy, dx * uy - dy * ux
        inside = TOUCH_IN < along < length - TOUCH_IN
        if inside and abs(off) < TOUCH_IN:
            stops.append((along, corner))
    stops.sort()
    points = [a]
    reached = 0.0
    for along, corner in stops:
        if along - reached > TOUCH_IN:
            points.append(corner)
            reached = along
    points.append(b)
    return list(zip(points, points[1:], strict=False))


def _met(side: _Side, parts: list[_Side]) -> _Side:
    """The side with the plane across it."""
    for other in parts:
        if (
            other.plane is not side.plane
            and math.dist(other.a, side.b) < TOUCH_IN
            and math.dist(other.b, side.a) < TOUCH_IN
        ):
            return replace(side, across=other.plane)
    return side


def _joined(ring: list[_Side]) -> list[_Side]:
    """Sides of a ring, those that go straight on beside the same plane joined."""
    made: list[_Side] = []
    for side in ring:
        if made and _goes_on(made[-1], side):
            made[-1] = _as_one(made[-1], side)
        else:
            made.append(side)
    if len(made) > 1 and _goes_on(made[-1], made[0]):
        made[0] = _as_one(made.pop(), made[0])
    return made


def _as_one(one: _Side, other: _Side) -> _Side:
    across = one.across if one.across is other.across or _is_below(one) else None
    return replace(one, b=other.b, across=across)


def _goes_on(one: _Side, other: _Side) -> bool:
    alike = (
        one.across is other.across
        or (_is_below(one) and _is_below(other))
        or (_is_open(one) and _is_open(other))
    )
    if not alike or math.dist(one.b, other.a) > TOUCH_IN:
        return False
    ax, ay = one.b[0] - one.a[0], one.b[1] - one.a[1]
    bx, by = other.b[0] - other.a[0], other.b[1] - other.a[1]
    scale = math.hypot(ax, ay) * math.hypot(bx, by)
    return scale > 0 and abs(ax * by - ay * bx) < 1e-6 * scale and ax * bx + ay * by > 0


def _is_open(side: _Side) -> bool:
    """Whether the plane ends here: nothing lies across, or only what is lower."""
    if side.across is None:
        return True
    return _is_step(side) and _stands_above(side, side.across)


def _is_below(side: _Side) -> bool:
    """Whether a wall stands on the edge: what lies across is higher."""
    return side.across is not None and _is_step(side) and not _stands_above(side, side.across)


def _is_step(side: _Side) -> bool:
    """Whether a wall stands between the two planes that meet here in plan."""
    if side.across is None:
        return False
    there = (side.across.height_at(side.a), side.across.height_at(side.b))
    return any(abs(h - t) > LEVEL_IN for h, t in zip(side.heights, there, strict=True))


def _edge(side: _Side) -> Edge:
    plane, other = side.plane, side.across
    a, b = plane.lift(side.a), plane.lift(side.b)
    level = abs(a[2] - b[2]) < min(LEVEL_IN, 0.02 * math.dist(side.a, side.b) + 1e-6)
    if other is None or _is_open(side):
        kind = _open_edge_kind(side, level=level)
        return Edge(f"{plane.id} {kind}", kind, a, b, (plane.id,))
    if _is_step(side):
        kind = EdgeKind.HEADWALL if level else EdgeKind.SIDEWALL
        return Edge(f"{plane.id} {kind}", kind, a, b, (plane.id,))
    kind = _shared_edge_kind(side, other, level=level)
    return Edge(f"{plane.id}-{other.id} {kind}", kind, a, b, (plane.id, other.id))


def _stands_above(side: _Side, other: Plane) -> bool:
    middle = _middle(side)
    return side.plane.height_at(middle) > other.height_at(middle)


def _middle(side: _Side) -> Point:
    return ((side.a[0] + side.b[0]) / 2, (side.a[1] + side.b[1]) / 2)


def _open_edge_kind(side: _Side, *, level: bool) -> EdgeKind:
    """An edge with nothing across it, or only what lies lower."""
    if not level:
        return EdgeKind.RAKE
    inside, outside = _falls(side.plane, side, inward=True), 0.0
    return EdgeKind.EAVE if inside <= outside else EdgeKind.HIGH_EDGE


def _shared_edge_kind(side: _Side, other: Plane, *, level: bool) -> EdgeKind:
    here = _falls(side.plane, side, inward=True)
    there = _falls(other, side, inward=False)
    convex = here + there > 0
    if level and here > 0 and there > 0:
        return EdgeKind.RIDGE
    if level and here * there <= 0:
        return EdgeKind.PITCH_BREAK
    return EdgeKind.HIP if convex else EdgeKind.VALLEY


def _falls(plane: Plane, side: _Side, *, inward: bool) -> float:
    """How far a plane falls over a short way off an edge; negative where it rises [in]."""
    length = math.dist(side.a, side.b)
    left = (-(side.b[1] - side.a[1]) / length, (side.b[0] - side.a[0]) / length)
    sign = _BESIDE_IN if inward else -_BESIDE_IN
    x, y = _middle(side)
    off = (x + sign * left[0], y + sign * left[1])
    fall = plane.height_at((x, y)) - plane.height_at(off)
    return 0.0 if abs(fall) < 1e-9 else fall


def _with_unique_ids(planes: tuple[Plane, ...], edges: list[Edge]) -> list[Edge]:
    """Tell edges of one name apart, as "front rake left" and "front rake right".

    Left and right are as one faces the plane from its eave, as everywhere in the design.
    """
    of_id = {plane.id: plane for plane in planes}

    def left_to_right(edge: Edge) -> float:
        return sum(of_id[edge.planes[0]].to_surface(end)[0] for end in edge.plan)

    named: list[Edge] = []
    for edge in edges:
        twins = [other for other in edges if other.id == edge.id]
        if len(twins) == 1:
            named.append(edge)
            continue
        place = sorted(twins, key=left_to_right).index(edge)
        words = ("left", "right") if len(twins) == 2 else tuple(map(str, range(1, len(twins) + 1)))
        named.append(replace(edge, id=f"{edge.id} {words[place]}"))
    return named
