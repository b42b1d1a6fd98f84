"""Wind zones of a roof plane as regions on its surface.

A zone map says how far from which kind of edge a zone reaches. Strips are measured in plan, square
to the edge and from the outermost line of the roof, overhang included, so that up the slope a
strip measures its width times the slope factor. Valleys and the lines where a wall stands on the
roof carry no strip: no map names them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np
import shapely
from shapely import Polygon, STRtree, box, union_all
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from planset.codes.asce7.roof_figures import RoofFigure
from planset.codes.asce7.zone_maps import Corner, ZoneMap
from planset.drawing.geometry import Box
from planset.roof.edges import TOUCH_IN
from planset.roof.plane import Plane, Point

RANKED_AT_SQFT = 10.0
"""Area of a small attachment, on which zones and figures are ranked by suction [sq ft]."""

_NOISE_SQIN = 1e-6  # what is smaller is noise of the cutting
_GRID_IN = 1e-6  # corners nearer than that are one
_SPIKE_IN = 1e-3  # of outline lost with what has no width
_LEAST_TURN_DEG = 1.0  # two edges that turn less go straight on and make no corner


@dataclass(frozen=True, slots=True)
class ZoneEdge:
    """An edge that zones are measured from.

    Attributes:
        kind: What it counts as in the zone map.
        start: One end in plan; the roof lies to the left on the way to the other [in].
        end: The other end [in].
        own: Whether it bounds the plane itself, not one that goes on from it.
    """

    kind: str
    start: Point
    end: Point
    own: bool = True


@dataclass(frozen=True, slots=True)
class ZoneRegion:
    """A part of a plane in one wind zone.

    Attributes:
        zone: Zone name of the figure, e.g. "2r".
        surface: Its extent on the plane, (u, v) [in].
    """

    zone: str
    surface: Polygon


@dataclass(frozen=True, slots=True)
class ZonesTouched:
    """The zones that an area reaches into.

    Attributes:
        shares: Zone and its share of the area, unitless, in the order of the regions.
        off_plane: Share of the area beyond the plane, unitless.
    """

    shares: tuple[tuple[str, float], ...]
    off_plane: float

    @property
    def zones(self) -> tuple[str, ...]:
        """The zones by name."""
        return tuple(zone for zone, _ in self.shares)


def by_severity(figure: RoofFigure) -> tuple[str, ...]:
    """Zones of a figure, mild to severe by suction at its slope.

    Two zones of which the curves cross are ranked on the area of a small attachment; that of
    zones with one curve counts as more severe which the figure's plan ranks so.
    """
    return tuple(sorted(figure.zones, key=lambda zone: -figure.gcp_uplift(zone, RANKED_AT_SQFT)))


def zone_regions(
    plane: Plane,
    edges: Iterable[ZoneEdge],
    zone_map: ZoneMap,
    measure_in: float,
    severity: Sequence[str] = (),
) -> tuple[ZoneRegion, ...]:
    """The zones of a plane: regions that cover it and do not overlap, the most severe first.

    Where strips overlap, as on a narrow plane, the more severe zone wins.

    Args:
        plane: Any plane.
        edges: The edges the zones are measured from.
        zone_map: The figure's zones.
        measure_in: The map's measure: a, or h on a flat roof [in].
        severity: Its zones, mild to severe, by the coefficients of the slope; the order of the
            map where none is given.

    Raises:
        ValueError: The order leaves a zone of the map out.
    """
    order = tuple(severity) or zone_map.zones
    missing = set(zone_map.zones).difference(order)
    if missing:
        msg = f"zones {', '.join(sorted(missing))} have no place in the order of severity"
        raise ValueError(msg)
    bands = _bands(tuple(edges), zone_map, measure_in)
    left: BaseGeometry = Polygon(plane.outline, plane.holes)
    regions: list[ZoneRegion] = []
    for zone in reversed(order):
        if zone in bands and zone != zone_map.interior:
            reached = union_all(bands[zone])
            regions += _regions(plane, zone, left.intersection(reached))
            left = left.difference(reached)
    return (*regions, *_regions(plane, zone_map.interior, left))


def zones_touched(
    regions: Sequence[ZoneRegion], areas: Sequence[Box | Polygon]
) -> tuple[ZonesTouched, ...]:
    """The zones that each of many areas on one plane reaches into, and how much of it lies in each.

    Args:
        regions: The zones of the plane.
        areas: Areas on the plane, (u, v) [in].
    """
    shapes = np.array([region.surface for region in regions], dtype=object)
    asked = np.array([_polygon(area) for area in areas], dtype=object)
    which, where = STRtree(shapes).query(asked, predicate="intersects")
    shared = shapely.area(shapely.intersection(asked[which], shapes[where]))
    sizes = shapely.area(asked)
    shares: list[dict[int, float]] = [{} for _ in areas]
    for area, place, part in zip(which.tolist(), where.tolist(), shared.tolist(), strict=True):
        if part > _NOISE_SQIN:
            shares[area][place] = part / float(sizes[area])
    return tuple(_touched(regions, of_area) for of_area in shares)


@dataclass(frozen=True, slots=True)
class ZoneStretch:
    """From where to where a strip of a plane lies in a zone, measured along the strip.

    Attributes:
        zone: Zone name of the figure.
        low_in: Its lower or left end [in].
        high_in: Its other end [in].
    """

    zone: str
    low_in: float
    high_in: float


def zones_along(
    regions: Sequence[ZoneRegion], strips: Sequence[Box], *, up: bool
) -> list[tuple[ZoneStretch, ...]]:
    """Where along each of many strips the zones lie.

    A piece of a strip as wide as the strip touches a zone where it reaches into a stretch of it:
    what a strip and a zone have in common is in parts that hang together.

    Args:
        regions: The zones of the plane.
        strips: Strips on the plane, (u, v) [in].
        up: Whether they run up the slope.
    """
    shapes = np.array([region.surface for region in regions], dtype=object)
    asked = np.array([_polygon(strip) for strip in strips], dtype=object)
    which, where = STRtree(shapes).query(asked, predicate="intersects")
    parts, owner = shapely.get_parts(
        shapely.intersection(asked[which], shapes[where]), return_index=True
    )
    ends = shapely.bounds(parts)[:, [1, 3] if up else [0, 2]].tolist()
    found: list[list[ZoneStretch]] = [[] for _ in strips]
    for part, (low, high), area in zip(
        owner.tolist(), ends, shapely.area(parts).tolist(), strict=True
    ):
        if area > _NOISE_SQIN:
            zone = regions[int(where[part])].zone
            found[int(which[part])].append(ZoneStretch(zone, low, high))
    return [tuple(sorted(stretches, key=_by_place)) for stretches in found]


def _by_place(stretch: ZoneStretch) -> tuple[str, float, float]:
    return stretch.zone, stretch.low_in, stretch.high_in


def _touched(regions: Sequence[ZoneRegion], of_area: dict[int, float]) -> ZonesTouched:
    by_zone: dict[str, float] = {}
    for place in sorted(of_area):
        zone = regions[place].zone
        by_zone[zone] = by_zone.get(zone, 0.0) + of_area[place]
    return ZonesTouched(tuple(by_zone.items()), max(1.0 - sum(by_zone.values()), 0.0))


def _bands(
    edges: tuple[ZoneEdge, ...], zone_map: ZoneMap, measure_in: float
) -> dict[str, list[BaseGeometry]]:
    """What every zone reaches in plan, not yet cut to the plane."""
    bands: dict[str, list[BaseGeometry]] = {}
    for strip in zone_map.strips:
        near, far = strip.start * measure_in, strip.end * measure_in
        for edge in edges:
            if edge.kind == strip.edge:
                # past the ends it fills the wedge that an obtuse corner leaves between two strips
                past = far if edge.own else 0.0
                bands.setdefault(strip.zone, []).append(_band(edge, near, far, past))
    for corner in zone_map.corners:
        for first, second in permutations(edges, 2):
            if (first.kind, second.kind) == corner.edges and _make_corner(first, second):
                bands.setdefault(corner.zone, []).append(_corner(first, second, corner, measure_in))
    return bands


def _corner(first: ZoneEdge, second: ZoneEdge, corner: Corner, measure_in: float) -> BaseGeometry:
    one, other = corner.first * measure_in, corner.second * measure_in
    if corner.leg is None:
        return _near(first, one).intersection(_near(second, other))
    leg = corner.leg * measure_in
    along_first = _near(first, min(one, leg)).intersection(_near(second, other))
    along_second = _near(first, one).intersection(_near(second, min(other, leg)))
    return along_first.union(along_second)


def _near(edge: ZoneEdge, width: float) -> Polygon:
    return _band(edge, 0.0, width, width)


def _band(edge: ZoneEdge, near: float, far: float, past: float) -> Polygon:
    """The area between two distances to the left of an edge, and so far past its ends."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    length = math.dist(edge.start, edge.end)
    dx, dy = (x1 - x0) / length, (y1 - y0) / length
    x0, y0, x1, y1 = x0 - past * dx, y0 - past * dy, x1 + past * dx, y1 + past * dy
    low = near if near > 0 else -TOUCH_IN  # a neighbor's edge may lie that much inside the plane
    return Polygon(
        [
            (x0 - low * dy, y0 + low * dx),
            (x1 - low * dy, y1 + low * dx),
            (x1 - far * dy, y1 + far * dx),
            (x0 - far * dy, y0 + far * dx),
        ]
    )


def _make_corner(one: ZoneEdge, other: ZoneEdge) -> bool:
    """Whether two edges meet in a corner that stands out of the roof."""
    return _turns_out(one, other) or _turns_out(other, one)


def _turns_out(one: ZoneEdge, following: ZoneEdge) -> bool:
    if math.dist(one.end, following.start) > TOUCH_IN:
        return False
    ax, ay = one.end[0] - one.start[0], one.end[1] - one.start[1]
    bx, by = following.end[0] - following.start[0], following.end[1] - following.start[1]
    return math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by)) > _LEAST_TURN_DEG


def _without_spikes(area: BaseGeometry) -> BaseGeometry:
    """An area without what runs out and back on one line, which noise of arithmetic leaves."""
    snapped = shapely.set_precision(area, _GRID_IN)
    return snapped if area.length - snapped.length > _SPIKE_IN else area


def _regions(plane: Plane, zone: str, area: BaseGeometry) -> list[ZoneRegion]:
    parts = shapely.get_parts(area).tolist() if not isinstance(area, Polygon) else [area]
    polygons = [
        polygon
        for part in parts
        for polygon in shapely.get_parts(_without_spikes(part)).tolist()
        if isinstance(polygon, Polygon) and polygon.area > _NOISE_SQIN
    ]
    lifted = [_on_surface(plane, polygon) for polygon in polygons]
    lifted.sort(key=lambda polygon: polygon.bounds[:2])
    return [ZoneRegion(zone, polygon) for polygon in lifted]


def _on_surface(plane: Plane, polygon: Polygon) -> Polygon:
    (ax, ay), (dx, dy), factor = plane.along, plane.downslope, plane.slope_factor
    u, v = plane.to_surface((0.0, 0.0))
    return affine_transform(polygon, [ax, ay, -dx * factor, -dy * factor, u, v])


def _polygon(area: Box | Polygon) -> Polygon:
    return box(area.x0, area.y0, area.x1, area.y1) if isinstance(area, Box) else area
