"""The electrical part of the bill, from the topology: equipment, conductors, raceways, labels."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.ratings import wire_size
from planset.design.electrical.system import ElectricalDesign
from planset.design.electrical.topology import Equipment, Kind, Segment
from planset.design.material_line import MaterialLine, spares_of
from planset.job.materials import Spares

if TYPE_CHECKING:
    from planset.job.load import Inputs

ELECTRICAL = "ELECTRICAL"

_ITEMS = {
    Kind.JUNCTION_BOX: "Junction box",
    Kind.DC_DISCONNECT: "DC disconnect",
    Kind.INVERTER: "Inverter",
    Kind.BATTERY: "Battery",
    Kind.METER: "Production meter",
    Kind.DISCONNECT: "AC disconnect",
    Kind.FUSED_DISCONNECT: "Fused AC disconnect, with its fuses",
    Kind.TAP: "Tap connectors, one for each conductor",
    Kind.BREAKER: "Breaker",
    Kind.MAIN: "Main breaker",
}
"""Equipment that is ordered; what modules it serves, or what is part of a panel, stands apart."""

_DEVICES = {
    "module_devices": "Rapid shutdown device",
    "converters": "Converter",
    "microinverters": "Microinverter",
    "hazard_control": "Hazard-control system",
}
_RACEWAYS = {
    "emt": "EMT",
    "rmc": "Rigid metal conduit",
    "pvc40": "PVC conduit, schedule 40",
    "pvc80": "PVC conduit, schedule 80",
    "fmc": "Flexible metal conduit",
}
_NOISE = 1e-9


def electrical_lines(
    inputs: Inputs, electrical: ElectricalDesign, spares: Spares
) -> Iterator[MaterialLine]:
    """What is new, by the diagram; what is there already is left out."""
    yield from _module_devices(inputs, electrical, spares)
    yield from _equipment(electrical)
    yield from _conductors(electrical, spares)
    yield from _raceways(electrical, spares)
    for label in electrical.labels:
        yield _line("Label", f"{label.key}: {label.lines[0]}", "", label.quantity, "LABEL SCHEDULE")


def _line(item: str, product: str, document: str, quantity: int, counted: str) -> MaterialLine:
    return MaterialLine(ELECTRICAL, item, product, document, quantity, 0, "each", counted)


def _module_devices(
    inputs: Inputs, electrical: ElectricalDesign, spares: Spares
) -> Iterator[MaterialLine]:
    """Shutdown devices, converters or microinverters, by circuit."""
    entries = (inputs.shutdown, inputs.converter, *inputs.microinverters.values())
    models = {f"{entry.maker} {entry.model}": entry.model for entry in entries if entry}
    kinds = (Kind.SHUTDOWN, Kind.CONVERTERS, Kind.MICROINVERTERS)
    names = {Kind.SHUTDOWN: "module_devices", Kind.CONVERTERS: "converters"}
    found: dict[tuple[str, str, str], int] = {}
    for item in electrical.topology.of_kind(*kinds):
        kind = names.get(item.kind, "microinverters")
        key = (_DEVICES[kind], item.name, item.document)
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


def _equipment(electrical: ElectricalDesign) -> Iterator[MaterialLine]:
    """New equipment, alike pieces on one line; a new panel with its bus and lugs on one."""
    topology = electrical.topology
    found: dict[tuple[str, str, str], list[Equipment]] = {}
    for item in topology.equipment:
        if item.kind in _ITEMS and not item.existing:
            named = item.document or item.kind is Kind.BREAKER
            product = item.name if named else ", ".join(item.ratings[:1])
            if item.kind in (Kind.BREAKER, Kind.MAIN):
                product = ", ".join(item.ratings[:2])
            found.setdefault((_ITEMS[item.kind], product, item.document), []).append(item)
    for (what, product, document), items in found.items():
        count = sum(item.count for item in items)
        tags = ", ".join(item.tag for item in items)
        yield _line(what, product, document, count, f"{tags} OF THE DIAGRAM")
    for panel in topology.panels:
        buses = [p for p in topology.parts_of(panel.tag) if p.kind is Kind.BUS]
        if buses and not panel.existing:
            yield _line(
                panel.name.capitalize(),
                ", ".join(panel.ratings),
                "",
                1,
                f"{panel.tag} OF THE DIAGRAM",
            )


def _conductors(electrical: ElectricalDesign, spares: Spares) -> Iterator[MaterialLine]:
    """Feet of every size and type: current-carrying, neutral and grounding conductors."""
    found: dict[tuple[str, str], tuple[float, list[str]]] = {}

    def add(what: str, size: str, feet: float, tag: str) -> None:
        so_far, tags = found.setdefault((what, size), (0.0, []))
        found[what, size] = (so_far + feet, [*tags, tag] if tag not in tags else tags)

    for segment in electrical.topology.segments:
        run = segment.conductors
        if run is None or segment.continues:
            continue
        count = run.ungrounded + run.neutrals
        what = f"{run.insulation}, {run.material}"
        add(what, run.size, count * run.length_ft, segment.tag)
        ground = "Bare grounding conductor" if not run.raceway else "Grounding conductor"
        if segment.tag == _first_sharing(segment):
            what = f"{ground}, {run.grounding_material}"
            add(what, run.grounding, run.length_ft, segment.tag)
    for (what, size), (feet, tags) in found.items():
        yield _feet(what, wire_size(size), feet, tags, spares)


def _raceways(electrical: ElectricalDesign, spares: Spares) -> Iterator[MaterialLine]:
    """Feet of every kind and trade size, a raceway that several segments share but once."""
    found: dict[tuple[str, str], tuple[float, list[str]]] = {}
    for segment in electrical.topology.segments:
        run = segment.conductors
        if run is None or run.fill is None or segment.continues:
            continue
        if segment.tag != _first_sharing(segment):
            continue
        key = (_RACEWAYS[run.raceway], run.fill.raceway.trade_size)
        feet, tags = found.setdefault(key, (0.0, []))
        found[key] = (feet + run.length_ft, [*tags, segment.tag])
    for (what, trade_size), (feet, tags) in found.items():
        yield _feet(what, f"{trade_size} in", feet, tags, spares)


def _first_sharing(segment: Segment) -> str:
    """Tag of the first of the segments that lie in one raceway."""
    run = segment.conductors
    assert run is not None, "asked of sized segments only"
    return min((segment.tag, *run.shares_with), key=int)


def _feet(what: str, product: str, feet: float, tags: list[str], spares: Spares) -> MaterialLine:
    quantity = math.ceil(feet - _NOISE)
    return MaterialLine(
        group=ELECTRICAL,
        item=what,
        product=product,
        document="",
        quantity=quantity,
        spare=spares_of(quantity, spares, "small_parts"),
        unit="ft",
        counted=f"SEGMENTS {', '.join(tags)} OF THE DIAGRAM",
    )
