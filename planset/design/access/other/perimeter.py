"""The clear perimeter of a roof: its edges, and how far arrays stay inside them.

Distances are on the surface, square to the edge, and from the inner face of a parapet (common
practice, no source). A wall that rises from the roof counts as an edge [interpretation].
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from shapely import LineString, Polygon, box, get_coordinates, get_parts, line_merge
from shapely import Point as Spot
from shapely.geometry.base import BaseGeometry

from planset.design.layout import PlacedArray, PlacedObstruction
from planset.drawing.geometry import Point, offset_left
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof

INNER_EDGES = (EdgeKind.RIDGE, EdgeKind.HIP, EdgeKind.VALLEY, EdgeKind.PITCH_BREAK)
_NOISE = 1e-6


@dataclass(frozen=True, slots=True)
class EdgeClearance:
    """What is clear along one edge of a roof plane.

    Attributes:
        edge: The edge.
        plane: Id of the plane.
        line: The edge, or the inner face of its parapet, on the plane, the roof to its left [in].
        array: Id of the nearest array.
        clear_in: From the line to that array; below 0 it reaches over the line [in].
        foot: Where on the line that is, the middle of where the array comes nearest, (u, v) [in].
        crowded_by: Ids of obstructions that leave no way of the required width past them.
    """

    edge: Edge
    plane: str
    line: tuple[Point, Point]
    array: str
    clear_in: float
    foot: Point
    crowded_by: tuple[str, ...]


def axes_in(roof: Roof, plane: Plane) -> tuple[float, float]:
    """The two axes of the roof over a plane's building, along its eave and square to it [in].

    They are the sides of the rectangle around the roof in plan, overhangs included, which is never
    less than the building's own.
    """
    points = [corner for item in roof.planes_of(plane.building) for corner in item.outline]
    across = [u * plane.along[0] + v * plane.along[1] for u, v in points]
    down = [u * plane.downslope[0] + v * plane.downslope[1] for u, v in points]
    return (max(across) - min(across), max(down) - min(down))


def inside_of(roof: Roof, plane: Plane, parapet_in: float) -> Polygon:
    """The plane within its parapets, (u, v) [in]."""
    if not roof.edges_of(plane.id, EdgeKind.PARAPET):
        return plane.surface_polygon
    return plane.surface_polygon.buffer(-parapet_in, join_style="mitre")


def edge_clearances(
    roof: Roof,
    plane: Plane,
    parapet_in: float,
    required_in: float,
    arrays: tuple[PlacedArray, ...],
    standing: tuple[PlacedObstruction, ...],
) -> tuple[EdgeClearance, ...]:
    """What is clear along each edge that bounds the roof.

    Args:
        roof: The roof.
        plane: The plane.
        parapet_in: Thickness of its parapet, 0 without one [in].
        required_in: Required width of the perimeter [in].
        arrays: Arrays on the plane, at least one.
        standing: Obstructions on the plane that close a way.
    """
    edges = [edge for edge in roof.edges_of(plane.id) if edge.kind not in INNER_EDGES]
    lines = {edge.id: inner_line(plane, edge, parapet_in) for edge in edges}
    inside = inside_of(roof, plane, parapet_in)
    made = []
    for edge in edges:
        line = lines[edge.id]
        room = {array.id: _room(array.occupied, inside, line, lines.values()) for array in arrays}
        nearest = min(room, key=room.__getitem__)
        crowded = tuple(item.id for item in standing if _crowds(item, line, required_in, arrays))
        clear = room[nearest]
        (array,) = (array for array in arrays if array.id == nearest)
        foot = _foot(array.occupied, line, clear)
        made.append(EdgeClearance(edge, plane.id, line, nearest, clear, foot, crowded))
    return tuple(made)


def inner_line(plane: Plane, edge: Edge, parapet_in: float) -> tuple[Point, Point]:
    """An edge on the plane, or the inner face of its parapet, with the roof to its left [in]."""
    a, b = (plane.to_surface(point) for point in edge.plan)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    if not plane.surface_polygon.covers(Spot(moved(middle, offset_left(a, b, 1.0)))):
        a, b = b, a
    inward = offset_left(a, b, parapet_in if edge.kind is EdgeKind.PARAPET else 0.0)
    return (moved(a, inward), moved(b, inward))


def moved(point: Point, by: Point) -> Point:
    """A point moved by a vector [in]."""
    return (point[0] + by[0], point[1] + by[1])


def _room(
    occupied: BaseGeometry,
    inside: Polygon,
    line: tuple[Point, Point],
    lines: Iterable[tuple[Point, Point]],
) -> float:
    """From a line to an array; below 0 how far the array reaches over it [in]."""
    edge = LineString(line)
    beyond = occupied.difference(inside)
    nearest = min(float(beyond.distance(LineString(other))) for other in lines)
    if beyond.area < _NOISE or beyond.distance(edge) > nearest + _NOISE:
        return float(occupied.distance(edge))
    right = offset_left(line[1], line[0], 1.0)
    over = [
        (float(u) - line[0][0]) * right[0] + (float(v) - line[0][1]) * right[1]
        for u, v in get_coordinates(beyond)
    ]
    return -max(over)


def _foot(occupied: BaseGeometry, line: tuple[Point, Point], clear_in: float) -> Point:
    """Below the longest piece of an array's outline that comes as near to a line as any."""
    edge = LineString(line)
    near = edge.buffer(max(clear_in, 0.0) + _NOISE)
    pieces = get_parts(line_merge(occupied.boundary.intersection(near)))
    if not len(pieces):
        return (float(edge.centroid.x), float(edge.centroid.y))
    middle = max(pieces, key=lambda piece: piece.length).centroid
    foot = edge.interpolate(edge.project(middle))
    return (float(foot.x), float(foot.y))


def _crowds(
    item: PlacedObstruction,
    line: tuple[Point, Point],
    required_in: float,
    arrays: tuple[PlacedArray, ...],
) -> bool:
    """Tell whether something stands in the perimeter with no way of its width on either side."""
    area = item.surface
    body = box(area.x0, area.y0, area.x1, area.y1)
    from_line = float(body.distance(LineString(line)))
    if from_line >= required_in - _NOISE:
        return False
    return min(float(array.occupied.distance(body)) for array in arrays) < required_in - _NOISE
