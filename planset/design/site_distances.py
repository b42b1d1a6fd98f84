"""Distances on the lot: what lies how far inside of a property line, what a walk runs into."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
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


def rooms_in(site: Site, things: Sequence[Sequence[Point]], line: LotLine) -> list[float]:
    """How far things lie inside of a property line, negative where they lie beyond it [in].

    Args:
        site: The lot.
        things: Of each a point, or its corners in plan [in].
        line: One of the lines of the lot.
    """
    shapes = [_shape(points) for points in things]
    lot = Polygon(site.ring)
    shapely.prepare(lot)
    corners, thing = shapely.get_coordinates(shapes, return_index=True)
    least = np.full(len(shapes), np.inf)
    np.minimum.at(least, thing, _signed(site, lot, shapely.points(corners), line))
    within, away = shapely.covers(lot, shapes), shapely.distance(shapes, _on(line))
    return [float(room) for room in np.where(within, away, least)]


def _signed(
    site: Site, lot: Polygon, points: NDArray[np.object_], line: LotLine
) -> NDArray[np.float64]:
    """Distances to a line, negative for points beyond it, outside of the lot."""
    away = shapely.distance(points, _on(line))
    nearest = np.min([shapely.distance(points, _on(other)) for other in site.lines], axis=0)
    beyond = ~shapely.covers(lot, points) & (away <= nearest)
    signed: NDArray[np.float64] = np.where(beyond, -away, away)
    return signed


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
    return shapely.polygons(points) if len(points) > 2 else MultiPoint(list(points))


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
