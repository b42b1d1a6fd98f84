"""Distances on the lot: what lies how far inside of a property line, what a walk runs into."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import box, union_all
from shapely.geometry import LineString, MultiPoint, Polygon
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from planset.design.site import Body, LotLine, Site
from planset.drawing.geometry import Point

_FAR_IN = 1e5
_BESIDE_IN = 36.0
_TOUCH_IN = 0.5  # a walk this deep in a wall only touches it


def room_in(site: Site, points: Sequence[Point], line: LotLine) -> float:
    """How far a thing lies inside of a property line, negative where it lies beyond it [in].

    Args:
        site: The lot.
        points: A point, or the corners of the thing in plan [in].
        line: One of the lines of the lot.
    """
    shape = _shape(points)
    lot = Polygon(site.ring)
    if lot.covers(shape):
        return float(shape.distance(_on(line)))
    return min(_signed(site, lot, Dot(point), line) for point in points)


def _signed(site: Site, lot: Polygon, point: Dot, line: LotLine) -> float:
    """Distance to a line, negative for a point beyond it, outside of the lot."""
    away = float(point.distance(_on(line)))
    if lot.covers(point):
        return away
    nearest = min(float(point.distance(_on(other))) for other in site.lines)
    return -away if away <= nearest else away


def nearest_points_to(body: Body, line: LotLine) -> tuple[Point, Point]:
    """The point of a body nearest a property line, and the point there nearest to it [in]."""
    here, there = nearest_points(body.shape, _on(line))
    return ((here.x, here.y), (there.x, there.y))


def apart_in(body: Body, line: LotLine) -> float:
    """How far the walls of a body stand from a property line [in]."""
    return float(body.shape.distance(_on(line)))


def in_the_way(site: Site) -> tuple[str, ...]:
    """Ids of what the walk of the fire service runs through: buildings and structures."""
    way = LineString(site.walk) if len(site.walk) > 1 else MultiPoint(site.walk)
    bodies = (*site.buildings, *site.structures)
    return tuple(one.id for one in bodies if way.intersects(one.shape.buffer(-_TOUCH_IN)))


def to_street_in(site: Site) -> float:
    """How far the walk begins inside of the lot from the nearest street's property line [in]."""
    start = Dot(site.walk[0])
    if not Polygon(site.ring).covers(start):
        return 0.0
    return min(float(start.distance(_on(street.line))) for street in site.streets)


def _shape(points: Sequence[Point]) -> BaseGeometry:
    return Polygon(points) if len(points) > 2 else MultiPoint(list(points))


def _on(line: LotLine) -> LineString:
    return LineString((line.a, line.b))


def driveway_sides(site: Site) -> frozenset[str]:
    """The sides of the house with a driveway before a part of their wall: front, back, left, right.

    As long beside it as a pathway is wide (common practice, no source).
    """
    x0, y0, x1, y1 = site.buildings[0].shape.bounds
    beside = {
        "front": box(x0, -_FAR_IN, x1, y0),
        "back": box(x0, y1, x1, _FAR_IN),
        "left": box(-_FAR_IN, y0, x0, y1),
        "right": box(x1, y0, _FAR_IN, y1),
    }
    ground = union_all([Polygon(ring) for ring in site.driveways])
    found = set()
    for side, area in beside.items():
        part = ground.intersection(area)
        if part.is_empty:
            continue
        left, low, right, high = part.bounds
        along = right - left if side in ("front", "back") else high - low
        if along >= _BESIDE_IN:
            found.add(side)
    return frozenset(found)
