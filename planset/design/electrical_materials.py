"""The electrical part of the bill, from the topology: equipment, conductors, raceways, labels."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from planset.design.conductor_materials import ELECTRICAL, conductor_lines
from planset.design.electrical import ratings
from planset.design.electrical.leads import hops
from planset.design.electrical.topology import Equipment, Kind, Topology
from planset.design.electrical.trunk import pitches_along
from planset.design.material_line import MaterialLine, spares_of

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.job.materials import Spares

_ITEMS = {
    Kind.JUNCTION_BOX: "Junction box",
    Kind.DC_DISCONNECT: "DC disconnect",
    Kind.INVERTER: "Inverter",
    Kind.BATTERY: "Battery",
    Kind.METER: "Production meter",
    Kind.DISCONNECT: "Disconnect",
    Kind.FUSED_DISCONNECT: "Disconnect, fusible",
    Kind.TAP: "Tap connector",
    Kind.BREAKER: "Breaker",
    Kind.MAIN: "Main breaker",
}
"""Equipment that is ordered; what modules it serves, or what is part of a panel, stands apart."""

_DEVICES = {
    Kind.SHUTDOWN: "Rapid shutdown device",
    Kind.CONVERTERS: "Converter",
    Kind.MICROINVERTERS: "Microinverter",
}
_SHORTENED = ("AC", "DC", "PV")  # stay in capitals where other words do not
_LABEL_WORDS = 36  # characters of a label that tell it from others
_FUSES = "FUSES "


def electrical_lines(design: Design, spares: Spares) -> Iterator[MaterialLine]:
    """What is new, by the diagram; what is there already is left out."""
    yield from _module_devices(design, spares)
    yield from _trunk_cable(design)
    yield from _equipment(design)
    yield from _fuses(design)
    yield from _panels(design.electrical.topology)
    yield from _backup_breakers(design)
    yield from _control_devices(design.electrical.topology)
    yield from conductor_lines(design, spares)
    for label in design.electrical.labels:
        words = _shortened(" ".join(label.lines))
        yield _line(f"Label {label.key}", words, "", label.quantity, "LABEL SCHEDULE, E-701")


def _line(
    item: str, product: str, document: str, quantity: int | None, counted: str
) -> MaterialLine:
    return MaterialLine(ELECTRICAL, item, product, document, quantity, 0, "each", counted)


def _shortened(words: str) -> str:
    """As many whole words of a label as tell it from others."""
    if len(words) <= _LABEL_WORDS:
        return words
    return f"{words[:_LABEL_WORDS].rsplit(' ', 1)[0].rstrip(':')} ..."


def _module_devices(design: Design, spares: Spares) -> Iterator[MaterialLine]:
    """Shutdown devices, converters or microinverters, by circuit."""
    inputs = design.inputs
    entries = (inputs.shutdown, inputs.converter, *inputs.microinverters.values())
    models = {f"{entry.maker} {entry.model}": entry.model for entry in entries if entry}
    found: dict[tuple[str, str, str], int] = {}
    for item in design.electrical.topology.of_kind(*_DEVICES):
        key = (_DEVICES[item.kind], item.name, item.document)
        found[key] = found.get(key, 0) + item.count
    for (what, product, document), count in found.items():
        yield MaterialLine(
            group=ELECTRICAL,
            item=what,
            product=product,
            document=document,
            quantity=count,
            spare=spares_of(count, spares, "modules"),
            unit="each",
            counted="DEVICES OF EVERY CIRCUIT",
            drawn_as=models[product],
        )


def _trunk_cable(design: Design) -> Iterator[MaterialLine]:
    """Trunk cable by its connectors, an end cap to each branch, a cap to each connector left free.

    A step longer than the pitch of the cable, and so the way to the box, leaves as many connectors
    free as it spans.
    """
    for model, unit in design.inputs.microinverters.items():
        branches = [b for b in design.electrical.branches if b.inverter == model]
        ids = {branch.id for branch in branches}
        pitch = unit.trunk.pitch
        on_steps = sum(
            pitches_along(hop.distance_in, pitch) - 1
            for hop in hops(design)
            if hop.circuit in ids and hop.trunk
        )
        to_boxes = sum(pitches_along(branch.to_box_in, pitch) - 1 for branch in branches)
        units, free = sum(branch.units for branch in branches), on_steps + to_boxes
        cable, sheet = unit.trunk.model, unit.document
        if units:
            per = "ONE PER MICROINVERTER" + (f", {on_steps} MORE ON LONG STEPS" if on_steps else "")
            per += f", {to_boxes} MORE TO BOXES" if to_boxes else ""
            yield _line("Trunk cable, by connectors", cable, sheet, units + free, per)
            yield _line("End cap of trunk cable", cable, sheet, len(branches), "ONE PER BRANCH")
        if free:
            yield _line("Cap of a free connector", cable, sheet, free, "WAYS LONGER THAN PITCH")


def _equipment(design: Design) -> Iterator[MaterialLine]:
    """New equipment, alike pieces on one line; a box that several circuits share is one."""
    topology = design.electrical.topology
    meter = design.inputs.job.electrical.production_meter
    found: dict[tuple[str, str, str], dict[str, int]] = {}
    for item in (*topology.equipment, *topology.pull_boxes):
        if item.kind in _ITEMS and not item.existing:
            key = (_ITEMS[item.kind], _product(topology, item), item.document)
            shared = item.kind is Kind.JUNCTION_BOX and item.panel
            tag = item.panel if shared else item.tag
            found.setdefault(key, {})[tag] = _pieces(topology, item)
    for (what, product, document), pieces in found.items():
        tags = f"{', '.join(pieces)} OF THE DIAGRAM"
        if what == _ITEMS[Kind.METER] and meter and meter.owner == "utility":
            yield _line(what, product, document, None, f"NOT COUNTED: THE UTILITY'S, {tags}")
        else:
            yield _line(what, product, document, sum(pieces.values()), tags)


def _product(topology: Topology, item: Equipment) -> str:
    """Maker and model where there are any, else what it is rated and the type of its enclosure."""
    if item.kind in (Kind.BREAKER, Kind.MAIN):
        return ", ".join(item.ratings[:2])
    if item.document or item.kind is Kind.TAP:
        return item.name
    around = [panel.ratings for panel in topology.panels if panel.tag == item.panel]
    said = [words for words in (*item.ratings, *sum(around, ())) if words.startswith("TYPE ")]
    return ", ".join((*item.ratings[:1], *said))


def _pieces(topology: Topology, item: Equipment) -> int:
    """How many: of tap connectors one for each conductor."""
    if item.kind is not Kind.TAP:
        return item.count
    runs = [s.conductors for s in topology.segments if s.end == item.tag and s.run]
    return sum(run.ungrounded + run.neutrals for run in runs if run)


def _fuses(design: Design) -> Iterator[MaterialLine]:
    """Fuses of a fusible disconnect, one to each pole; string fuses, one to each string.

    As many spare ones lie with a disconnect as it holds (common practice, no source).

    Source: one device protects a source circuit, NEC 690.9(C) [from memory].
    """
    electrical = design.electrical
    poles = design.inputs.job.electrical.service.poles
    fusible = {item.tag: item for item in electrical.topology.of_kind(Kind.FUSED_DISCONNECT)}
    for device in electrical.devices:
        if device.tag in fusible:
            per = f"ONE PER POLE, {device.tag} OF THE DIAGRAM; A SPARE FOR EACH"
            marked = next(
                (words for words in fusible[device.tag].ratings if words.startswith(_FUSES)), ""
            )
            product = f"{device.rating_a:g} A, {marked.removeprefix(_FUSES) or 'CLASS NOT STATED'}"
            line = _line("Fuse", product, "", poles, per)
            yield replace(line, spare=poles)
    rated = [string.fuse_a for string in electrical.strings if string.fuse_a is not None]
    for rating in sorted(set(rated)):
        volts = max(s.cold_voc_v for s in electrical.strings if s.fuse_a == rating)
        product = f"{rating:g} A, listed for photovoltaic circuits, {math.ceil(volts)} V dc or more"
        yield _line("String fuse", product, "", rated.count(rating), "ONE PER STRING")


def _backup_breakers(design: Design) -> Iterator[MaterialLine]:
    """Branch breakers of a backup panel, by their ratings."""
    backup = design.inputs.job.electrical.backup
    if backup is None:
        return
    rated = [ratings.breaker(one.breaker, one.poles)[0] for one in backup.circuits]
    for rating in dict.fromkeys(rated):
        yield _line("Breaker", rating, "", rated.count(rating), f"CIRCUITS OF {backup.id}, E-601")


def _control_devices(topology: Topology) -> Iterator[MaterialLine]:
    """What operates control circuits; an auxiliary contact is ordered with its switch."""
    for one in topology.controls:
        device = one.device
        if device.kind is Kind.CONTACT:
            moves = device.ratings[0].partition(" ")[0].lower()
            product = f"for {device.panel}, {moves} as that is opened"
            yield _line("Auxiliary contact", product, "", 1, f"{device.tag} OF THE DIAGRAM")
        else:
            words = ", ".join((device.name.lower(), *device.ratings[1:]))
            yield _line("Emergency shutdown", words, "", 1, f"{device.tag} OF THE DIAGRAM")


def _panels(topology: Topology) -> Iterator[MaterialLine]:
    """New panels, each with its bus and lugs."""
    for panel in topology.panels:
        buses = [p for p in topology.parts_of(panel.tag) if p.kind is Kind.BUS]
        if buses and not panel.existing:
            words = [w if w in _SHORTENED else w.lower() for w in panel.name.split()]
            item = " ".join([words[0][0].upper() + words[0][1:], *words[1:]])
            yield _line(item, ", ".join(panel.ratings), "", 1, f"{panel.tag} OF THE DIAGRAM")
