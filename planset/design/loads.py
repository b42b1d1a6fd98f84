"""All loads of a job: wind and snow on its roofs, and what they ask of what holds the arrays."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from planset.design.acting import Acting, acting_on
from planset.design.added_loads import AddedGravity, AddedMass, added_gravity, added_mass
from planset.design.attachment_loads import AttachmentLoad, attachment_loads, edge_exposures
from planset.design.fastening import LagUse, lag_use
from planset.design.framing_loads import OnRafters, RafterUse, rafter_uses
from planset.design.layout import PlacedArray
from planset.design.lumber import values_at_hand
from planset.design.mounted import Mounted
from planset.design.racking import Attachment
from planset.design.rail_loads import RailUse, rail_uses
from planset.design.snow import PlaneSnow
from planset.design.wind import BuildingWind, MethodCheck, method_check
from planset.design.wind_arrays import ModuleExposure
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.codes.asce7.standard import Standard
    from planset.job.load import Inputs

BY_OTHERS = "the mounting of every array is by others"


@dataclass(frozen=True, slots=True)
class ArrayLoads:
    """Loads on one mounted array.

    Attributes:
        array: Its id.
        method: Whether the panel method holds.
        exposed: What the engineer's geometric test says of its modules, empty without one.
        attachments: Loads on every attachment, by tag.
        lags: Lag screws under them, alike.
        rails: Rails under them.
    """

    array: str
    method: MethodCheck
    exposed: tuple[ModuleExposure, ...]
    attachments: tuple[AttachmentLoad, ...]
    lags: tuple[LagUse, ...]
    rails: tuple[RailUse, ...]

    def worst_by_zone(
        self, demand: Callable[[AttachmentLoad], float]
    ) -> tuple[AttachmentLoad, ...]:
        """Of every wind zone the attachment of the greatest demand, the worst zone first."""
        worst: dict[str, tuple[float, AttachmentLoad]] = {}
        for load in self.attachments:
            asked = demand(load)
            if load.zone not in worst or asked > worst[load.zone][0]:
                worst[load.zone] = (asked, load)
        ranked = sorted(worst.values(), key=lambda pair: (-pair[0], pair[1].zone))
        return tuple(load for _, load in ranked)


@dataclass(frozen=True, slots=True)
class FramingLoads:
    """Rafters under the arrays.

    Attributes:
        rafters: Every span of every rafter that attachments stand on, under the cases that govern.
        reasons: Why the rafters of a plane are not computed, by its id.
        beyond_supports: Attachments on a rafter's tail, beyond its supports.
    """

    rafters: tuple[RafterUse, ...] = ()
    reasons: Mapping[str, str] = field(default_factory=dict)
    beyond_supports: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Loads:
    """What wind, snow and weight do to a job.

    Attributes:
        reason: Why nothing is computed for the attachments, "" when it is.
        standard: The edition of ASCE 7 in force, None where it is not one of ours.
        buildings: Wind on every building under an array, by id; "" is the house.
        planes: Planes under any array.
        no_wind: Why there is none, by the id of the building or plane concerned.
        snow: Snow by plane; without an entry there is none.
        arrays: Loads on every mounted array.
        framing: Rafters under them.
        gravity: What they add to the gravity loads of every plane.
        mass: What they add to the mass of every building.
    """

    reason: str
    standard: Standard | None = None
    buildings: Mapping[str, BuildingWind] = field(default_factory=dict)
    planes: tuple[str, ...] = ()
    no_wind: Mapping[str, str] = field(default_factory=dict)
    snow: Mapping[str, PlaneSnow] = field(default_factory=dict)
    arrays: tuple[ArrayLoads, ...] = ()
    framing: FramingLoads = FramingLoads()
    gravity: tuple[AddedGravity, ...] = ()
    mass: tuple[AddedMass, ...] = ()

    @property
    def attachments(self) -> tuple[AttachmentLoad, ...]:
        """Loads on every attachment of the job."""
        return tuple(load for array in self.arrays for load in array.attachments)


def loads_of(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    mounted: tuple[Mounted, ...],
    acting: Acting | None = None,
) -> Loads:
    """Loads of a job.

    Args:
        inputs: The job.
        roof: All its roofs.
        arrays: All arrays.
        mounted: Those whose mounting the job designs.
        acting: Wind and snow on its planes, where they are known already.
    """
    acting = acting or acting_on(inputs, roof, arrays)
    standard, buildings, no_wind, snow = (
        acting.standard,
        acting.buildings,
        acting.no_wind,
        acting.snow,
    )
    if standard is None:
        return Loads(acting.reason(()))
    planes = tuple(dict.fromkeys(array.plane.id for array in arrays))
    reason = acting.reason(one.array.plane for one in mounted) if mounted else BY_OTHERS
    if reason:
        return Loads(reason, standard, buildings, planes, no_wind, snow)
    on_arrays = tuple(
        _on_array(
            inputs,
            roof,
            one,
            arrays,
            buildings[one.array.plane.building],
            snow.get(one.array.plane.id),
        )
        for one in mounted
    )
    placed = tuple(one.array for one in mounted)
    return Loads(
        "",
        standard,
        buildings,
        planes,
        no_wind,
        snow,
        on_arrays,
        _framing(inputs, standard, mounted, on_arrays, snow),
        added_gravity(
            inputs.framing, placed, {one.array.id: one.clear_space_in for one in mounted}, snow
        ),
        added_mass(inputs.framing, roof, placed),
    )


def _on_array(
    inputs: Inputs,
    roof: Roof,
    mounted: Mounted,
    arrays: tuple[PlacedArray, ...],
    building: BuildingWind,
    snow: PlaneSnow | None,
) -> ArrayLoads:
    array, racking, held = mounted.array, mounted.racking, mounted.fastening
    own_roof = roof.over(building.building)
    method = method_check(own_roof, array, mounted.build_up.height_above_roof_in)
    exposed = edge_exposures(inputs, own_roof, array, arrays, building, method)
    loads = attachment_loads(inputs, building, array, racking, method, exposed, snow)
    return ArrayLoads(
        array.id,
        method,
        exposed,
        loads,
        tuple(lag_use(load, held) for load in loads) if held else (),
        rail_uses(inputs, building, array, racking, loads),
    )


def _framing(
    inputs: Inputs,
    standard: Standard,
    mounted: tuple[Mounted, ...],
    on_arrays: tuple[ArrayLoads, ...],
    snow: Mapping[str, PlaneSnow],
) -> FramingLoads:
    """Rafters plane by plane."""
    reason = _no_rafters(inputs)
    uses: list[RafterUse] = []
    reasons: dict[str, str] = {}
    beyond: list[str] = []
    on_rafters = tuple(one for one in mounted if one.fastening)
    for one in mounted:
        if not one.fastening:
            reasons[one.array.plane.id] = (
                "clamps on seams load the panels and their deck, which no rule here follows "
                "down to the rafters"
            )
    for carried in _on_planes(inputs, standard, on_rafters, on_arrays, snow):
        if reason:
            reasons[carried.plane.id] = reason
            continue
        uses += rafter_uses(carried)
        beyond += carried.beyond_supports
    return FramingLoads(tuple(uses), reasons, tuple(beyond))


def _no_rafters(inputs: Inputs) -> str:
    """Why rafters are not computed, "" when they are."""
    framing = inputs.framing
    if framing.kind == "truss":
        return "the roof is on trusses, which their designer must judge"
    if values_at_hand(framing) is None:
        return f"no design values of {framing.wood} {framing.grade} are at hand"
    return ""


def _on_planes(
    inputs: Inputs,
    standard: Standard,
    mounted: tuple[Mounted, ...],
    on_arrays: tuple[ArrayLoads, ...],
    snow: Mapping[str, PlaneSnow],
) -> Iterator[OnRafters]:
    """What the rafters of every plane carry of all its arrays."""
    engineering = inputs.job.engineering
    by_array = {loads.array: loads for loads in on_arrays}
    planes = {one.array.plane.id: one.array.plane for one in mounted}
    for name, plane in planes.items():
        held: list[tuple[Attachment, AttachmentLoad]] = []
        clear = 0.0
        for one in mounted:
            if one.array.plane.id == name:
                loads = by_array[one.id]
                of_id = {load.attachment: load for load in loads.attachments}
                held += [(a, of_id[a.id]) for a in one.racking.attachments if a.id in of_id]
                clear = max(clear, one.clear_space_in)
        yield OnRafters(
            plane=plane,
            framing=inputs.framing,
            combinations=standard.asd,
            attachments=tuple(held),
            snow=snow.get(name),
            clear_space_in=clear,
            point_load_share=engineering.point_load_share if engineering else 1.0,
        )
