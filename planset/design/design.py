"""The design of a job: everything computed, in one value the rules judge and the sheets show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.access import has_dwelling_access
from planset.design.access.area import AccessArea
from planset.design.access.areas import required_areas
from planset.design.access.geometry import AccessGeometry, measured_access
from planset.design.access.other.geometry import OtherRoofAccess, other_roof_access
from planset.design.acting import acting_on
from planset.design.assumptions import Assumption, assumptions_of
from planset.design.buildup import build_up
from planset.design.electrical.build import build_electrical
from planset.design.electrical.system import ElectricalDesign
from planset.design.fastening import Fastening, fastening
from planset.design.fit_arrays import ArrayFit, find_extents
from planset.design.holding import module_holding
from planset.design.layout import (
    PlacedArray,
    PlacedObstruction,
    place_arrays,
    place_obstructions,
)
from planset.design.loads import Loads, loads_of
from planset.design.mounted import Mounted
from planset.design.place_racking import place_racking
from planset.design.post_courses import post_fit
from planset.design.racking import Racking
from planset.design.rail_pieces import rail_pieces
from planset.design.site import Site, site_of
from planset.design.stock_cutting import CutList, cut_list
from planset.design.support_lines import (
    BearingLine,
    SupportLine,
    bearings_under,
    lines_for,
    rafters_under,
)
from planset.design.tile_courses import tile_fit
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
        bearings: What the rafters of every plane bear on.
        seams: Seams of the planes that clamps stand on.
        mounts: Arrays whose mounting this job designs, with all that was placed for them.
        access: What fire access is judged by.
        other_access: The same for a building other than a dwelling, None for a dwelling.
        access_areas: Areas the adopted code keeps free; empty when its edition is unknown to us.
        site: The lot and what stands on it, None where the job describes none.
        cuts: How the rails of every profile are cut from stock.
        loads: Loads on all that holds the arrays.
        electrical: Circuits, equipment, conductors, buses, grounding, shutdown and labels.
        assumptions: What was assumed; printed on the cover.
    """

    inputs: Inputs
    roof: Roof
    arrays: tuple[PlacedArray, ...]
    fits: tuple[ArrayFit, ...]
    obstructions: tuple[PlacedObstruction, ...]
    rafters: tuple[SupportLine, ...]
    bearings: tuple[BearingLine, ...]
    seams: tuple[SupportLine, ...]
    mounts: tuple[Mounted, ...]
    access: AccessGeometry
    other_access: OtherRoofAccess | None
    access_areas: tuple[AccessArea, ...]
    site: Site | None
    cuts: tuple[CutList, ...]
    loads: Loads
    electrical: ElectricalDesign
    assumptions: tuple[Assumption, ...]

    @property
    def mounted(self) -> tuple[PlacedArray, ...]:
        """Arrays whose mounting this job designs."""
        return tuple(one.array for one in self.mounts)

    @property
    def racking(self) -> tuple[Racking, ...]:
        """Rails and attachments of those, in step with them."""
        return tuple(one.racking for one in self.mounts)

    @property
    def fastenings(self) -> tuple[Fastening, ...]:
        """Lag screws of the mounted arrays that have any."""
        return tuple(one.fastening for one in self.mounts if one.fastening)

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
    access = measured_access(inputs, roof, arrays, obstructions)
    other_access = other_roof_access(inputs, roof, arrays, obstructions)
    access_areas = (
        other_access.areas
        if other_access
        else _access_areas(inputs, roof, arrays, obstructions, access)
    )
    acting = acting_on(inputs, roof, arrays)
    mounts = _mounts(inputs, arrays, place_racking(inputs, roof, arrays, acting))
    loads = loads_of(inputs, roof, arrays, mounts, acting)
    electrical = build_electrical(inputs, arrays, mounts)
    return Design(
        inputs=inputs,
        roof=roof,
        arrays=arrays,
        fits=found.fits,
        obstructions=obstructions,
        rafters=_rafters(inputs, roof),
        bearings=_bearings(inputs, roof),
        seams=_seams(inputs, mounts),
        mounts=mounts,
        access=access,
        other_access=other_access,
        access_areas=access_areas,
        site=site_of(inputs, roof, access_areas, electrical.topology),
        cuts=_cuts(mounts),
        loads=loads,
        electrical=electrical,
        assumptions=assumptions_of(inputs, loads),
    )


def _mounts(
    inputs: Inputs, arrays: tuple[PlacedArray, ...], racking: tuple[Racking, ...]
) -> tuple[Mounted, ...]:
    """Every array with a mounting, and what was placed for it."""
    mounted = [array for array in arrays if array.mounting is not None]
    found = []
    for array, rack in zip(mounted, racking, strict=True):
        built = build_up(inputs, array)
        fit = tile_fit(inputs, array, rack, built)
        holding = module_holding(array, rack)
        found.append(
            Mounted(
                array=array,
                racking=rack,
                build_up=built,
                fastening=fastening(inputs, array),
                tile_fit=fit,
                post_fit=post_fit(inputs, array, rack),
                holding=holding,
                rails=rail_pieces(array, rack, holding),
            )
        )
    return tuple(found)


def _cuts(mounts: tuple[Mounted, ...]) -> tuple[CutList, ...]:
    """A cut list for every mounting system, over all of its arrays."""
    found = []
    for system in dict.fromkeys(one.array.system for one in mounts):
        pieces = [p for one in mounts if one.array.system is system for p in one.rails.pieces]
        found.append(cut_list(system.model, pieces, system.rail.stock_length, system.rail.kerf))
    return tuple(found)


def _seams(inputs: Inputs, mounts: tuple[Mounted, ...]) -> tuple[SupportLine, ...]:
    """Seams of the planes under arrays that are clamped to seams."""
    planes = {
        one.array.plane.id: one.array
        for one in mounts
        if one.array.system.attachment.kind == "seam_clamp"
    }
    return tuple(
        line for array in planes.values() for line in lines_for(inputs, array.plane, array.system)
    )


def _bearings(inputs: Inputs, roof: Roof) -> tuple[BearingLine, ...]:
    framing = inputs.job.framing
    if framing is None:
        return ()
    return tuple(line for plane in roof.planes for line in bearings_under(plane, framing))


def _rafters(inputs: Inputs, roof: Roof) -> tuple[SupportLine, ...]:
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
