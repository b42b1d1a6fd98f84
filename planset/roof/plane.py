"""One roof plane, and the way between plan and its surface.

Plan frame: inches, x to the right along the front eave, y away from the front, z up from the
front eave line. Plane frame: u along the eave from its left end (facing the plane from its
eave), v up the slope on the surface, both in inches.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property

from shapely import Polygon

Point = tuple[float, float]
Point3 = tuple[float, float, float]
Ring = tuple[Point, ...]


@dataclass(frozen=True)
class Plane:
    """One roof plane.

    Attributes:
        id: Name, unique on the job, e.g. "front".
        outline: Corners in plan, counterclockwise [in].
        pitch: Rise per run, unitless; 0 on a level roof.
        downslope: Unit vector in plan that water follows.
        origin: Plan position of u = 0, v = 0: the left end of the eave line [in].
        eave_height_in: Height of the eave line above the front eave line [in].
        azimuth_deg: Compass bearing the plane faces, from true north [deg].
        holes: What a dormer takes out of the plane, corners in plan, clockwise [in].
        building: Id of the building it covers, "" for the house itself.
    """

    id: str
    outline: Ring
    pitch: float
    downslope: Point
    origin: Point
    eave_height_in: float
    azimuth_deg: float
    holes: tuple[Ring, ...] = field(default=())
    building: str = ""

    @property
    def slope_factor(self) -> float:
        """Length up the slope over its length in plan, unitless."""
        return math.hypot(1.0, self.pitch)

    @property
    def slope_deg(self) -> float:
        """Angle from the horizontal, without noise that could cross a limit of a figure [deg]."""
        return round(math.degrees(math.atan(self.pitch)), 9)

    @property
    def along(self) -> Point:
        """Unit vector in plan of u: to the right when facing the plane from its eave."""
        return (-self.downslope[1], self.downslope[0])

    def to_surface(self, point: Point) -> Point:
        """A plan point as (u, v) on the plane [in]."""
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        u = dx * self.along[0] + dy * self.along[1]
        run = -(dx * self.downslope[0] + dy * self.downslope[1])
        return (u, run * self.slope_factor)

    def to_plan(self, surface: Point) -> Point:
        """A point (u, v) on the plane, in plan [in]."""
        u, v = surface
        run = v / self.slope_factor
        return (
            self.origin[0] + u * self.along[0] - run * self.downslope[0],
            self.origin[1] + u * self.along[1] - run * self.downslope[1],
        )

    def height_at(self, point: Point) -> float:
        """Height of the plane, or of its continuation, over a plan point [in]."""
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        run = -(dx * self.downslope[0] + dy * self.downslope[1])
        return self.eave_height_in + run * self.pitch

    def lift(self, point: Point) -> Point3:
        """A plan point with its height on the plane [in]."""
        return (point[0], point[1], self.height_at(point))

    @property
    def rings(self) -> tuple[Ring, ...]:
        """The outline, then the holes, in plan: the plane always lies left of each [in]."""
        return (self.outline, *self.holes)

    @cached_property
    def surface_outline(self) -> Ring:
        """Corners as (u, v) [in]."""
        return tuple(self.to_surface(corner) for corner in self.outline)

    @cached_property
    def surface_polygon(self) -> Polygon:
        """The plane in its own frame, (u, v), holes taken out [in]."""
        holes = [[self.to_surface(corner) for corner in hole] for hole in self.holes]
        return Polygon(self.surface_outline, holes)

    @property
    def plan_area_sqin(self) -> float:
        """Area in plan, holes taken out [sq in]."""
        return polygon_area(self.outline) - sum(polygon_area(hole) for hole in self.holes)

    @property
    def surface_area_sqin(self) -> float:
        """Area on the surface, holes taken out [sq in]."""
        return self.plan_area_sqin * self.slope_factor


def polygon_area(points: Iterable[Point]) -> float:
    """Area of a polygon in the plane, unsigned [square of the unit of the points]."""
    listed = list(points)
    shifted = listed[1:] + listed[:1]
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(listed, shifted, strict=True))
    return abs(twice) / 2


def sides(ring: Ring) -> list[tuple[Point, Point]]:
    """The sides of a ring, each from corner to corner in its order."""
    return list(zip(ring, ring[1:] + ring[:1], strict=True))
