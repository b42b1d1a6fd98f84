"""The design of a job: everything computed, in one value the rules judge and the sheets show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.access import has_dwelling_access
from planset.design.access.area import AccessArea
from planset.design.access.areas import required_areas
from planset.design.access.geometry import AccessGeometry, measured_access
from planset.design.access.other.geometry import OtherRoofAccess, other_roof_access
from planset.design.assumptions import Assumption, assumptions_of
from planset.design.attachments import Racking, Rafter, place_racking, rafters_under
from planset.design.buildup import BuildUp, build_up
from planset.design.circuits import Circuits, build_circuits
from planset.design.fit_arrays import ArrayFit, find_extents
from planset.design.layout import (
    PlacedArray,
    PlacedObstruction,
    place_arrays,
    place_obstructions,
)
from planset.design.topology import Topology, string_inverter_topology
from planset.design.uplift import Fastening, UpliftDemand, fastening, uplift_demands
from planset.design.wind import (
    MethodCheck,
    SiteWind,
    method_check,
    reason_not_computed,
    site_wind,
)
from planset.job.solid import roof_solid
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs


_BY_OTHERS = "the mounting of every array is by others"


@dataclass(frozen=True, slots=True)
class Loads:
    """Wind loads of the job, or why there are none.

    Attributes:
        reason: Why nothing was computed, "" when it was.
        site: Site pressure, None when nothing was computed.
        methods: Per array, whether the panel method holds.
        demands: Uplift per attachment, by array and tag.
    """

    reason: str
    site: SiteWind | None
    methods: tuple[MethodCheck, ...]
    demands: tuple[UpliftDemand, ...]


@dataclass(frozen=True, slots=True)
class Design:
    """Everything computed from a job.

    Attributes:
        inputs: The job and the data it names.
        roof: Planes and edges.
        arrays: Placed arrays.
        fits: How those were fitted that state no rows and columns.
        obstructions: Placed obstructions.
        rafters: Rafters under every plane.
        racking: Rails and attachments per mounted array.
        access: What fire access is judged by.
        other_access: The same for a building other than a dwelling, None for a dwelling.
        access_areas: Areas the adopted code keeps free; empty when its edition is unknown to us.
        build_ups: Heights at the attachments, per mounted array.
        loads: Wind loads.
        fastenings: Lag screws per mounted array.
        circuits: Electrical design.
        topology: Equipment and what connects it.
        assumptions: What was assumed; printed on the cover.
    """

    inputs: Inputs
    roof: Roof
    arrays: tuple[PlacedArray, ...]
    fits: tuple[ArrayFit, ...]
    obstructions: tuple[PlacedObstruction, ...]
    rafters: tuple[Rafter, ...]
    racking: tuple[Racking, ...]
    access: AccessGeometry
    other_access: OtherRoofAccess | None
    access_areas: tuple[AccessArea, ...]
    build_ups: tuple[BuildUp, ...]
    loads: Loads
    fastenings: tuple[Fastening, ...]
    circuits: Circuits
    topology: Topology
    assumptions: tuple[Assumption, ...]

    @property
    def mounted(self) -> tuple[PlacedArray, ...]:
        """Arrays whose mounting this job designs, in step with racking, build-ups, fastenings."""
        return tuple(array for array in self.arrays if array.mounting is not None)

    @property
    def module_count(self) -> int:
        """Modules of all arrays."""
        return sum(len(array.modules) for array in self.arrays)

    @property
    def attachment_count(self) -> int:
        """Attachments of all arrays."""
        return sum(len(rack.attachments) for rack in self.racking)

    def worst_demand(self) -> UpliftDemand | None:
        """The attachment with the greatest uplift, None when loads are not computed."""
        return max(self.loads.demands, key=lambda demand: demand.demand_lb, default=None)


def build_design(inputs: Inputs) -> Design:
    """Compute the design of a job, in the order in which one part needs another."""
    job = inputs.job
    roof = roof_solid(job.roof, job.other_buildings)
    obstructions = place_obstructions(inputs, roof)
    found = find_extents(inputs, roof, obstructions)
    arrays = place_arrays(inputs, roof, found.extents)
    mounted = tuple(array for array in arrays if array.mounting is not None)
    racking = place_racking(inputs, arrays)
    access = measured_access(inputs, roof, arrays, obstructions)
    other_access = other_roof_access(inputs, roof, arrays, obstructions)
    circuits = build_circuits(inputs, arrays)
    build_ups = tuple(build_up(inputs, array) for array in mounted)
    return Design(
        inputs=inputs,
        roof=roof,
        arrays=arrays,
        fits=found.fits,
        obstructions=obstructions,
        rafters=_rafters(inputs, roof),
        racking=racking,
        access=access,
        other_access=other_access,
        access_areas=(
            other_access.areas
            if other_access
            else _access_areas(inputs, roof, arrays, obstructions, access)
        ),
        build_ups=build_ups,
        loads=_loads(inputs, roof, mounted, racking, build_ups),
        fastenings=tuple(fastening(inputs, array) for array in mounted),
        circuits=circuits,
        topology=string_inverter_topology(inputs, circuits),
        assumptions=assumptions_of(inputs),
    )


def _rafters(inputs: Inputs, roof: Roof) -> tuple[Rafter, ...]:
    framing = inputs.job.framing
    if framing is None:
        return ()
    return tuple(rafter for plane in roof.planes for rafter in rafters_under(plane, framing))


def _access_areas(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
    access: AccessGeometry,
) -> tuple[AccessArea, ...]:
    if inputs.job.building.use == "other" or not has_dwelling_access(inputs.jurisdiction):
        return ()
    return required_areas(inputs, roof, arrays, obstructions, access)


def _loads(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    racking: tuple[Racking, ...],
    build_ups: tuple[BuildUp, ...],
) -> Loads:
    house = roof.over("")
    reason = _reason_not_computed(inputs, house, arrays)
    if reason:
        return Loads(reason, None, (), ())
    site = site_wind(inputs, house)
    methods = tuple(
        method_check(house, array, section.height_above_roof_in)
        for array, section in zip(arrays, build_ups, strict=True)
    )
    demands = tuple(
        demand
        for array, rack, method in zip(arrays, racking, methods, strict=True)
        for demand in uplift_demands(site, house, array, rack, method)
    )
    return Loads("", site, methods, demands)


def _reason_not_computed(inputs: Inputs, house: Roof, arrays: tuple[PlacedArray, ...]) -> str:
    if not arrays:
        return _BY_OTHERS
    if any(array.plane.building for array in arrays):
        return "wind is computed on the house only so far, and an array is on another building"
    return reason_not_computed(inputs, house)
