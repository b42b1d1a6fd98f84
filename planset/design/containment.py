"""How far a frame stays inside a roof plane, and which edges it lies across."""

from __future__ import annotations

from collections.abc import Iterable

from shapely import LineString, Point, Polygon, box, get_coordinates

from planset.drawing.geometry import Box
from planset.roof.plane import Plane
from planset.roof.solid import Edge


def room_in(plane: Plane, frame: Box) -> float:
    """Least distance of a frame inside the edges of its plane; negative: how far it runs over [in].

    Args:
        plane: Any plane, with or without holes.
        frame: The frame, (u, v) [in].
    """
    polygon = plane.surface_polygon
    area = _area(frame)
    if polygon.covers(area):
        return float(polygon.boundary.distance(area))
    return -_overrun(polygon, area)


def point_room_in(plane: Plane, point: tuple[float, float]) -> float:
    """Distance of a point (u, v) inside the edges of its plane, negative outside [in]."""
    polygon, place = plane.surface_polygon, Point(point)
    if polygon.covers(place):
        return float(polygon.boundary.distance(place))
    return -float(polygon.distance(place))


def sides_crossed(plane: Plane, edges: Iterable[Edge], frames: Iterable[Box]) -> tuple[str, ...]:
    """Ids of the edges of a plane that frames lie across, in the order of the edges.

    Args:
        plane: The plane.
        edges: Its edges.
        frames: Frames on it, (u, v) [in].
    """
    areas = [_area(frame) for frame in frames]
    return tuple(
        edge.id
        for edge in edges
        if any(area.intersects(_on_surface(plane, edge)) for area in areas)
    )


def plan_distance_in(plane: Plane, one: Box, other_plane: Plane, other: Box) -> float:
    """Distance in plan between a box on one plane and one on another, 0 where they overlap [in].

    It is never more than the way over the roof.
    """
    here = Polygon([plane.to_plan(corner) for corner in one.corners])
    there = Polygon([other_plane.to_plan(corner) for corner in other.corners])
    return float(here.distance(there))


def _area(frame: Box) -> Polygon:
    return box(frame.x0, frame.y0, frame.x1, frame.y1)


def _on_surface(plane: Plane, edge: Edge) -> LineString:
    return LineString([plane.to_surface(end) for end in edge.plan])


def _overrun(polygon: Polygon, area: Polygon) -> float:
    """How far the farthest corner of what lies outside stands off the plane [in]."""
    corners = get_coordinates(area.difference(polygon))
    return max((float(polygon.distance(Point(corner))) for corner in corners), default=0.0)
