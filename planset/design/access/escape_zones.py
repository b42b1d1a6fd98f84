"""The roof below escape openings, where no modules may lie and a pathway leads up to them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import shapely
from shapely import Polygon

from planset.design.access.geometry import blocked_on
from planset.design.layout import PlacedArray, PlacedObstruction
from planset.job.building import EscapeOpening
from planset.roof.edges import TOUCH_IN
from planset.roof.plane import Plane
from planset.roof.solid import EdgeKind, Roof

_SLIVER_SQIN = 1e-3
_FAR = 1e5


@dataclass(frozen=True, slots=True)
class EscapeZone:
    """The roof below one opening, as wide as it and at least as wide as the pathway, centered.

    It runs from the opening straight down the slope to the edge of its plane. The codes do not
    draw it (interpretation).

    Attributes:
        number: Place of the opening in the job, from 0.
        plane: Its plane.
        ground: The zone, (u, v) [in].
        center_u: The middle of the opening along the eave [in].
        width_in: Width of the zone [in].
        arrays: Ids of the arrays that lie in it.
        clear_in: What is free of hardware, centered on the opening; None where nothing limits
            it [in].
        path_in: The widest strip within the zone that nothing at all stands in [in].
        reaches_eave: Whether it ends at an eave, and not over another plane.
    """

    number: int
    plane: Plane
    ground: Polygon
    center_u: float
    width_in: float
    arrays: tuple[str, ...]
    clear_in: float | None
    path_in: float
    reaches_eave: bool


def escape_zones(
    roof: Roof,
    openings: Iterable[EscapeOpening],
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
    least_in: float,
) -> tuple[EscapeZone, ...]:
    """The zone of every opening.

    Args:
        roof: The roof.
        openings: The openings of the job.
        arrays: The arrays.
        obstructions: The obstructions; a vent pipe does not close a pathway.
        least_in: Least width of a zone [in].
    """
    return tuple(
        _zone(roof, number, opening, arrays, obstructions, least_in)
        for number, opening in enumerate(openings)
    )


def zone_ground(plane: Plane, opening: EscapeOpening, width_in: float) -> Polygon:
    """The part of a plane straight below an opening, (u, v)."""
    center = opening.along + opening.width / 2
    low = plane.surface_polygon.bounds[1] - 1
    swept = shapely.box(center - width_in / 2, low, center + width_in / 2, opening.up)
    parts = shapely.get_parts(swept.intersection(plane.surface_polygon))
    at = shapely.Point(center, opening.up)
    return min(parts, key=lambda part: part.distance(at), default=Polygon())


def _zone(
    roof: Roof,
    number: int,
    opening: EscapeOpening,
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
    least_in: float,
) -> EscapeZone:
    plane = roof.plane(opening.plane)
    width = max(opening.width, least_in)
    ground, center = zone_ground(plane, opening, width), opening.along + opening.width / 2
    on = [array for array in arrays if array.plane.id == plane.id]
    inside = [a.id for a in on if a.occupied.intersection(ground).area > _SLIVER_SQIN]
    _, low, _, high = ground.bounds if not ground.is_empty else (0.0, 0.0, 0.0, 0.0)
    level = shapely.box(-_FAR, low, _FAR, high)
    beside = [shapely.get_parts(array.occupied.intersection(level)) for array in on]
    boxes = [part.bounds for parts in beside for part in parts if part.area > _SLIVER_SQIN]
    near = [max(x0 - center, center - x1, 0.0) for x0, _, x1, _ in boxes]
    closed = blocked_on(plane, arrays, obstructions)
    return EscapeZone(
        number,
        plane,
        ground,
        center,
        width,
        tuple(inside),
        2 * min(near) if near else None,
        _widest(ground, closed),
        _ends_at_eave(roof, plane, center, low),
    )


def _widest(ground: Polygon, closed: shapely.Geometry) -> float:
    """Widest range of u of a zone that nothing stands in [in]."""
    if ground.is_empty:
        return 0.0
    parts = shapely.get_parts(ground.intersection(closed))
    taken = sorted((p.bounds[0], p.bounds[2]) for p in parts if p.area > _SLIVER_SQIN)
    reached, end, widest = ground.bounds[0], ground.bounds[2], 0.0
    for x0, x1 in [*taken, (end, end)]:
        widest = max(widest, x0 - reached)
        reached = max(reached, x1)
    return float(widest)


def _ends_at_eave(roof: Roof, plane: Plane, u: float, v: float) -> bool:
    foot = shapely.Point(u, v)
    return any(
        shapely.LineString([plane.to_surface(end) for end in edge.plan]).distance(foot) < TOUCH_IN
        for edge in roof.edges_of(plane.id, EdgeKind.EAVE)
    )
