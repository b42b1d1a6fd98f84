"""Loads on every attachment: dead, snow and wind on its share of the array, and their sums."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from planset.codes.asce7 import solar_panels
from planset.codes.asce7.load_combinations import (
    AttachmentLoads,
    CombinedLoad,
    CombinedLoads,
    loads_on_slope,
)
from planset.codes.asce7.solar_panels import PanelPressure
from planset.design.layout import PlacedArray
from planset.design.racking import Attachment, Racking
from planset.design.snow import PlaneSnow
from planset.design.wind import BuildingWind, MethodCheck, ZonePlan
from planset.design.wind_arrays import ExposureTest, ModuleExposure, exposures
from planset.design.wind_zones import zones_touched
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

_SQIN_PER_SQFT = 144.0


@dataclass(frozen=True, slots=True)
class AttachmentLoad:
    """Loads on one attachment; positive sizes, from its share of the array.

    Attributes:
        attachment: Id of the attachment.
        array: Id of its array.
        plane: Id of its plane.
        figure: Number of the figure that its zone is of.
        zone: The worst wind zone its share touches; off the plane the worst there is.
        area_sqft: Its share on the slope, also the effective wind area [sq ft].
        gcp_up: External pressure coefficient away from the roof, negative, unitless.
        gcp_down: The same toward the roof, positive, unitless.
        edge_factor: gamma_E of uplift, unitless.
        equalization: gamma_a, unitless; 1.0 where the method's limits do not hold.
        up: Pressure away from the roof, negative.
        down: Pressure toward the roof.
        continuity: Factor for the beam that the rail is, unitless.
        loads: Unfactored loads, before that factor.
        combined: The combinations of them, before that factor.
        reversal: Share of the loads normal to the roof which that beam turns round, unitless.
    """

    attachment: str
    array: str
    plane: str
    figure: str
    zone: str
    area_sqft: float
    gcp_up: float
    gcp_down: float
    edge_factor: float
    equalization: float
    up: PanelPressure
    down: PanelPressure
    continuity: float
    loads: AttachmentLoads
    combined: CombinedLoads
    reversal: float = 0.0

    @property
    def uplift_lb(self) -> float:
        """The greatest pull normal to the roof, 0 when nothing pulls [lb]."""
        pulled, pressed = self._normal_lb
        return max(pulled * self.continuity, pressed * self.reversal)

    @property
    def down_lb(self) -> float:
        """The greatest force toward the roof [lb]."""
        pulled, pressed = self._normal_lb
        return max(pressed * self.continuity, pulled * self.reversal)

    @property
    def pulled_by(self) -> CombinedLoad:
        """The combination of the greatest pull, of one that presses where the rail turns it."""
        pulled, pressed = self._normal_lb
        turned = pressed * self.reversal > pulled * self.continuity
        return self.combined.down if turned else self.combined.uplift

    @property
    def pressed_by(self) -> CombinedLoad:
        """The combination of the greatest force toward the roof."""
        pulled, pressed = self._normal_lb
        turned = pulled * self.reversal > pressed * self.continuity
        return self.combined.uplift if turned else self.combined.down

    @property
    def _normal_lb(self) -> tuple[float, float]:
        combined = self.combined
        return max(-combined.uplift.normal_lb, 0.0), max(combined.down.normal_lb, 0.0)

    @property
    def along_lb(self) -> float:
        """The greatest force down the slope [lb]."""
        return max(self.combined.along.along_lb, 0.0) * self.continuity

    def forces(self) -> tuple[tuple[CombinedLoad, float, float], ...]:
        """Every combination with its forces toward the roof and down the slope [lb].

        A combination that the rail turns round here comes twice.
        """
        ways = (self.continuity, -self.reversal) if self.reversal else (self.continuity,)
        return tuple(
            (load, load.normal_lb * way, load.along_lb * self.continuity)
            for load in self.combined.loads
            for way in ways
        )


def edge_exposures(
    inputs: Inputs,
    roof: Roof,
    array: PlacedArray,
    others: tuple[PlacedArray, ...],
    building: BuildingWind,
    method: MethodCheck,
) -> tuple[ModuleExposure, ...]:
    """The geometric test of the edge factor on every module, empty unless the engineer chose it.

    `roof` is that of the array's own building.

    Source: ASCE 7, 29.4.4.
    """
    engineering = inputs.job.engineering
    if engineering is None or engineering.edge_factor != "exposed_panels":
        return ()
    test = ExposureTest(
        mean_roof_height_in=building.size.mean_roof_height_in,
        height_above_roof_in=method.height_above_roof_in,
        chord_in=max(array.product.width, array.product.height),
    )
    return exposures(roof, array, others, test)


def attachment_loads(
    inputs: Inputs,
    building: BuildingWind,
    array: PlacedArray,
    racking: Racking,
    method: MethodCheck,
    exposed: tuple[ModuleExposure, ...],
    snow: PlaneSnow | None,
) -> tuple[AttachmentLoad, ...]:
    """Loads on every attachment of one array, ASCE 7, 29.4.4, chapter 7 and 2.4.1.

    Unless the engineer chose the geometric test, gamma_E is 1.5 for uplift on every attachment,
    which is safe wherever the exposed edges are. An attachment beyond the modules, which takes no
    share of them, has no load.

    Args:
        inputs: The job.
        building: Wind on the array's building.
        array: The array.
        racking: Its rails and attachments.
        method: Whether the method's limits hold.
        exposed: What the geometric test says of its modules, empty when it was not chosen.
        snow: Snow on its plane, None without any.
    """
    loaded = [item for item in racking.attachments if item.tributary_sqft > 0]
    shares = [item.tributary for item in loaded]
    on_shares = OnShares(inputs, building, array, method, snow)
    touched = [zones_touched(plan.regions, shares) for plan in on_shares.plans]
    factors = {module.module: module.edge_factor for module in exposed}
    found = []
    for place, item in enumerate(loaded):
        zones = tuple(of_plan[place].zones for of_plan in touched)
        factor = _edge_factor(item, array, factors)
        load = on_shares.load(zones, item.tributary_sqft, factor)
        found.append(
            replace(load, attachment=item.id, continuity=item.continuity, reversal=item.reversal)
        )
    return tuple(found)


def _edge_factor(item: Attachment, array: PlacedArray, factors: Mapping[str, float]) -> float:
    """gamma_E of an attachment: the greatest of the modules it holds, 1.5 without any test."""
    exposed = solar_panels.EDGE_FACTOR_EXPOSED
    if not factors:
        return exposed
    held = [m.id for m in array.modules if m.surface.overlaps(item.tributary)]
    return max((factors.get(name, exposed) for name in held), default=exposed)


Zones = tuple[tuple[str, ...], ...]
"""By zone plan the zones that an area touches; off the plane none."""


@dataclass(frozen=True, slots=True)
class OnShares:
    """The load on any share of an array, whichever attachment takes it.

    Attributes:
        inputs: The job.
        building: Wind on the array's building.
        array: The array.
        method: Whether the method's limits hold.
        snow: Snow on its plane, None without any.
    """

    inputs: Inputs
    building: BuildingWind
    array: PlacedArray
    method: MethodCheck
    snow: PlaneSnow | None
    _known: dict[tuple[Zones, float, float], AttachmentLoad] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    @property
    def plans(self) -> tuple[ZonePlan, ...]:
        """The zone plans of the array's plane."""
        return self.building.planes[self.array.plane.id].plans

    def load(self, zones: Zones, area_sqft: float, edge_factor: float) -> AttachmentLoad:
        """The load on one share, of no attachment yet and without continuity.

        Args:
            zones: The zones it touches, by plan.
            area_sqft: Its area on the slope [sq ft].
            edge_factor: gamma_E of uplift, unitless.
        """
        key = (zones, area_sqft, edge_factor)
        if key not in self._known:
            self._known[key] = self._computed(*key)
        return self._known[key]

    def _computed(self, zones: Zones, area: float, edge_factor: float) -> AttachmentLoad:
        array, building = self.array, self.building
        plan, zone, gcp = _worst(self.plans, zones, area)
        gcp_down = max(plan.figure.gcp_downward(area) for plan in self.plans)
        equalization = solar_panels.pressure_equalization(area) if self.method.holds else 1.0
        least = self.inputs.jurisdiction.minimums.panel_pressure
        minimum = solar_panels.MINIMUM_CC_PRESSURE_PSF if least is None else least.value
        standard, velocity = building.standard, building.velocity
        up = standard.panel_pressure(velocity, gcp, edge_factor, equalization, minimum_psf=minimum)
        down = standard.panel_pressure(
            velocity,
            gcp_down,
            solar_panels.EDGE_FACTOR_INTERIOR,
            equalization,
            minimum_psf=minimum,
        )
        loads = loads_on_slope(
            area,
            array.plane.slope_deg,
            dead_psf=array.system.dead_load_psf,
            least_dead_psf=least_dead_psf(array),
            roof_live_psf=0.0,
            snow_psf=self.snow.on_panels_psf if self.snow else 0.0,
            wind_down_psf=down.pressure_psf,
            wind_up_psf=-up.pressure_psf,
        )
        return AttachmentLoad(
            attachment="",
            array=array.id,
            plane=array.plane.id,
            figure=plan.figure.number,
            zone=zone,
            area_sqft=area,
            gcp_up=gcp,
            gcp_down=gcp_down,
            edge_factor=edge_factor,
            equalization=equalization,
            up=up,
            down=down,
            continuity=1.0,
            loads=loads,
            combined=standard.combine(loads),
        )


def least_dead_psf(array: PlacedArray) -> float:
    """The smallest dead load of an array: its modules alone, on their area on the slope [psf]."""
    module = array.product
    alone = module.weight / (module.width * module.height / _SQIN_PER_SQFT)
    return min(alone, array.system.dead_load_psf)


def _worst(
    plans: tuple[ZonePlan, ...], touched: Zones, area_sqft: float
) -> tuple[ZonePlan, str, float]:
    """Of all figures the zone with the largest suction among those touched, and its GCp."""
    found = []
    for plan, zones in zip(plans, touched, strict=True):
        zone, gcp = plan.figure.worst(zones or plan.figure.zones, area_sqft)
        found.append((gcp, zone, plan))
    gcp, zone, plan = min(found, key=lambda one: one[0])
    return plan, zone, gcp
