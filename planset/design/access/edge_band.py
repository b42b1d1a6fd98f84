"""The ground beside an edge of a roof plane, measured square to it on the surface."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from shapely import Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from planset.drawing.geometry import Point
from planset.roof.plane import Plane
from planset.roof.solid import Edge

_FAR = 1e5  # beyond any roof [in]
_PROBE_IN = 0.1
_SLIVER_SQIN = 1e-3  # less is what arithmetic leaves of shapes that touch


@dataclass(frozen=True, slots=True)
class EdgeBand:
    """The ground beside an edge, in its own frame: t along it, d square to it into the plane.

    Attributes:
        plane: The plane.
        start: The lower end of the edge, (u, v) [in].
        along: Unit vector from there to the other end.
        inward: Unit vector square to it, into the plane.
        length_in: Of the edge [in].
        ends: The t between which ground lies beside the edge. Where the plane goes on past an end
            of the edge the band is cut square there; elsewhere the next edge cuts it [in].
    """

    plane: Plane
    start: Point
    along: Point
    inward: Point
    length_in: float
    ends: tuple[float, float]

    def clear_in(self, blocked: BaseGeometry) -> float:
        """Distance from the edge to what blocks the ground beside it; very far without any [in]."""
        beside = shapely.box(self.ends[0], 0.0, self.ends[1], _FAR)
        near = self._local(blocked).intersection(beside)
        parts = [part for part in shapely.get_parts(near) if part.area > _SLIVER_SQIN]
        return min((part.bounds[1] for part in parts), default=_FAR)

    @property
    def reach_in(self) -> float:
        """How far the plane reaches from the edge, beside it [in]."""
        beside = shapely.box(self.ends[0], 0.0, self.ends[1], _FAR)
        return float(self._local(self.plane.surface_polygon).intersection(beside).bounds[3])

    def ground(self, width_in: float) -> Polygon:
        """The part of the plane up to a distance from the edge, (u, v)."""
        t0, t1 = max(self.ends[0], -_FAR), min(self.ends[1], _FAR)
        corners = [self._point(t, d) for t, d in ((t0, 0), (t1, 0), (t1, width_in), (t0, width_in))]
        band = Polygon(corners).intersection(self.plane.surface_polygon)
        return max(shapely.get_parts(band), key=lambda part: part.area, default=Polygon())

    def across(self, width_in: float) -> tuple[Point, Point]:
        """From the middle of the edge square into the plane, (u, v)."""
        middle = self.length_in / 2
        return (self._point(middle, 0.0), self._point(middle, width_in))

    def _point(self, t: float, d: float) -> Point:
        (x, y), (ax, ay), (ix, iy) = self.start, self.along, self.inward
        return (x + t * ax + d * ix, y + t * ay + d * iy)

    def _local(self, shape: BaseGeometry) -> BaseGeometry:
        (x, y), (ax, ay), (ix, iy) = self.start, self.along, self.inward
        return affine_transform(shape, (ax, ay, ix, iy, -ax * x - ay * y, -ix * x - iy * y))


def band_of(plane: Plane, edge: Edge) -> EdgeBand:
    """The band of an edge of a plane."""
    low, high = sorted((edge.a, edge.b), key=lambda end: end[2])
    a, b = plane.to_surface(low[:2]), plane.to_surface(high[:2])
    length = math.dist(a, b)
    along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    left = (-along[1], along[0])
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    inside = _holds(plane, middle, left)
    inward = left if inside else (-left[0], -left[1])
    down = (-along[0], -along[1])
    ends = (0.0 if _holds(plane, a, down) else -_FAR, length if _holds(plane, b, along) else _FAR)
    return EdgeBand(plane, a, along, inward, length, ends)


def _holds(plane: Plane, point: Point, way: Point) -> bool:
    """Whether the plane goes on from a point in a direction."""
    probe = shapely.Point(point[0] + way[0] * _PROBE_IN, point[1] + way[1] * _PROBE_IN)
    return bool(plane.surface_polygon.contains(probe))
