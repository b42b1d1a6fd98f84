"""Roof planes from bodies: each body a roof of its own, the roof whatever lies on top.

A body is a footprint under a few slopes, and its roof is the lowest of them at every point. Where
bodies overlap in plan the highest shows. Valleys, wings that die into a main roof and dormers that
stand out of it follow from that alone.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import MultiPolygon, Polygon, difference, make_valid, union_all
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from planset.roof.plane import Plane, Point, Ring

_FAR_IN = 1e5  # beyond every roof
_SLIVER_SQIN = 4.0  # what is smaller is noise of the cutting
_GRID_IN = 1e-7
"""Corners are cut to this, so that those of neighbors are the same."""

_DECIMALS = 7


@dataclass(frozen=True, slots=True)
class Slope:
    """An endless slope.

    Attributes:
        id: Id of the plane it makes.
        downslope: Unit vector in plan that water follows.
        at: A plan point of its eave line [in].
        height_in: Height of the eave line [in].
        pitch: Rise per run, unitless.
    """

    id: str
    downslope: Point
    at: Point
    height_in: float
    pitch: float

    @property
    def gradient(self) -> Point:
        """Rise per inch in x and in y, unitless."""
        return (-self.downslope[0] * self.pitch, -self.downslope[1] * self.pitch)

    def height(self, point: Point) -> float:
        """Height over a plan point [in]."""
        gx, gy = self.gradient
        return self.height_in + gx * (point[0] - self.at[0]) + gy * (point[1] - self.at[1])


@dataclass(frozen=True, slots=True)
class Body:
    """A footprint in plan under a roof of its own.

    Attributes:
        footprint: Corners of a convex area, counterclockwise [in].
        slopes: Its slopes; the roof is the lowest of them.
    """

    footprint: Ring
    slopes: tuple[Slope, ...]

    def height(self, point: Point) -> float:
        """Height of its roof over a plan point [in]."""
        return min(slope.height(point) for slope in self.slopes)

    def region(self, slope: Slope) -> BaseGeometry:
        """Where one of its slopes is the lowest."""
        area: BaseGeometry = Polygon(self.footprint)
        for other in self.slopes:
            if other is not slope:
                area = area.intersection(_where_lower(slope, other))
        return area


def planes_of(bodies: tuple[Body, ...], front_azimuth_deg: float) -> tuple[Plane, ...]:
    """The planes that show, body by body and slope by slope.

    A slope cut into several pieces gives planes numbered from the left: "front-1", "front-2".

    Args:
        bodies: The bodies; where two are equally high the earlier shows.
        front_azimuth_deg: Compass bearing that -y of the plan faces [deg].
    """
    planes: list[Plane] = []
    for number, body in enumerate(bodies):
        for slope in body.slopes:
            shown: BaseGeometry = body.region(slope)
            for place, other in enumerate(bodies):
                if place != number:
                    above = _covered(slope, other, earlier=place < number)
                    shown = _polygonal(difference(shown, above, grid_size=_GRID_IN))
            pieces = _pieces(shown)
            for piece, outline in enumerate(pieces, start=1):
                name = slope.id if len(pieces) == 1 else f"{slope.id}-{piece}"
                planes.append(_plane(name, slope, outline, front_azimuth_deg))
    return tuple(planes)


def plane_on(
    name: str, outline: Ring, slope: Slope, front_azimuth_deg: float, holes: tuple[Ring, ...] = ()
) -> Plane:
    """A plane with its frame: u = 0 at the left end of its lowest line, v = 0 on that line.

    Args:
        name: Id of the plane.
        outline: Corners in plan, counterclockwise [in].
        slope: The slope it lies on.
        front_azimuth_deg: Compass bearing that -y of the plan faces [deg].
        holes: Corners of holes in plan, clockwise [in].
    """
    dx, dy = slope.downslope
    along = (-dy, dx)
    heights = [slope.height(corner) for corner in outline]
    lowest = min(heights)
    low = [c for c, h in zip(outline, heights, strict=True) if h - lowest < 0.01]
    if slope.pitch == 0:  # level: the edge toward the front is the lowest line
        reach = max(x * dx + y * dy for x, y in outline)
        low = [c for c in outline if reach - (c[0] * dx + c[1] * dy) < 0.01]
    origin = min(low, key=lambda corner: corner[0] * along[0] + corner[1] * along[1])
    azimuth = (front_azimuth_deg - math.degrees(math.atan2(dx, -dy))) % 360
    first = outline.index(origin)
    return Plane(
        id=name,
        outline=outline[first:] + outline[:first],
        pitch=slope.pitch,
        downslope=slope.downslope,
        origin=origin,
        eave_height_in=slope.height(origin),
        azimuth_deg=round(azimuth, 9) % 360,
        holes=holes,
    )


def _where_lower(slope: Slope, other: Slope) -> Polygon:
    """Where a slope is not above another: a half-plane, everything or nothing."""
    gx = other.gradient[0] - slope.gradient[0]
    gy = other.gradient[1] - slope.gradient[1]
    steepness = math.hypot(gx, gy)
    offset = other.height((0.0, 0.0)) - slope.height((0.0, 0.0))
    if steepness < 1e-12:
        return _half_plane((1.0, 0.0), (-_FAR_IN, 0.0)) if offset >= 0 else Polygon()
    inward = (gx / steepness, gy / steepness)
    shift = -offset / steepness
    return _half_plane(inward, (inward[0] * shift, inward[1] * shift))


def _half_plane(inward: Point, at: Point) -> Polygon:
    """A square so large that for a roof it is the half-plane on one side of a line."""
    side = (-inward[1] * _FAR_IN, inward[0] * _FAR_IN)
    deep = (inward[0] * 2 * _FAR_IN, inward[1] * 2 * _FAR_IN)
    return Polygon(
        [
            (at[0] - side[0], at[1] - side[1]),
            (at[0] + side[0], at[1] + side[1]),
            (at[0] + side[0] + deep[0], at[1] + side[1] + deep[1]),
            (at[0] - side[0] + deep[0], at[1] - side[1] + deep[1]),
        ]
    )


def _covered(slope: Slope, other: Body, *, earlier: bool) -> BaseGeometry:
    """Where another body lies above a slope; of equals the earlier body covers."""
    area: BaseGeometry = Polygon()
    for theirs in other.slopes:
        same = (
            math.dist(slope.gradient, theirs.gradient) < 1e-12
            and abs(slope.height((0.0, 0.0)) - theirs.height((0.0, 0.0))) < 1e-9
        )
        above = _where_lower(slope, theirs)
        if same and not earlier:
            continue
        area = area.union(_polygonal(other.region(theirs).intersection(above)))
    return _polygonal(area)


def _polygonal(area: BaseGeometry) -> BaseGeometry:
    """An area without the lines and points that cutting leaves."""
    if isinstance(area, Polygon | MultiPolygon):
        return area
    parts = getattr(make_valid(area), "geoms", [])
    return union_all([part for part in parts if isinstance(part, Polygon | MultiPolygon)])


def _pieces(area: BaseGeometry) -> list[Polygon]:
    """The polygons of an area that are worth the name, from the left."""
    parts = getattr(_polygonal(make_valid(area)), "geoms", [area])
    polygons = [
        orient(part) for part in parts if isinstance(part, Polygon) and part.area > _SLIVER_SQIN
    ]
    return sorted(polygons, key=lambda polygon: (polygon.bounds[0], polygon.bounds[1]))


def _plane(name: str, slope: Slope, piece: Polygon, front_azimuth_deg: float) -> Plane:
    outline = _ring(piece.exterior.coords[:-1])
    holes = tuple(_ring(ring.coords[:-1]) for ring in piece.interiors)
    return plane_on(name, outline, slope, front_azimuth_deg, holes)


def _ring(points: list[Point]) -> Ring:
    """Corners without the noise of cutting, and without those that lie on a straight side."""
    clean: list[Point] = []
    for x, y, *_ in points:
        point = (_rounded(x), _rounded(y))
        if not clean or math.dist(clean[-1], point) > 0.001:
            clean.append(point)
    if len(clean) > 1 and math.dist(clean[0], clean[-1]) <= 0.001:
        clean.pop()
    count = len(clean)
    return tuple(
        here
        for n, here in enumerate(clean)
        if not _straight(clean[n - 1], here, clean[(n + 1) % count])
    )


def _rounded(value: float) -> float:
    return round(value, _DECIMALS) + 0.0  # no negative zero


def _straight(a: Point, b: Point, c: Point) -> bool:
    """Whether a corner lies so near the line of its neighbors that it is none."""
    cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return abs(cross) < 0.001 * math.dist(a, c)
