"""Clear strips, clearances and the area ratio that fire access is judged by.

Arrays that are there already count with the new ones. Distances are on the roof surface,
perpendicular to the edge they are measured from; the area ratio alone is in plan. All of it is
geometry: what is enough is decided by the rules.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from planset.design.access.clearances import (
    ArrayGap,
    EdgeClearance,
    RidgeClearance,
    array_gaps,
    edge_clearances,
    ridge_clearances,
)
from planset.design.access.fire_walls import areas_in, beside_units, units
from planset.design.access.pitch_breaks import strips_to_ridge
from planset.design.access.strips import ClearStrip, EdgeStrip, clear_strips, edge_strips
from planset.design.layout import (
    ArrayOnRoof,
    PlacedArray,
    PlacedObstruction,
    all_arrays,
)
from planset.job.solid import dormer_planes
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Coverage:
    """What the arrays of a building cover of its roof, or of one plane; both in plan.

    Attributes:
        building: Id of the building, "" for the house.
        arrays_sqin: The arrays [sq in].
        roof_sqin: The roof, overhangs included, what lies on top of each other counted once, or
            the plane [sq in].
        surface_sqin: The arrays on the surface [sq in].
        between_walls: Whether it is that of a unit between fire walls, more than of the row.
    """

    building: str
    arrays_sqin: float
    roof_sqin: float
    surface_sqin: float
    between_walls: bool = False

    @property
    def percent(self) -> float:
        """Arrays over roof [%]."""
        return 100 * self.arrays_sqin / self.roof_sqin


@dataclass(frozen=True, slots=True)
class AccessGeometry:
    """Everything fire access is judged by.

    Attributes:
        strips: Clear strips straight up the slope, widest first within each plane.
        edge_strips: What is clear along hips and valleys.
        ridges: One entry per array and ridge above it.
        edges: One entry per array and edge of its plane.
        gaps: One entry per two arrays of a plane.
        buildings: What is covered of each building's roof, "" for the house.
        planes: What is covered of each plane that carries an array.
    """

    strips: tuple[ClearStrip, ...]
    edge_strips: tuple[EdgeStrip, ...]
    ridges: tuple[RidgeClearance, ...]
    edges: tuple[EdgeClearance, ...]
    gaps: tuple[ArrayGap, ...]
    buildings: Mapping[str, Coverage]
    planes: Mapping[str, Coverage]

    @property
    def array_plan_area_sqin(self) -> float:
        """All arrays of the house in plan [sq in]."""
        return self.buildings[""].arrays_sqin

    @property
    def roof_plan_area_sqin(self) -> float:
        """The whole roof of the house in plan, overhangs included [sq in]."""
        return self.buildings[""].roof_sqin

    @property
    def area_ratio_percent(self) -> float:
        """Arrays over whole roof of the house, both in plan [%]."""
        return self.buildings[""].percent

    def strips_on(self, plane_id: str) -> tuple[ClearStrip, ...]:
        """The strips straight up one plane, or over it from or to a pitch break, widest first."""
        return tuple(strip for strip in self.strips if plane_id in strip.planes)

    def edge_strips_on(self, plane_id: str) -> tuple[EdgeStrip, ...]:
        """The strips along the hips and valleys of one plane."""
        return tuple(strip for strip in self.edge_strips if strip.plane == plane_id)


def measured_access(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
) -> AccessGeometry:
    """Measure the roof of a job, as its jurisdiction counts overhangs."""
    job = inputs.job
    names = {plane.building for plane in roof.planes}
    return access_geometry(
        roof,
        arrays,
        obstructions,
        {name: uncounted_overhang_in(inputs, name) for name in names},
        count_overhang=False,
        dormer_planes=dormer_planes(job.roof, job.other_buildings),
        fire_walls=job.building.fire_walls or (),
    )


def uncounted_overhang_in(inputs: Inputs, building: str) -> float:
    """What of the rakes of a building does not count for a pathway in the jurisdiction [in]."""
    if inputs.jurisdiction.access.pathway_on_overhang.value:
        return 0.0
    return inputs.job.roof_over(building).rake_overhang


def access_geometry(
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
    rake_overhang_in: float | Mapping[str, float],
    *,
    count_overhang: bool,
    dormer_planes: frozenset[str] = frozenset(),
    fire_walls: Sequence[float] = (),
) -> AccessGeometry:
    """Measure the roof for fire access.

    Args:
        roof: The roof.
        arrays: Placed arrays.
        obstructions: Placed obstructions; a vent pipe does not close a strip.
        rake_overhang_in: Overhang at the rakes, of all buildings or by building [in].
        count_overhang: Whether a strip may lie over the rake overhang (a local reading).
        dormer_planes: Ids of the planes of dormers.
        fire_walls: Where they part the house into units, along the front in plan [in].
    """
    house = [array for array in arrays if not array.plane.building]
    blocked = {plane.id: blocked_on(plane, arrays, obstructions) for plane in roof.planes}
    for plane in roof.planes_of("") if fire_walls else ():
        blocked[plane.id] = blocked[plane.id].union(beside_units(plane, fire_walls, house))

    def clear_on(plane: Plane) -> list[ClearStrip]:
        given = rake_overhang_in
        overhang = given if isinstance(given, float | int) else given[plane.building]
        counted = 0.0 if count_overhang else overhang
        return clear_strips(roof, plane, blocked[plane.id], counted)

    strips: list[ClearStrip] = []
    along: list[EdgeStrip] = []
    for plane in roof.planes:
        strips += strips_to_ridge(roof, plane, clear_on)
        along += edge_strips(roof, plane, blocked[plane.id])
    every = all_arrays(arrays, obstructions)
    carrying = {array.plane.id: array.plane for array in every}
    buildings = dict.fromkeys(("", *(plane.building for plane in roof.planes)))
    return AccessGeometry(
        tuple(strips),
        tuple(along),
        tuple(ridge_clearances(roof, every, dormer_planes)),
        tuple(edge_clearances(roof, every)),
        tuple(array_gaps(every)),
        {
            name: _worst_coverage(every, roof.planes_of(name), () if name else fire_walls)
            for name in buildings
        },
        {name: _coverage(every, (plane,)) for name, plane in carrying.items()},
    )


def blocked_on(
    plane: Plane, arrays: tuple[PlacedArray, ...], obstructions: tuple[PlacedObstruction, ...]
) -> BaseGeometry:
    """What closes a pathway on a plane: hardware, and obstructions larger than a vent pipe."""
    standing = [array.occupied for array in arrays if array.plane.id == plane.id]
    standing += [
        shapely.box(item.surface.x0, item.surface.y0, item.surface.x1, item.surface.y1)
        for item in obstructions
        if item.plane.id == plane.id and not item.minor
    ]
    return shapely.union_all(standing)


def _worst_coverage(
    arrays: tuple[ArrayOnRoof, ...], planes: tuple[Plane, ...], walls: Sequence[float]
) -> Coverage:
    """What the arrays cover of a building, or of the unit between fire walls they cover most."""
    found = [_coverage(arrays, planes)]
    names = {plane.id for plane in planes}
    on = [array for array in arrays if array.plane.id in names]
    for unit in units(walls) if walls else ():
        covered, roof = areas_in(unit, on, planes)
        found.append(replace(found[0], arrays_sqin=covered, roof_sqin=roof, between_walls=True))
    return max(found, key=lambda coverage: coverage.percent)


def _coverage(arrays: tuple[ArrayOnRoof, ...], planes: tuple[Plane, ...]) -> Coverage:
    """What the arrays cover of some planes, whose union in plan counts."""
    names = {plane.id for plane in planes}
    on = [array for array in arrays if array.plane.id in names]
    outlines = [Polygon(plane.outline, plane.holes) for plane in planes]
    return Coverage(
        planes[0].building if planes else "",
        sum(array.plan_area_sqin for array in on),
        float(shapely.union_all(outlines).area),
        sum(array.surface_area_sqin for array in on),
    )
