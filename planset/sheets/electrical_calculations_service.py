"""Calculations at the service: buses, feeders, derate, supply side, fault current, electrode."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from planset.codes.nec.busbar_alternatives import Alternative
from planset.codes.nec.supply_side import ServiceSources
from planset.design.design import Design
from planset.design.electrical.fault_current import FaultCurrent, fault_current_at
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.service_limits import electrodes_of, feeders_of, supply_side_of
from planset.design.electrical.system import BusLoad
from planset.job.electrical.service import LoadLine
from planset.sheets.electrical_calculations_rows import NONE, Block, Code, Line, amperes, times

_NOT_RELIED_ON = "NOT RELIED ON"
_FORMULAS = {
    "busbar_any_position": ("MAIN + 1.25 I SOURCES <= BUS", "ANYWHERE ON THE BUS"),
    "busbar_opposite_ends": ("MAIN + 1.25 I SOURCES <= 1.2 BUS", "OPPOSITE ENDS"),
    "busbar_sum_of_breakers": ("ALL BREAKERS BUT THE MAIN <= BUS", "SUM OF BREAKERS"),
    "busbar_center_fed": ("MAIN + 1.25 I SOURCES <= 1.2 BUS", "CENTER-FED, AT ONE END"),
}


def service_blocks(design: Design, code: Code) -> tuple[Block, ...]:
    """Blocks of buses, feeders, the smaller main, the supply side, fault current, electrode.

    Args:
        design: The design.
        code: The edition and the findings.
    """
    buses = [Block(_bus_title(bus), tuple(_bus(bus, code))) for bus in design.electrical.buses]
    return (
        *buses,
        Block("FEEDERS WITH SOURCES", tuple(_feeders(design, code))),
        Block("SMALLER MAIN", tuple(_derate(design, code))),
        Block("CONNECTION AHEAD OF THE SERVICE DISCONNECT", tuple(_supply_side(design, code))),
        Block("INTERRUPTING RATINGS", tuple(_interrupting(design, code))),
        Block("GROUNDING ELECTRODE CONDUCTORS", tuple(_electrodes(design, code))),
    )


def _bus_title(bus: BusLoad) -> str:
    return f"BUS OF {bus.tag}: {bus.rating_a:g} A, FED AT ITS {bus.feed.upper()}"


def _bus(bus: BusLoad, code: Code) -> Iterator[Line]:
    for way in bus.alternatives:
        formula, words = _FORMULAS[way.topic]
        relied = way == bus.chosen
        yield Line(
            f"{words}{': RELIED ON' if relied else ''}",
            formula,
            _bus_numbers(bus, way),
            amperes(way.demand_a),
            f"<= {amperes(way.limit_a)}",
            way.clause,
            code.found("busbar", (way.demand_a, way.limit_a)) if relied else _NOT_RELIED_ON,
        )
    reading = bus.by_device
    if reading is not None and reading.demand_a != bus.chosen.demand_a:
        yield Line(
            "OPPOSITE ENDS, AS SOME AUTHORITIES READ IT",
            "MAIN + SOURCE BREAKERS <= 1.2 BUS",
            f"{bus.main_a:g} A + {times(bus.source_devices_a, 'A')}",
            amperes(reading.demand_a),
            f"<= {amperes(reading.limit_a)}",
            reading.clause,
            code.found("busbar-reading", (reading.demand_a, reading.limit_a)) or _NOT_RELIED_ON,
        )


def _bus_numbers(bus: BusLoad, way: Alternative) -> str:
    if way.topic == "busbar_sum_of_breakers":
        return "BREAKERS AS SURVEYED AND NEW"
    return f"{bus.main_a:g} A + 1.25 x {bus.source_a:.2f} A"


def _feeders(design: Design, code: Code) -> Iterator[Line]:
    for feeder in feeders_of(design.electrical):
        segment = feeder.segment
        yield Line(
            f"SEGMENT {segment.tag}, {segment.start} TO {segment.end}",
            "LESSER AMPACITY >= 1.25 I SOURCES",
            f"1.25 x {feeder.source_a:.2f} = {feeder.least_a:.2f} A",
            amperes(feeder.ampacity_a),
            f">= {feeder.least_a:.2f} A",
            code.cite("feeder"),
            code.found("feeder", (feeder.ampacity_a, feeder.least_a)),
        )


def _derate(design: Design, code: Code) -> Iterator[Line]:
    derate = design.electrical.derate
    if derate is None:
        return
    change = design.inputs.job.electrical.main_derate
    calculation = change.calculation if change else None
    whose = "OF THE JOB" if derate.stated else "LARGEST STANDARD"
    bus = next((bus for bus in design.electrical.buses if bus.tag == "MSP"), None)
    yield Line(
        f"NEW MAIN IN PLACE OF {derate.old_a:g} A, {whose}",
        "MAIN <= 1.2 BUS - 1.25 I SOURCES, AT MOST THE BUS",
        f"1.2 x {bus.rating_a:g} A - 1.25 x {bus.source_a:.2f} A" if bus else NONE,
        amperes(derate.new_a),
        f"<= {amperes(derate.limit_a)}",
        code.cite("busbar_opposite_ends"),
    )
    if derate.load_a is None or calculation is None:
        yield Line(
            "LOAD BY ARTICLE 220",
            "LOAD <= NEW MAIN",
            "NO CALCULATION IN THE JOB",
            "NONE",
            f"<= {amperes(derate.new_a)}",
            "ARTICLE 220",
            code.found("main-derate"),
        )
        return
    yield from _loads(calculation.lines)
    volts = design.inputs.job.electrical.service.voltage
    sums = f"{sum(line.counted_va for line in calculation.lines):,.0f} VA / {volts:g} V; "
    attached = f"{calculation.document.upper()}, {calculation.date}"
    yield Line(
        f"LOAD BY ARTICLE 220, {calculation.method.upper()}",
        "LOAD <= NEW MAIN",
        f"{sums}{attached}" if calculation.lines else f"ATTACHED: {attached}",
        amperes(derate.load_a),
        f"<= {amperes(derate.new_a)}",
        "ARTICLE 220",
        code.found("main-derate", (derate.load_a, derate.new_a)),
    )


def _loads(lines: Iterable[LoadLine]) -> Iterator[Line]:
    """The lines of a load calculation, each with the share that counts."""
    for line in lines:
        yield Line(
            line.what.upper(),
            "VA x SHARE",
            f"{line.va:,.0f} VA x {line.percent:g} %",
            f"{line.counted_va:,.0f} VA",
        )


def _sources(sources: ServiceSources | None, code: Code) -> Line:
    name, cited = "SOURCES ON THE SERVICE", code.cite("supply_sources")
    if sources is None:
        numbers = "AMPACITY OF ITS CONDUCTORS NOT KNOWN HERE"
        return Line(name, NONE, numbers, NONE, NONE, cited, code.found("supply-side-sources"))
    formula = "SUM OF THEIR OUTPUTS <= SERVICE CONDUCTORS"
    if sources.counted == "devices":
        formula = "SUM OF THEIR DEVICES <= SERVICE"
    return Line(
        name,
        formula,
        times(sources.parts_a, "A"),
        amperes(sources.total_a),
        f"<= {amperes(sources.limit_a)}",
        cited,
        code.found("supply-side-sources", (sources.total_a, sources.limit_a)),
    )


def _supply_side(design: Design, code: Code) -> Iterator[Line]:
    tap = supply_side_of(design.inputs, design.electrical, code.edition)
    if tap is None:
        return
    yield _sources(tap.sources, code)
    yield Line(
        "DISCONNECT",
        "RATING >= DEVICE, AT LEAST 60 A",
        NONE,
        amperes(tap.disconnect_a),
        f">= {amperes(tap.least_disconnect_a)}",
        code.cite("supply_disconnect_rating"),
        code.found("tap-disconnect", (tap.disconnect_a, tap.least_disconnect_a)),
    )
    for segment in tap.conductors:
        run = segment.conductors
        if run is not None:
            yield Line(
                f"SEGMENT {segment.tag}, {segment.start} TO {segment.end}",
                "SIZE >= LEAST SIZE",
                run.material.upper(),
                f"{run.size} AWG",
                f">= {tap.least_size[run.material]} AWG",
                code.cite("supply_conductor"),
                code.found("tap-conductor", objects=(segment.start, segment.end)),
            )
    longest = tap.longest_ft
    yield Line(
        "CONDUCTOR TO THE DEVICE",
        "LENGTH",
        NONE,
        f"{tap.distance_ft:.1f} FT",
        "NONE FIXED BY THIS EDITION" if longest is None else f"<= {longest:g} FT",
        code.cite("supply_side" if longest is None else "supply_tap_reach"),
        "" if longest is None else code.found("tap-distance", (tap.distance_ft, longest)),
    )


def _interrupting(design: Design, code: Code) -> Iterator[Line]:
    tags: dict[tuple[float, FaultCurrent], list[str]] = {}
    for item in design.electrical.topology.equipment:
        if item.interrupting_a is not None:
            at = fault_current_at(design.inputs, item)
            tags.setdefault((item.interrupting_a, at), []).append(item.tag)
    for (rating_a, available), listed in tags.items():
        yield Line(
            ", ".join(listed),
            "RATING >= AVAILABLE FAULT CURRENT",
            available.source.upper(),
            amperes(rating_a),
            f">= {amperes(available.current_a)}",
            code.cite("interrupting_rating"),
            code.found("interrupting-rating", (rating_a, available.current_a)),
        )


def _electrodes(design: Design, code: Code) -> Iterator[Line]:
    """A line for each electrode, one of a kind told from another as on the diagram."""
    used: Counter[str] = Counter()
    for found in electrodes_of(design.inputs):
        used[found.kind] += 1
        number = f" {used[found.kind]}" if used[found.kind] > 1 else ""
        yield Line(
            f"EXISTING, TO {found.kind.upper()}{number}",
            "SIZE >= LEAST SIZE",
            found.reason.upper(),
            f"{wire_size(found.size)} {found.material.upper()}",
            f">= {wire_size(found.least)}",
            code.cite("grounding_electrode"),
            code.found("grounding-electrode"),
        )
