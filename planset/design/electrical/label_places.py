"""The equipment that each label goes on, and how many of it are needed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from planset.codes.nec.labels import Label
from planset.design.electrical.label_system import LabelSystem
from planset.design.electrical.runs import place_length_ft
from planset.design.electrical.topology import Kind, Segment

if TYPE_CHECKING:
    from planset.job.electrical.wiring import Run


class Places(NamedTuple):
    """Where a label goes.

    Attributes:
        equipment: Tags of the equipment it goes on.
        quantity: How many are needed; 0 where the system needs none.
        reason: How that number comes about, "" where it is one for each tag.
    """

    equipment: tuple[str, ...]
    quantity: int
    reason: str = ""


def places_of(label: Label, system: LabelSystem) -> Places:
    """The places of a label; none where the system has nothing that it belongs on."""
    if system.dwelling and not label.dwellings:
        return _each()
    found = _PLACES.get(label.name)
    return found(label, system) if found else _each()


def _each(*tags: str) -> Places:
    return Places(tags, len(tags))


def _kinds(system: LabelSystem, *kinds: Kind) -> tuple[str, ...]:
    return tuple(item.tag for item in system.topology.of_kind(*kinds))


def _pv_disconnect(label: Label, system: LabelSystem) -> Places:
    """The ac disconnect; with batteries beyond it, what disconnects the strings (690.13)."""
    hybrid = system.inputs.job.electrical.storage is not None
    return _dc_voltage(label, system) if hybrid else _each("DISC1")


def _ac_output(label: Label, system: LabelSystem) -> Places:
    return _each("DISC1")


def _line_and_load(label: Label, system: LabelSystem) -> Places:
    return _each(*_kinds(system, Kind.DC_DISCONNECT), "DISC1")


def _dc_voltage(label: Label, system: LabelSystem) -> Places:
    """The dc disconnect of each inverter with strings, the inverter where that is part of it."""
    electrical = system.inputs.job.electrical
    used = {string.inverter for string in system.strings}
    tags = (
        placed.dc_disconnect.id if placed.dc_disconnect else placed.id
        for placed in electrical.inverters
        if placed.id in used
    )
    return _each(*tags)


def _dc_raceway(label: Label, system: LabelSystem) -> Places:
    """Covers of the boxes, and every section of exposed raceway at the edition's distance."""
    if not system.strings:
        return _each()
    boxes = dict.fromkeys(string.junction_box for string in system.strings)
    words = [f"{len(boxes)} on {', '.join(boxes)}"]
    quantity = len(boxes)
    wiring = system.inputs.job.electrical.wiring
    every_ft = label.distance_ft or 10.0
    for segment in _dc_raceways(system):
        run = wiring.run("dc", segment.box)
        assert run is not None, "the segment follows it"
        for count, text in _sections(run, segment, every_ft):
            quantity += count
            words.append(text)
    reason = "; ".join(words) + f" (one for each box and section, at most {every_ft:g} ft apart)"
    return Places(tuple(boxes), quantity, reason)


def _dc_raceways(system: LabelSystem) -> Iterator[Segment]:
    """One segment for each raceway that runs from a box toward an inverter."""
    seen = set()
    for segment in system.topology.segments_of("dc"):
        run = system.inputs.job.electrical.wiring.run("dc", segment.box)
        in_raceway = run is not None and run.raceway != "none"
        if in_raceway and not segment.continues and segment.box not in seen:
            seen.add(segment.box)
            yield segment


def _sections(run: Run, segment: Segment, every_ft: float) -> Iterator[tuple[int, str]]:
    """How many each section of a raceway needs; none lies open underground."""
    for place in run.places:
        if place.place != "underground":
            length_ft = place_length_ft(place)
            count = math.floor(length_ft / every_ft) + 1
            yield count, f"{count} on segment {segment.tag}, {place.place} {length_ft:.0f} ft"


def _rapid_shutdown(label: Label, system: LabelSystem) -> Places:
    return _each("MSP") if system.shutdown.method is not None else _each()


def _shutdown_switch(label: Label, system: LabelSystem) -> Places:
    if system.shutdown.method is None:
        return _each()
    initiator = system.inputs.job.electrical.initiator
    if initiator == "switch":
        return Places((), 1, "on the rapid shutdown switch")
    on = {"pv_disconnect": "DISC1", "service_disconnect": "MSP-MAIN"}.get(initiator or "")
    return _each(on) if on else _each()


def _directory(label: Label, system: LabelSystem) -> Places:
    """At the service, and where the edition says so at the disconnect of the source."""
    return _each("MSP", "DISC1") if "source's system disconnect" in label.place else _each("MSP")


def _do_not_relocate(label: Label, system: LabelSystem) -> Places:
    """Beside the breaker on each bus that relies on opposite ends."""
    chosen = [bus.tag for bus in system.buses if bus.chosen.topic == "busbar_opposite_ends"]
    return _each(*(tag for panel in chosen for tag in _fed_breakers(system, panel)))


def _fed_breakers(system: LabelSystem, panel: str) -> Iterator[str]:
    """Breakers of a panel through which sources feed it."""
    for item in system.topology.parts_of(panel):
        if item.kind is Kind.BREAKER and system.topology.feeding[item.tag]:
            yield item.tag


def _sum_of_breakers(label: Label, system: LabelSystem) -> Places:
    chosen = (bus.tag for bus in system.buses if bus.chosen.topic == "busbar_sum_of_breakers")
    return _each(*chosen)


def _multiple_sources(label: Label, system: LabelSystem) -> Places:
    return _each(*(bus.tag for bus in system.buses))


def _not_load_break(label: Label, system: LabelSystem) -> Places:
    """Fuse holders in boxes, which may be opened without load only."""
    fused = (string.junction_box for string in system.strings if string.fuse_a is not None)
    return _each(*dict.fromkeys(fused))


def _polarity(label: Label, system: LabelSystem) -> Places:
    """Both poles of each string, in its box and at its inverter."""
    if not system.strings:
        return _each()
    strings = len(system.strings)
    ends = dict.fromkeys(tag for s in system.strings for tag in (s.junction_box, s.inverter))
    reason = f"both poles of {strings} strings, in the box and at the inverter"
    return Places(tuple(ends), 4 * strings, reason)


def _storage_disconnect(label: Label, system: LabelSystem) -> Places:
    return _each(*_kinds(system, Kind.BATTERY))


def _storage_shutdown(label: Label, system: LabelSystem) -> Places:
    storage = system.inputs.job.electrical.storage
    switch = storage.shutdown_switch if storage is not None else None
    return _each(switch.id) if switch is not None else _each()


def _at_service(label: Label, system: LabelSystem) -> Places:
    return _each("MSP")


_PLACES: dict[str, Callable[[Label, LabelSystem], Places]] = {
    "pv_disconnect": _pv_disconnect,
    "line_and_load": _line_and_load,
    "dc_raceway": _dc_raceway,
    "dc_voltage": _dc_voltage,
    "ac_output": _ac_output,
    "rapid_shutdown": _rapid_shutdown,
    "rapid_shutdown_switch": _shutdown_switch,
    "directory": _directory,
    "do_not_relocate": _do_not_relocate,
    "sum_of_breakers": _sum_of_breakers,
    "multiple_sources": _multiple_sources,
    "not_load_break": _not_load_break,
    "polarity": _polarity,
    "storage_disconnect": _storage_disconnect,
    "arc_flash": _at_service,
    "storage_shutdown": _storage_shutdown,
    "fault_current": _at_service,
}
"""Labels by what a system has. The plan of several shutdown types and the words of a system that
shuts down outside of the array only belong on none that is designed here; an emergency disconnect
is none of the system's own."""
