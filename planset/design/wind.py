"""Wind on the roof: site pressure, zones of each plane, limits of the panel method."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from planset.codes.asce7 import solar_panels
from planset.codes.asce7.roof_figures import RoofFigure
from planset.codes.asce7.standard import Standard, load_standard
from planset.codes.asce7.wind import VelocityPressure, edge_strip_ft
from planset.design.layout import PlacedArray
from planset.design.wind_arrays import clearance_in
from planset.design.wind_shape import BuildingSize, Family, building_size, zone_edges
from planset.design.wind_zones import ZoneRegion, by_severity, zone_regions
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

SUPPORTED_EDITIONS = (2016,)
_GABLE_PLANES = ("front", "back")
_HIGHEST_FT = 60.0  # mean roof height the figures hold for (ASCE 7-16, 30.3 [from memory])
_SLOPE_FIGURES_DEG = (7.0, 45.0)


@dataclass(frozen=True, slots=True)
class SiteWind:
    """What the site and the building make of the wind.

    Attributes:
        standard: The edition of ASCE 7 it is computed by.
        velocity: Velocity pressure at the mean roof height.
        strip_in: Width a of the edge zones, in plan [in].
    """

    standard: Standard
    velocity: VelocityPressure
    strip_in: float

    @property
    def mean_roof_height_ft(self) -> float:
        """Mean roof height h [ft]."""
        return self.velocity.height_ft

    @property
    def kz(self) -> float:
        """Exposure coefficient, unitless."""
        return self.velocity.kz

    @property
    def ke(self) -> float:
        """Ground elevation factor, unitless."""
        return self.velocity.ke

    @property
    def qh_psf(self) -> float:
        """Velocity pressure at h as the edition prints it [psf]."""
        return self.velocity.q_psf


@dataclass(frozen=True, slots=True)
class MethodCheck:
    """Whether the method for panels parallel to the roof holds for an array.

    Attributes:
        array: Id of the array.
        clearance_in: Least distance of the modules from an edge or ridge, on the surface [in].
        unmet: The limits that do not hold; empty when all do.
    """

    array: str
    clearance_in: float
    unmet: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Whether the pressure equalization factor may be used."""
        return not self.unmet


def reason_not_computed(inputs: Inputs, roof: Roof) -> str:
    """Why wind loads can't be computed for this job, "" when they can."""
    loads = inputs.jurisdiction.codes.loads
    if loads.code != "ASCE 7" or loads.edition not in SUPPORTED_EDITIONS:
        return f"wind loads of {loads.code} edition {loads.edition} are not computed yet"
    planes = tuple(plane.id for plane in roof.planes)
    if inputs.job.roof.shape != "gable" or planes != _GABLE_PLANES:
        return "wind zones are computed for a plain gable roof only so far"
    low, high = _SLOPE_FIGURES_DEG
    for plane in roof.planes:
        if not low < plane.slope_deg <= high:
            return f"plane {plane.id} slopes {plane.slope_deg:.1f} deg, outside the gable figures"
    height_ft = size_of(inputs, roof).mean_roof_height_in / 12
    if height_ft > _HIGHEST_FT:
        over = f"over the {_HIGHEST_FT:g} ft of the gable figures"
        return f"the mean roof height is {height_ft:.1f} ft, {over}"
    return ""


def site_wind(inputs: Inputs, roof: Roof) -> SiteWind:
    """Velocity pressure and edge strip of the site, ASCE 7 chapter 26 and Figure 30.3-2."""
    standard = load_standard(inputs.jurisdiction.codes.loads.edition)
    site = inputs.job.site
    size = size_of(inputs, roof)
    least_ft, height_ft = size.least_dimension_in / 12, size.mean_roof_height_in / 12
    velocity = standard.velocity_pressure(
        height_ft, site.exposure, site.topographic_factor, site.elevation / 12, site.wind_speed
    )
    return SiteWind(standard, velocity, edge_strip_ft(least_ft, height_ft) * 12)


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


def gable_zones(
    figure: RoofFigure, roof: Roof, plane: Plane, strip_in: float
) -> tuple[ZoneRegion, ...]:
    """Zones of a gable plane, Figures 30.3-2B to 2D of ASCE 7.

    Args:
        figure: The figure of its slope.
        roof: The roof.
        plane: A plane of it.
        strip_in: Width a of the strips in plan [in]; up the slope it grows by the slope factor.
    """
    edges = zone_edges(roof, plane, Family.GABLE)
    return zone_regions(plane, edges, figure.zone_map, strip_in, by_severity(figure))


def method_check(roof: Roof, array: PlacedArray, height_above_roof_in: float) -> MethodCheck:
    """Limits of ASCE 7-16, 29.4.4 for an array parallel to the roof.

    Args:
        roof: The roof.
        array: The array.
        height_above_roof_in: Top of the modules above the roof surface [in].
    """
    clearance = clearance_in(roof, array.plane, [module.surface for module in array.modules])
    unmet = solar_panels.method_limits(
        max(height_above_roof_in, 0.0),  # structure.rail-clearance fails modules within the tile
        array.given.gap,
        max(array.product.width, array.product.height),
        clearance,
        0.0,
    )
    return MethodCheck(array.id, clearance, unmet)
