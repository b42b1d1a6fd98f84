"""Steps of the crew's work on the wiring: under the modules, to the boxes, at the equipment."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planset.design.design import Design
from planset.design.electrical.boxes import box_of_circuits
from planset.design.electrical.module_devices import (
    MICROINVERTER,
    ModuleDevice,
    circuit_modules,
    device_of,
)
from planset.design.electrical.system import StringCircuit
from planset.job.electrical_checks.ids import DISCONNECT
from planset.sheets.crew_controls import control_steps
from planset.sheets.crew_step import Step
from planset.sheets.tag_lists import listed_tags

_TERMINALS = (
    "Terminals: to their marked torque with a tool approved for it (NEC 110.14); connectors of one "
    "make and type."
)
_MENDED = {
    "curved_tile": "broken tiles replaced",
    "asphalt_shingle": "torn shingles replaced",
    "standing_seam": "scratched panels touched up",
    "membrane": "a hurt membrane mended by its roofer",
}


def under_modules(design: Design) -> Iterator[Step]:
    """What is fixed before a module covers it."""
    yield from (Step(words) for words in _devices(design))
    yield from (Step(words) for words in (*_bonding(design), *_grounding(design)))
    lugs = "the table" if design.mounts else "the drawings of the mounting"
    yield Step(
        "Before a module is laid: its conductors in their clips, off the roof, none under tension, "
        f"a drip loop at each device; lugs and grounding conductor by {lugs}."
    )


def _bonding(design: Design) -> Iterator[str]:
    """What bonds modules, rails and splices, and what one lug serves: by the system's listing."""
    for system in dict.fromkeys(one.array.system for one in design.mounts):
        bonding = system.bonding
        holders = system.foot.name if system.foot else system.clamps.mid if system.clamps else "-"
        frames = (
            f"{holders} bonds frames to rails"
            if bonding.modules_to_rails
            else "a bonding jumper from every frame to its rail"
        )
        splices = "splices bond" if bonding.splices_bond else "splices do not bond"
        lug = "each rail" if bonding.lug_per == "rail" else "each block of modules that meet"
        if bonding.lug_per == "rail" and not bonding.splices_bond:
            lug = "each part of a rail between splices"
        most = f", {bonding.most_modules} modules at most" if bonding.most_modules else ""
        yield (
            f"Bonding, {system.model} ({bonding.listing}): {frames}; "
            f"{f'{splices}; ' if system.rail.splice else ''}one lug on {lug}{most} "
            f"({bonding.document}, page {bonding.page})."
        )


def _grounding(design: Design) -> Iterator[str]:
    """The conductor that gathers the lugs of each array, to its box."""
    arrays = {f"ARRAY {array.id}": array.id for array in design.arrays}
    ways: dict[str, list[str]] = {}
    for step in design.electrical.grounding:
        if step.start in arrays and step.conductor:
            ways.setdefault(step.conductor, []).append(f"{arrays[step.start]} to {step.end}")
    for conductor, ends in ways.items():
        size = conductor.replace("BARE COPPER", "bare copper")
        yield f"Grounding conductor, {size}: from lug to lug, unbroken, then {'; '.join(ends)}."


def wiring_steps(design: Design) -> Iterator[Step]:
    """From what is open before the array is connected to the last look."""
    yield _opened(design)
    yield Step(_TERMINALS)
    yield _home_runs(design)
    if design.inputs.job.electrical.storage is not None:
        yield _battery(design)
    yield from control_steps(design)
    yield Step(
        "Counts, torques and photographs complete, initials in every box; roof swept of screws and "
        f"offcuts; {_MENDED[design.inputs.job.roof.covering.kind]}.",
        hold=True,
    )


def _devices(design: Design) -> Iterator[str]:
    """Where devices stand and how they are joined, for every kind."""
    counts: dict[ModuleDevice, int] = {}
    for circuit, modules in circuit_modules(design):
        device = device_of(design, circuit)
        if device is not None:
            counts[device] = counts.get(device, 0) + -(-len(modules) // device.modules)
    for device, count in counts.items():
        each = "each module" if device.modules == 1 else f"every {device.modules} modules"
        start = f"{count} {device.what}s {device.model}, one to {each} ({device.document})"
        if device.what == MICROINVERTER:
            yield (
                f"{start}: fixed before the module, connected to the trunk cable of its branch in "
                "the order of the table; free connectors capped, the far end closed by its end cap."
            )
        else:
            yield (
                f"{start}: fixed before the module; module leads to the device, devices to each "
                "other in the order of the table."
            )


def _opened(design: Design) -> Step:
    """What stays open and off until everything is tested."""
    electrical = design.inputs.job.electrical
    separate = [one.dc_disconnect.id for one in electrical.inverters if one.dc_disconnect]
    storage = [electrical.storage.id] if electrical.storage else []
    sources = ", ".join([*(one.id for one in electrical.inverters), *storage])
    off = f"; {sources} switched off" if sources else ""
    tried = design.electrical.topology.controls
    until = "the control wiring is tried" if tried else "the last hold is signed"
    return Step(
        f"{', '.join([DISCONNECT, *separate])} and the breaker or fuses beyond open, locked and "
        f"tagged{off}. They stay so until {until}.",
        hold=True,
    )


def _home_runs(design: Design) -> Step:
    """Every circuit to its box, and what is measured there."""
    reached = box_of_circuits(design.inputs.job.electrical)
    found: dict[str, list[str]] = {}
    for circuit, _ in circuit_modules(design):
        found.setdefault(reached[circuit], []).append(circuit)
    ways = "; ".join(f"{', '.join(circuits)} to {box}" for box, circuits in found.items())
    electrical = design.electrical
    if electrical.branches and not electrical.strings:
        return Step(
            f"Trunk cables to their boxes ({ways}), each labeled with its branch. Continuity from "
            "line to line, and of each line to ground, measured and noted before anything is "
            "connected.",
            hold=True,
        )
    return Step(
        f"Home runs to their boxes ({ways}), each end labeled with circuit and polarity. "
        f"{_measured(design)}, and noted before anything is connected.",
        hold=True,
    )


def _measured(design: Design) -> str:
    """What is measured of strings, and what they should read."""
    strings = design.electrical.strings
    off = _volts({s.id: _left_v(design, s) for s in strings})
    if design.inputs.converter is not None:
        return (
            "Polarity measured, and the voltage that its converters leave on each string while "
            f"they are off: {off}"
        )
    open_v = {s.id: len(s.modules) * design.inputs.modules[s.module].voc_v for s in strings}
    words = (
        "Polarity and open-circuit voltage of each string measured: "
        f"{_volts(open_v)} with cells at 25 C, more where they are colder, never over the maximum "
        f"({_volts({s.id: s.cold_voc_v for s in strings})})"
    )
    if design.inputs.shutdown is not None:
        words += f"; with shutdown devices off: {off}"
    return words


def _left_v(design: Design, string: StringCircuit) -> float | None:
    """What the devices of a string leave of its voltage while they are off, None not stated [V]."""
    device = design.inputs.converter or design.inputs.shutdown
    if device is None or device.safe_v is None:
        return None
    counts = dict(design.electrical.shutdown.per_circuit)
    return device.safe_v * counts[string.id] if string.id in counts else None


def _volts(by_string: Mapping[str, float | None]) -> str:
    """Voltages of strings, those alike together."""
    alike: dict[str, list[str]] = {}
    for tag, volts in by_string.items():
        words = "by the data sheet of its devices" if volts is None else f"{volts:.1f} V"
        alike.setdefault(words, []).append(tag)
    return " and ".join(
        f"{listed_tags(tags)} {words}{' each' if len(tags) > 1 else ''}"
        for words, tags in alike.items()
    )


def _battery(design: Design) -> Step:
    storage = design.inputs.job.electrical.storage
    assert storage is not None, "asked of systems with a battery only"
    units = f"{storage.count} unit{'' if storage.count == 1 else 's'}"
    inverters = ", ".join(one.id for one in design.inputs.job.electrical.inverters)
    backup = design.inputs.job.electrical.backup
    moved = ""
    if backup is not None:
        listed = ", ".join(one.name for one in backup.circuits) or "its loads, as the owner says"
        moved = f" Moved to {backup.id}: {listed}; its neutral as E-601 has it."
    return Step(
        f"{storage.id} ({units}): its terminals are always live. Its disconnect open, polarity "
        f"measured against {inverters} before it is connected, last of all.{moved}",
        hold=True,
    )
