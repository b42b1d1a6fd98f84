"""The arithmetic of the point of connection, in sentences with its sections."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil, floor
from types import MappingProxyType

from planset.codes.nec import clauses
from planset.codes.nec.busbar_alternatives import Alternative
from planset.codes.nec.supply_side import ServiceSources
from planset.design.design import Design
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.service_limits import SupplySide, feeders_of, supply_side_of
from planset.design.electrical.system import BusLoad, Derate, ElectricalDesign
from planset.design.electrical.topology import Kind

_NOISE = 1e-6
_RULES: Mapping[str, str] = MappingProxyType(
    {
        "busbar_any_position": "main + 125 % of sources <= bus",
        "busbar_opposite_ends": "main + 125 % of sources <= 120 % of bus",
        "busbar_sum_of_breakers": "sum of breakers without the main <= bus",
        "busbar_center_fed": "main + 125 % of sources <= 120 % of bus, fed at its center",
    }
)


def connection(design: Design) -> Iterator[str]:
    """How every bus, feeder and connection that sources feed complies, and where it is."""
    electrical, edition = design.electrical, design.inputs.jurisdiction.codes.electrical.edition
    for bus in electrical.buses:
        yield _bus_words(bus)
        if bus.by_device is not None:
            one = bus.by_device
            yield (
                f"{bus.tag} by the ratings of the source breakers: {_by_device(bus, one)}"
                f"{_up(one.demand_a):.1f} A {_compared(one.holds)} {_down(one.limit_a):.1f} A."
            )
    if edition in clauses.editions("feeder"):
        for feeder in feeders_of(electrical):
            yield (
                f"Feeder {feeder.segment.tag}, NEC {clauses.clause('feeder', edition)}: 1.25 x "
                f"{feeder.source_a:.2f} = {_up(feeder.least_a):.1f} A "
                f"{_compared(feeder.ampacity_a >= feeder.least_a)} its ampacity of "
                f"{_down(feeder.ampacity_a):.1f} A."
            )
    if electrical.derate is not None:
        yield _derate_words(electrical.derate)
    ahead = (
        supply_side_of(design.inputs, electrical, edition)
        if edition in clauses.editions("supply_side")
        else None
    )
    if ahead is not None:
        yield from _ahead(ahead, edition)
    yield from _places(electrical)


def _derate_words(derate: Derate) -> str:
    load = (
        "There is no load calculation."
        if derate.load_a is None
        else f"The load by article 220 is {_up(derate.load_a):.1f} A."
    )
    return (
        f"Replace the main breaker: the existing {derate.old_a:g} A breaker comes out, a new "
        f"{derate.new_a:g} A breaker goes in, where the bus allows at most "
        f"{_down(derate.limit_a):.1f} A. {load}"
    )


def _sources(sources: ServiceSources | None) -> str:
    if sources is None:
        return "the ampacity of the service conductors is not known here."
    counted, limited = "outputs of the sources", "service conductors"
    if sources.counted == "devices":
        counted, limited = "devices of the sources", "service"
    parts = " + ".join(f"{_up(part):.1f}" for part in sources.parts_a)
    terms = f"{parts} = " if len(sources.parts_a) > 1 else ""
    holds = _compared(sources.total_a <= sources.limit_a)
    return f"{counted} {terms}{_up(sources.total_a):.1f} A {holds} {limited} {sources.limit_a:g} A."


def _ahead(tap: SupplySide, edition: int) -> Iterator[str]:
    """A connection ahead of the service disconnect: devices, switch, conductors, distance."""
    cited = clauses.clause("supply_sources", edition)
    yield f"NEC {cited}, ahead of the service disconnect: {_sources(tap.sources)}"
    held = tap.least_disconnect_a <= tap.disconnect_a
    yield (
        f"NEC {clauses.clause('supply_disconnect_rating', edition)}: least rating of its switch "
        f"{tap.least_disconnect_a:g} A {_compared(held)} {tap.disconnect_a:g} A."
    )
    for segment in tap.conductors:
        run = segment.conductors
        if run is not None:
            yield (
                f"NEC {clauses.clause('supply_conductor', edition)}: segment {segment.tag} is "
                f"{wire_size(run.size)}; {wire_size(tap.least_size[run.material])} is the least "
                f"of {run.material}."
            )
    for segment in tap.conductors:
        yield (
            f"NEC {clauses.clause('supply_bonding', edition)}: raceway and enclosures of segment "
            f"{segment.tag} hold unfused service conductors; they are bonded by hubs, threadless "
            "couplings made up tight, or bonding bushings with jumpers, not by locknuts alone."
        )
    length = f"From the tap to the fuse: {tap.distance_ft:g} ft of conductor"
    if tap.longest_ft is None:
        yield f"{length}; NEC {edition} sets no limit."
    else:
        cited = clauses.clause("supply_tap_reach", edition)
        held = tap.distance_ft <= tap.longest_ft
        yield f"{length} {_compared(held)} {tap.longest_ft:g} ft, NEC {cited}."


def _places(electrical: ElectricalDesign) -> Iterator[str]:
    """Where the connection is."""
    existing = {panel.tag for panel in electrical.topology.panels if panel.existing}
    for item in electrical.topology.of_kind(Kind.BREAKER):
        if item.panel in existing and not item.existing:
            yield f"The point of interconnection is breaker {item.tag} in {item.panel}."
    for segment in electrical.topology.segments:
        if segment.supply_side and segment.run is not None:
            yield (
                f"Segment {segment.tag} connects on the supply side of the service disconnect, "
                f"protected by the {segment.device_a or 0:g} A fuses of {segment.start}. "
                f"The point of interconnection is {segment.end}."
            )


def _bus_words(bus: BusLoad) -> str:
    chosen = bus.chosen
    rule = _RULES.get(chosen.topic, chosen.topic.replace("_", " "))
    if chosen.topic == "busbar_sum_of_breakers":
        sum_words = f"{_up(chosen.demand_a):.1f} A"
    else:
        sum_words = f"{bus.main_a:g} + 1.25 x {bus.source_a:.2f} = {_up(chosen.demand_a):.1f} A"
    return (
        f"{bus.tag}, NEC {chosen.clause}, {rule}: {sum_words} {_compared(chosen.holds)} "
        f"{_down(chosen.limit_a):.1f} A."
    )


def _by_device(bus: BusLoad, one: Alternative) -> str:
    """The terms of the sum, where they are the main and the breakers."""
    terms = (bus.main_a, *bus.source_devices_a)
    alike = abs(sum(terms) - one.demand_a) < _NOISE
    return f"{' + '.join(f'{term:g}' for term in terms)} = " if alike else ""


def _up(amperes: float) -> float:
    """A demand, to the next tenth above."""
    return ceil(amperes * 10 - _NOISE) / 10


def _down(amperes: float) -> float:
    """A limit, to the next tenth below."""
    return floor(amperes * 10 + _NOISE) / 10


def _compared(holds: bool) -> str:
    return "<=" if holds else "exceeds"
