"""Wind on the roofs of a job: pressure of the site, zones of every plane, limits of the method."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from planset.codes.asce7 import solar_panels
from planset.codes.asce7.roof_figures import RoofFigure
from planset.codes.asce7.standard import SUPPORTED_YEARS, Standard, load_standard
from planset.codes.asce7.wind import VelocityPressure, edge_strip_ft
from planset.design.layout import PlacedArray
from planset.design.wind_arrays import clearance_in
from planset.design.wind_shape import (
    BuildingSize,
    Family,
    building_size,
    figures_of,
    more_suction,
    plane_shape,
    zone_edges,
)
from planset.design.wind_zones import ZoneRegion, by_severity, zone_regions
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class ZonePlan:
    """The zones of a plane by one figure.

    Attributes:
        figure: The figure.
        regions: Its zones on the plane, the most severe first.
    """

    figure: RoofFigure
    regions: tuple[ZoneRegion, ...]


@dataclass(frozen=True, slots=True)
class PlaneWind:
    """How the wind's figures see one plane.

    Attributes:
        plane: Id of the plane.
        plans: Its zones by the figure it takes, and by others that it may take; each attachment
            takes the worst of them. Empty when no figure can be used.
        assumptions: What was judged where the figures draw no such roof.
        reason: Why no figure can be used, "" when one can.
    """

    plane: str
    plans: tuple[ZonePlan, ...]
    assumptions: tuple[str, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class BuildingWind:
    """Wind on one building.

    Attributes:
        building: Its id, "" for the house.
        standard: The edition of ASCE 7 it is computed by.
        velocity: Velocity pressure at the mean roof height.
        size: Height and width of the building.
        strip_in: Width a of the edge zones, in plan [in].
        planes: Its planes by id.
    """

    building: str
    standard: Standard
    velocity: VelocityPressure
    size: BuildingSize
    strip_in: float
    planes: Mapping[str, PlaneWind]

    @property
    def height_ft(self) -> float:
        """Mean roof height h [ft]."""
        return self.velocity.height_ft


@dataclass(frozen=True, slots=True)
class MethodCheck:
    """Whether the method for panels parallel to the roof holds for an array.

    Attributes:
        array: Id of the array.
        height_above_roof_in: Top of the modules above the roof surface, h2 [in].
        clearance_in: Least distance of the modules from an edge or ridge, in plan [in].
        gap_in: Least gap between its modules [in].
        chord_in: The longer side of a module, between two gaps [in].
        unmet: The limits that do not hold; empty when all do.
    """

    array: str
    height_above_roof_in: float
    clearance_in: float
    gap_in: float
    chord_in: float
    unmet: tuple[str, ...]

    @property
    def least_clearance_in(self) -> float:
        """The clearance that the method asks for, 2 h2 [in]."""
        return solar_panels.CLEARANCE_PER_HEIGHT * self.height_above_roof_in

    @property
    def holds(self) -> bool:
        """Whether the pressure equalization factor may be used."""
        return not self.unmet


def standard_of(inputs: Inputs) -> Standard | None:
    """The edition of ASCE 7 the jurisdiction adopts, None where it is not one of ours."""
    loads = inputs.jurisdiction.codes.loads
    known = loads.code == "ASCE 7" and loads.edition in SUPPORTED_YEARS
    return load_standard(loads.edition) if known else None


def building_wind(
    inputs: Inputs, standard: Standard, roof: Roof, building: str
) -> BuildingWind | str:
    """Wind on a building of the job, or why none is computed.

    Source: ASCE 7 chapter 26, 30.3 and the notation of Figure 30.3-2.

    Args:
        inputs: The job.
        standard: The edition of ASCE 7.
        roof: All roofs of the job.
        building: Id of the building, "" for the house.
    """
    size = size_of(inputs, roof, building)
    if size.reason:
        return size.reason
    own, site = roof.over(building), inputs.job.site
    floor = inputs.jurisdiction.minimums.low_exposure_floor
    velocity = standard.velocity_pressure(
        size.mean_roof_height_in / 12,
        site.exposure,
        site.topographic_factor,
        site.elevation / 12,
        site.wind_speed,
        low_exposure_floor=floor is not None and floor.value,
    )
    strip = edge_strip_ft(size.least_dimension_in / 12, velocity.height_ft) * 12
    planes = {plane.id: _plane_wind(standard, own, plane, size, strip) for plane in own.planes}
    return BuildingWind(building, standard, velocity, size, strip, planes)


def size_of(inputs: Inputs, roof: Roof, building: str = "") -> BuildingSize:
    """Sizes of one building of the job.

    Args:
        inputs: The job.
        roof: The roof.
        building: Id of the building, "" for the house.

    Raises:
        KeyError: The job has no such building.
    """
    house = inputs.job.building.eave_height
    if not building:
        given = inputs.job.roof
        return building_size(
            roof.over(""), house, 0.0, max(given.eave_overhang, given.rake_overhang)
        )
    of_id = {other.id: other for other in inputs.job.other_buildings}
    other = of_id[building]
    size = building_size(
        roof.over(building),
        house + other.eave_above,
        other.eave_above,
        max(other.roof.eave_overhang, other.roof.rake_overhang),
    )
    level = f"The ground at {building} is taken to lie level with that at the house."
    return replace(size, assumptions=(level,))


def method_check(roof: Roof, array: PlacedArray, height_above_roof_in: float) -> MethodCheck:
    """Limits of ASCE 7, 29.4.4 for an array parallel to the roof.

    Args:
        roof: The roof.
        array: The array.
        height_above_roof_in: Top of the modules above the roof surface [in].
    """
    clearance = clearance_in(roof, array.plane, [module.surface for module in array.modules])
    height = max(height_above_roof_in, 0.0)  # structure.rail-clearance fails modules in the tile
    gap = min(array.given.gap, array.given.up_gap)
    chord = max(array.product.width, array.product.height)
    unmet = solar_panels.method_limits(height, gap, chord, clearance, 0.0)
    return MethodCheck(array.id, height, clearance, gap, chord, unmet)


def _plane_wind(
    standard: Standard, roof: Roof, plane: Plane, size: BuildingSize, strip_in: float
) -> PlaneWind:
    shape = plane_shape(roof, plane, more_suction(standard, size.height_to_width))
    if shape.reason:
        return PlaneWind(plane.id, (), shape.assumptions, shape.reason)
    chosen_first = sorted(shape.families, key=lambda family: family != shape.family)
    plans = tuple(
        _zone_plan(standard, roof, plane, family, size, strip_in) for family in chosen_first
    )
    doubts = tuple(
        f"Figure {plan.figure.number}: {plan.figure.provisional}"
        for plan in plans
        if plan.figure.provisional
    )
    return PlaneWind(plane.id, plans, (*shape.assumptions, *doubts), "")


def _zone_plan(
    standard: Standard,
    roof: Roof,
    plane: Plane,
    family: Family,
    size: BuildingSize,
    strip_in: float,
) -> ZonePlan:
    figure = standard.roof_figure(figures_of(family), plane.slope_deg, size.height_to_width)
    measure = strip_in if figure.zone_map.measure == "a" else size.mean_roof_height_in
    edges = zone_edges(roof, plane, family)
    severity = by_severity(figure)
    return ZonePlan(figure, zone_regions(plane, edges, figure.zone_map, measure, severity))
