"""What E-601 says in sentences: system, point of connection, shutdown, fault current."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil, floor
from types import MappingProxyType

from planset.codes.nec import rapid_shutdown
from planset.codes.nec.busbar_alternatives import Alternative
from planset.design.design import Design
from planset.design.electrical.system import BusLoad, ElectricalDesign, Shutdown
from planset.design.electrical.topology import Kind
from planset.drawing.notes import Section
from planset.sheets.words import inches
from planset.units import format_temperature

_NOISE = 1e-6
_METHODS: Mapping[str, str] = MappingProxyType(
    {
        "module_devices": "listed devices at the modules",
        "converters": "the listed converters at the modules",
        "microinverters": "the listed microinverters at the modules",
        "hazard_control": "a listed hazard-control system",
    }
)
_RULES: Mapping[str, str] = MappingProxyType(
    {
        "busbar_any_position": "main + 125 % of sources <= bus",
        "busbar_opposite_ends": "main + 125 % of sources <= 120 % of bus",
        "busbar_sum_of_breakers": "sum of breakers without the main <= bus",
        "busbar_center_fed": "main + 125 % of sources <= 120 % of bus, fed at its center",
    }
)


def sections(design: Design) -> tuple[Section, ...]:
    """All notes of the sheet."""
    electrical = design.electrical
    return (
        Section("SYSTEM", tuple(_system(design))),
        Section("POINT OF CONNECTION", tuple(_connection(electrical))),
        Section("RAPID SHUTDOWN", tuple(_shutdown(design))),
        Section("FAULT CURRENT", tuple(_fault(design))),
    )


def _system(design: Design) -> Iterator[str]:
    electrical, inputs = design.electrical, design.inputs
    ratio = electrical.dc_kw / electrical.ac_kw if electrical.ac_kw else 0.0
    yield (
        f"{electrical.dc_kw:.2f} kW dc at standard test conditions, {electrical.ac_kw:.2f} kW ac, "
        f"ratio {ratio:.2f}; {design.module_count} modules."
    )
    for name in dict.fromkeys(array.module for array in inputs.job.arrays):
        module = inputs.modules[name]
        yield (
            f"Module {module.maker} {module.model}: {module.power_w:g} W, Voc {module.voc_v:g} V, "
            f"Isc {module.isc_a:g} A, Vmp {module.vmp_v:g} V, Imp {module.imp_a:g} A, "
            f"Voc {module.voc_percent_per_c:g} % per deg C, series fuse {module.series_fuse_a:g} A "
            f"max, {module.max_system_v:g} V max; {module.listing}."
        )
    cold: dict[str, float] = {}
    for string in electrical.strings:
        cold[string.inverter] = max(cold.get(string.inverter, 0.0), string.cold_voc_v)
    cold |= {branch.id: branch.cold_voc_v for branch in electrical.branches}
    for tag, limit, reason in electrical.voltage_limits:
        reached = f"reaches at most {cold[tag]:.1f} V; it" if tag in cold else ""
        yield f"The dc voltage at {tag} {reached} may not exceed {limit:g} V, by {reason}."
    site = inputs.job.site
    yield (
        f"Voltages are taken at {format_temperature(site.lowest_ambient)}, the lowest ambient, and "
        f"at cells in an ambient of {format_temperature(site.high_ambient)}."
    )
    yield (
        "A conductor serves where 125 % of the maximum current is no more than its ampacity at the "
        "weakest terminal, in the column of the terminal's marking (110.14(C)), and the maximum "
        "current itself no more than its ampacity after the factors of its place. USABLE is the "
        "lesser of both ampacities."
    )


def _connection(electrical: ElectricalDesign) -> Iterator[str]:
    for bus in electrical.buses:
        yield _bus_words(bus)
        if bus.by_device is not None:
            one = bus.by_device
            yield (
                f"{bus.tag} by the ratings of the source breakers: {_by_device(bus, one)}"
                f"{_up(one.demand_a):.1f} A {_compared(one.holds)} {_down(one.limit_a):.1f} A."
            )
    if electrical.derate is not None:
        derate = electrical.derate
        load = (
            "There is no load calculation."
            if derate.load_a is None
            else f"The load by article 220 is {_up(derate.load_a):.1f} A."
        )
        yield (
            f"Replace the main breaker: the existing {derate.old_a:g} A breaker comes out, a new "
            f"{derate.new_a:g} A breaker goes in, where the bus allows at most "
            f"{_down(derate.limit_a):.1f} A. {load}"
        )
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


def _shutdown(design: Design) -> Iterator[str]:
    shutdown = design.electrical.shutdown
    if shutdown.method is None:
        yield "No method of rapid shutdown is stated."
        return
    yield _method_words(shutdown)
    if shutdown.initiator:
        yield f"Initiator: {shutdown.initiator}."
    if shutdown.contact:
        yield f"What stops the array as the initiator is operated: {shutdown.contact}."
    edition = design.inputs.jurisdiction.codes.electrical.edition
    if edition in rapid_shutdown.editions():
        limits = rapid_shutdown.requirement(edition)
        yield (
            f"By NEC {edition}, 690.12, conductors more than {inches(limits.boundary_in)} from the "
            f"array are at {limits.outside_limit_v:g} V or less within {limits.outside_time_s:g} s "
            f"of initiation. {_inside_words(shutdown, limits)}"
        )


def _inside_words(shutdown: Shutdown, limits: rapid_shutdown.RapidShutdown) -> str:
    """Which of the code's ways holds within the boundary."""
    if shutdown.method == "hazard_control":
        return "Within that boundary the array's listing for hazard control applies."
    return (
        f"Within that boundary the limit of {limits.inside_limit_v:g} V after "
        f"{limits.inside_time_s:g} s applies."
    )


def _method_words(shutdown: Shutdown) -> str:
    count = f", {shutdown.devices} in all" if shutdown.devices else ""
    where = f"; transmitter: {shutdown.transmitter}" if shutdown.transmitter else ""
    method = _METHODS[shutdown.method or "hazard_control"]
    return f"By {method}: {shutdown.name}, {shutdown.listing}{count}{where}."


def _fault(design: Design) -> Iterator[str]:
    service = design.inputs.job.electrical.service
    yield (
        f"{service.fault_current:g} A available at the service, by {service.fault_source}. The "
        "interrupting rating of each overcurrent device stands in the equipment schedule."
    )
