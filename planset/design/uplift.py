"""Uplift on every attachment, and what lag screws and connector can hold of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.codes.asce7 import solar_panels
from planset.codes.asce7.load_combinations import loads_on_slope
from planset.codes.asce7.roof_figures import RoofFigure
from planset.codes.nds import lag_screws, species
from planset.design.attachments import Attachment, Racking
from planset.design.layout import PlacedArray
from planset.design.wind import MethodCheck, SiteWind, gable_zones
from planset.design.wind_zones import zones_touched
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

HOT_ATTIC_FACTOR = 0.8  # Ct of NDS Table 2.3.3 for 100 to 125 F, taken for every roof: assumption
DRY_FACTOR = 1.0  # CM for wood at 19 % moisture or less in service: assumption
_SPACING_DIAMETERS = 4.0  # lag to lag along the grain (NDS 2018, Table 12.5.1E [from memory])


@dataclass(frozen=True, slots=True)
class UpliftDemand:
    """Uplift on one attachment, ASD combination 0.6 D + 0.6 W.

    Attributes:
        attachment: Id of the attachment.
        zone: The worst wind zone its tributary area touches; off the plane the worst there is.
        area_sqft: Tributary area, also the effective wind area [sq ft].
        gcp: External pressure coefficient of the zone, negative, unitless.
        edge_factor: gamma_E, unitless.
        equalization: gamma_a, unitless; 1.0 where the method's limits do not hold.
        pressure_psf: Design pressure, negative away from the roof [psf].
        minimum_governs: Whether the least pressure of 16 psf governs.
        dead_lb: Dead load on the tributary area [lb].
        demand_lb: Net uplift normal to the roof, continuity included; 0 when none [lb].
    """

    attachment: str
    zone: str
    area_sqft: float
    gcp: float
    edge_factor: float
    equalization: float
    pressure_psf: float
    minimum_governs: bool
    dead_lb: float
    demand_lb: float


@dataclass(frozen=True, slots=True)
class Fastening:
    """The lag screws of one attachment in the job's own framing.

    Attributes:
        array: Id of the array.
        count: Lag screws per attachment.
        covered_in: What the screw passes before the rafter: plate, underlayment, deck [in].
        penetration_in: Thread in the rafter, tip not counted, of the screw or of the
            rafter's depth, whichever is less [in].
        minimum_in: Least penetration, tip not counted [in].
        gravity: Specific gravity of the rafter's wood, unitless.
        withdrawal_lb_per_in: Reference withdrawal value W [lb/in].
        temperature: Ct, unitless.
        lag_capacity_lb: All screws together, wind duration, ASD [lb].
        connector_capacity_lb: The maker's allowable uplift of the connector [lb].
        pilot_in: The lead hole the maker asks for [in].
        pilot_range_in: Range of lead holes for this wood and screw [in].
        edge_distance_in: Least distance from the rafter's edge [in].
        side_room_in: How far a screw may stand off the rafter's centerline [in].
        spacing_in: Screw to screw along the rafter, None with one screw [in].
        minimum_spacing_in: Least such spacing [in].
    """

    array: str
    count: int
    covered_in: float
    penetration_in: float
    minimum_in: float
    gravity: float
    withdrawal_lb_per_in: float
    temperature: float
    lag_capacity_lb: float
    connector_capacity_lb: float
    pilot_in: float
    pilot_range_in: tuple[float, float]
    edge_distance_in: float
    side_room_in: float
    spacing_in: float | None
    minimum_spacing_in: float


def uplift_demands(
    site: SiteWind, roof: Roof, array: PlacedArray, racking: Racking, method: MethodCheck
) -> tuple[UpliftDemand, ...]:
    """Demand on every attachment of one array, ASCE 7-16 29.4.4 and 2.4.1.

    The edge factor 1.5 is taken for uplift on every attachment, which is safe wherever the
    exposed edges are. An attachment beyond the modules, which takes no share of their area, has
    no demand.
    """
    dead_psf = array.system.dead_load_psf
    figure = site.standard.roof_figure("gable", array.plane.slope_deg)
    regions = gable_zones(figure, roof, array.plane, site.strip_in)
    loaded = [item for item in racking.attachments if item.tributary_sqft > 0]
    touched = zones_touched(regions, [item.tributary for item in loaded])
    everywhere = tuple(region.zone for region in regions)
    return tuple(
        _demand(
            item, array, site, figure, of_item.zones or everywhere, dead_psf, equalized=method.holds
        )
        for item, of_item in zip(loaded, touched, strict=True)
    )


def fastening(inputs: Inputs, array: PlacedArray) -> Fastening:
    """Lag screws of an array's attachments, NDS 2018 chapter 12."""
    attachment = array.system.attachment
    lags, framing = attachment.lags, inputs.framing
    covered = attachment.plate_thickness + framing.underlayment + framing.sheathing
    penetration = lag_screws.thread_penetration_in(lags.length, lags.diameter, covered)
    tip = lag_screws.lag_dimensions(lags.diameter).tip_in
    penetration = min(penetration, framing.member_depth_in - tip)
    gravity = species.specific_gravity(framing.species)
    w = lag_screws.withdrawal_lb_per_in(gravity, lags.diameter)
    one_lag = lag_screws.adjusted_withdrawal_lb(
        w, penetration, lag_screws.LOAD_DURATION["wind"], DRY_FACTOR, HOT_ATTIC_FACTOR
    )
    edge = lag_screws.edge_distance_in(lags.diameter)
    return Fastening(
        array=array.id,
        count=lags.count,
        covered_in=covered,
        penetration_in=penetration,
        minimum_in=lag_screws.minimum_penetration_in(lags.diameter),
        gravity=gravity,
        withdrawal_lb_per_in=w,
        temperature=HOT_ATTIC_FACTOR,
        lag_capacity_lb=one_lag * lags.count,
        connector_capacity_lb=attachment.uplift.capacity,
        pilot_in=lags.pilot,
        pilot_range_in=lag_screws.pilot_hole_range_in(gravity, lags.diameter),
        edge_distance_in=edge,
        side_room_in=framing.member_width_in / 2 - edge,
        spacing_in=lags.spacing if lags.count > 1 else None,
        minimum_spacing_in=_SPACING_DIAMETERS * lags.diameter,
    )


def _demand(
    attachment: Attachment,
    array: PlacedArray,
    site: SiteWind,
    figure: RoofFigure,
    zones: tuple[str, ...],
    dead_psf: float,
    *,
    equalized: bool,
) -> UpliftDemand:
    area = attachment.tributary_sqft
    zone, gcp = figure.worst(zones, area)
    equalization = solar_panels.pressure_equalization(area) if equalized else 1.0
    edge_factor = solar_panels.EDGE_FACTOR_EXPOSED
    pressure = site.standard.panel_pressure(site.velocity, gcp, edge_factor, equalization)
    loads = loads_on_slope(
        area,
        array.plane.slope_deg,
        dead_psf=dead_psf,
        least_dead_psf=dead_psf,
        roof_live_psf=0.0,
        snow_psf=0.0,
        wind_down_psf=0.0,
        wind_up_psf=abs(pressure.pressure_psf),
    )
    net = -site.standard.combine(loads).uplift.normal_lb
    return UpliftDemand(
        attachment.id,
        zone,
        area,
        gcp,
        edge_factor,
        equalization,
        pressure.pressure_psf,
        pressure.minimum_governs,
        loads.dead_lb,
        max(net, 0.0) * attachment.continuity,
    )
