"""The grounding path: from the module frames over every run to earth."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec import grounding_electrode
from planset.codes.nec.grounding import SMALLEST_EXPOSED
from planset.design.bonding import bonded_sections
from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.service_limits import electrodes_of
from planset.design.electrical.system import GroundingStep
from planset.design.electrical.topology import Kind, Segment, Topology
from planset.design.layout import PlacedArray
from planset.design.mounted import Mounted
from planset.job.electrical.service import SupplySideTap

if TYPE_CHECKING:
    from planset.job.electrical.service import ServiceConductors
    from planset.job.load import Inputs

_ELECTRODES = {
    "water_pipe": "WATER PIPE ELECTRODE",
    "rod": "GROUND ROD",
    "concrete_encased": "CONCRETE-ENCASED ELECTRODE",
}


def grounding_steps(
    inputs: Inputs,
    arrays: tuple[PlacedArray, ...],
    mounts: tuple[Mounted, ...],
    topology: Topology,
) -> tuple[GroundingStep, ...]:
    """Every step in order: frames, rails, lugs, array, boxes, equipment, panel, electrode."""
    found: list[GroundingStep] = []
    for array in arrays:
        mounted = next((one for one in mounts if one.array is array), None)
        found += _array_steps(array.id, mounted)
    found += _from_arrays(inputs, topology)
    found += _along_runs(topology)
    found += _tap_steps(inputs, topology)
    found += _service_steps(inputs)
    return tuple(found)


def _array_steps(array: str, mounted: Mounted | None) -> list[GroundingStep]:
    """From the frames of an array to the conductor that gathers its lugs."""
    frames, rails = f"MODULE FRAMES {array}", f"RAILS {array}"
    if mounted is None:
        words = "690.43; bonding and lugs stand on the sealed sheets of the mounting"
        by = "BY OTHERS, SEALED SHEETS OF THE MOUNTING"
        return [GroundingStep(frames, f"ARRAY {array}", by, 0, words)]
    bonding = mounted.array.system.bonding
    lugs = len(bonded_sections(mounted))
    source = f"{bonding.document}, page {bonding.page}"
    if bonding.modules_to_rails:
        conductor, reason = bonding.listing.upper(), f"listed to bond frames and rails; {source}"
    else:
        conductor = "BONDING JUMPERS"
        reason = f"its listing does not bond frames to rails; {source}"
    per = f"{_sections(mounted, lugs)}; {source}"
    return [
        GroundingStep(frames, rails, conductor, 0, f"690.43; {reason}"),
        GroundingStep(rails, f"ARRAY {array}", "LISTED LUG", lugs, per),
    ]


def _sections(mounted: Mounted, lugs: int) -> str:
    """How the lugs of an array are counted, so that the number can be followed."""
    if mounted.array.system.bonding.lug_per == "array":
        return f"one for each block of modules that meet, {lugs} in all"
    rails = len(mounted.racking.rails)
    if lugs == rails:
        return f"one for each of {rails} rails, continuous over their splices"
    return f"one for each of {lugs} parts of {rails} rails, parted at splices that do not bond"


def _from_arrays(inputs: Inputs, topology: Topology) -> list[GroundingStep]:
    """From each array to the boxes where its circuits leave it; one conductor for all of them."""
    electrical = inputs.job.electrical
    array_of = {string.id: string.array for string in electrical.strings}
    array_of |= {branch.id: branch.array for branch in electrical.branches}
    found: dict[tuple[str, str], GroundingStep] = {}
    for segment in topology.segments:
        end = topology.by_tag[segment.end]
        if end.kind is not Kind.JUNCTION_BOX or not (segment.run == "array" or segment.cable):
            continue
        source = segment.start.removeprefix("RSD-").removeprefix("CONV-")
        array, box = array_of[source], end.panel or end.tag
        run = segment.conductors
        conductor = f"{wire_size(run.grounding if run else SMALLEST_EXPOSED)} BARE COPPER"
        reason = run.grounding_reason if run else "exposed, 250.120(C)"
        found[array, box] = GroundingStep(f"ARRAY {array}", box, conductor, 0, reason)
    return list(found.values())


def _along_runs(topology: Topology) -> list[GroundingStep]:
    """Along every run past the boxes."""
    found: dict[tuple[str, str], GroundingStep] = {}
    for segment in topology.segments:
        if segment.run in (None, "array"):
            continue
        start, end = (_enclosure(topology, tag) for tag in (segment.start, segment.end))
        found.setdefault((start, end), GroundingStep(start, end, *_conductor(segment)))
    return list(found.values())


def _enclosure(topology: Topology, tag: str) -> str:
    """The panel that a part is in, or the piece itself."""
    return topology.by_tag[tag].panel or tag


def _conductor(segment: Segment) -> tuple[str, int, str]:
    run = segment.conductors
    if run is None:
        return "NOT SIZED", 0, f"segment {segment.tag} is not sized"
    conductor = f"{wire_size(run.grounding)} {run.grounding_material.upper()}"
    return conductor, 0, run.grounding_reason


def _tap_steps(inputs: Inputs, topology: Topology) -> list[GroundingStep]:
    """At a connection ahead of the main: its disconnect is bonded to the neutral brought to it.

    Source: NEC 2020 and 2023, 250.25, by way of 250.24; NEC 2017, 250.24 [from memory].
    """
    found = []
    for segment in topology.segments:
        run = segment.conductors
        if topology.by_tag[segment.end].kind is not Kind.TAP or run is None:
            continue
        neutral, metal = f"{segment.start} NEUTRAL", run.material.upper()
        table = f"Table 250.102(C)(1) for {wire_size(run.size)} {run.material}"
        jumper, grounded = wire_size(run.neutral_least), wire_size(run.neutral_size)
        brought = f"grounded conductor brought to the disconnect, {jumper} at least by {table}"
        existing = "EXISTING, WITH THE SERVICE CONDUCTORS"
        found += [
            GroundingStep(
                segment.start, neutral, f"{jumper} {metal}", 0, f"bonding jumper, {table}"
            ),
            GroundingStep(neutral, segment.end, f"{grounded} {metal}", 0, brought),
            *_tap_electrode(inputs, neutral, run),
            GroundingStep(segment.end, "NEUTRAL", existing, 0, "grounded service conductor"),
        ]
    return found


def _tap_electrode(inputs: Inputs, neutral: str, run: SizedRun) -> Iterator[GroundingStep]:
    """The grounding electrode conductor of that disconnect, where the job states one."""
    connection = inputs.job.electrical.interconnection
    given = connection.electrode if isinstance(connection, SupplySideTap) else None
    if given is None or given.size is None:
        return
    least = grounding_electrode.grounding_electrode_size(run.size, run.material, given.material)
    supply = f"{wire_size(run.size)} {run.material}"
    table = f"{wire_size(least)} at least by Table 250.66 for {supply}"
    end = "COMMON GEC (E)" if given.way == "common" else "ELECTRODE (E)"
    yield GroundingStep(
        neutral,
        end,
        f"{wire_size(given.size)} {given.material.upper()}",
        0,
        f"grounding electrode conductor, 250.64(D), {table}; {given.source}",
    )
    yield GroundingStep(
        end, "NEUTRAL", "EXISTING", 0, "grounding electrode conductor of the service"
    )


def _service_steps(inputs: Inputs) -> list[GroundingStep]:
    """At the service: the main bonding jumper, and the conductors to the electrodes."""
    service = inputs.job.electrical.service
    supply = service.conductors
    for_supply = f"for {wire_size(supply.size)} {supply.material} service conductors"
    return [
        GroundingStep(
            "MSP",
            "NEUTRAL",
            f"EXISTING, {_least_jumper(supply)} OR LARGER",
            0,
            f"main bonding jumper, Table 250.102(C)(1) {for_supply}",
        ),
        *_electrode_steps(inputs),
    ]


def _electrode_steps(inputs: Inputs) -> list[GroundingStep]:
    """From the neutral to every electrode; those of one kind are counted."""
    service, found = inputs.job.electrical.service, list[GroundingStep]()
    try:
        reasons = [one.reason for one in electrodes_of(inputs)]
    except ValueError:
        unknown = "Table 250.66, for a size that is not known here"
        reasons = [unknown] * (1 + len(service.supplemental_electrodes))
    used: Counter[str] = Counter()
    given = (service.electrode, *service.supplemental_electrodes)
    for electrode, reason in zip(given, reasons, strict=True):
        used[electrode.kind] += 1
        number = f" {used[electrode.kind]}" if used[electrode.kind] > 1 else ""
        conductor = f"{wire_size(electrode.size)} {electrode.material.upper()}, EXISTING"
        supplemental = "" if electrode is service.electrode else "supplemental, 250.53; "
        found.append(
            GroundingStep(
                "NEUTRAL",
                f"{_ELECTRODES[electrode.kind]}{number}",
                conductor,
                0,
                f"{supplemental}{reason}",
            )
        )
    return found


def _least_jumper(supply: ServiceConductors) -> str:
    """The smallest jumper, of copper where the table has one."""
    for material in ("copper", supply.material):
        try:
            least = grounding_electrode.supply_bonding_jumper_size(
                supply.size, supply.material, material
            )
        except ValueError:
            continue
        return f"{wire_size(least)} {material.upper()}"
    return "AS THE TABLE ASKS"
