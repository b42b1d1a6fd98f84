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
from planset.design.fastening import Fastening, fastening
from planset.design.fit_arrays import ArrayFit, find_extents
from planset.design.layout import (
    PlacedArray,
    PlacedObstruction,
    place_arrays,
    place_obstructions,
)
from planset.design.loads import Loads, Mounted, loads_of
from planset.design.tile_courses import TileFit, tile_fit
from planset.design.topology import Topology, string_inverter_topology
from planset.job.solid import roof_solid
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs


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
        tile_fits: How the hooks meet the tile, per mounted array.
        loads: Loads on all that holds the arrays.
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
    tile_fits: tuple[TileFit, ...]
    loads: Loads
    fastenings: tuple[Fastening, ...]
    circuits: Circuits
    topology: Topology
    assumptions: tuple[Assumption, ...]

    @property
    def mounted(self) -> tuple[PlacedArray, ...]:
        """Arrays whose mounting this job designs, in step with racking, build-ups and the like."""
        return tuple(array for array in self.arrays if array.mounting is not None)

    @property
    def module_count(self) -> int:
        """Modules of all arrays."""
        return sum(len(array.modules) for array in self.arrays)

    @property
    def attachment_count(self) -> int:
        """Attachments of all arrays."""
        return sum(len(rack.attachments) for rack in self.racking)


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
    fastenings = tuple(fastening(inputs, array) for array in mounted)
    parts = tuple(map(Mounted, mounted, racking, build_ups, fastenings))
    loads = loads_of(inputs, roof, arrays, parts)
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
        tile_fits=tuple(
            tile_fit(inputs, array, rack, built)
            for array, rack, built in zip(mounted, racking, build_ups, strict=True)
        ),
        loads=loads,
        fastenings=fastenings,
        circuits=circuits,
        topology=string_inverter_topology(inputs, circuits),
        assumptions=assumptions_of(inputs, loads),
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
