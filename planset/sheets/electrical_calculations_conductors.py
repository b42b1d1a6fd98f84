"""Calculations of conductors: both tests, protection, grounding, fill and drop of each segment."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planset.codes.nec.voltage_drop import (
    NOTED_BRANCH_PERCENT,
    NOTED_TOTAL_PERCENT,
)
from planset.design.design import Design
from planset.design.electrical.clause_topics import (
    conductor_topic,
    grounding_topic,
    protection_topic,
)
from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.drop_ways import DropWay, drop_ways
from planset.design.electrical.topology import Segment, Topology
from planset.design.electrical.trunk_rises import trunk_rises
from planset.sheets.electrical_calculations_rows import Block, Code, Line, amperes, percent
from planset.sheets.tag_lists import listed_tags
from planset.sheets.words import raceway_name

_TESTS = {
    "terminals": "TERMINALS",
    "conditions": "PLACE",
    "protection": "PROTECTION",
    "minimum": "LEAST SIZE AHEAD OF THE SERVICE",
}


def conductor_blocks(design: Design, code: Code) -> tuple[Block, ...]:
    """A block for every sized segment, and one for the drop of every way.

    Args:
        design: The design.
        code: The edition and the findings.
    """
    topology = design.electrical.topology
    blocks = [
        Block(_title(segments, run), tuple(_lines(segments[0], run, code)))
        for segments, run in _alike(topology)
    ]
    failed = [
        Line(f"SEGMENT {tag}", "NOT SIZED", reason.upper(), "NONE")
        for tag, reason in design.electrical.not_sized
    ]
    ways = tuple(_ways(topology, code))
    return (
        Block("RISE ALONG THE TRUNK CABLES", tuple(_trunks(design, code))),
        *blocks,
        Block("SEGMENTS WITHOUT CONDUCTORS", tuple(failed)),
        Block("VOLTAGE DROP FROM EACH SOURCE", ways),
    )


def _alike(topology: Topology) -> list[tuple[list[Segment], SizedRun]]:
    """Sized segments, those whose numbers are all equal together."""
    groups: dict[tuple[object, ...], tuple[list[Segment], SizedRun]] = {}
    for segment in topology.segments:
        run = segment.conductors
        if run is None:
            continue
        alone = replace(segment, tag="", start="", end="", box="", conductors=None)
        key = (alone, replace(run, shares_with=()))
        groups.setdefault(key, ([], run))[0].append(segment)
    return list(groups.values())


def _trunks(design: Design, code: Code) -> Iterator[Line]:
    """The rise of voltage along the trunk of each branch, units in a row on one pair of lines."""
    segments = {segment.start: segment for segment in design.electrical.topology.segments}
    for rise in trunk_rises(design):
        branch, trunk = rise.branch, rise.branch.trunk
        title = f"SEGMENT {segments[branch.id].tag}, {branch.id}"
        if trunk is None:
            yield Line(title, "NOT KNOWN", "RESISTANCE OF THE CABLE NOT STATED", "-")
            continue
        yield Line(
            title,
            "2 L I Z / 1000 / V, SUM OVER STEPS",
            f"{trunk.units} UNITS OF {branch.unit_a:g} A, {trunk.length_ft:.0f} FT, "
            f"{trunk.ohm_per_kft:g}: {trunk.drop.drop_v:.2f} V OF {trunk.drop.voltage_v:g} V",
            percent(trunk.drop.percent),
            f"{rise.limit_percent:g} %, {'BY ITS MAKER' if rise.by_maker else 'A NOTE'}",
            "DATA SHEET" if rise.by_maker else code.cite("voltage_drop_branch"),
            code.found(
                "trunk-rise" if rise.by_maker else "voltage-drop",
                (trunk.drop.percent, rise.limit_percent),
            ),
        )


def _title(segments: list[Segment], run: SizedRun) -> str:
    first = segments[0]
    where = f"SEGMENT {first.tag}, {first.start} TO {first.end}"
    if len(segments) > 1:
        where = f"SEGMENTS {listed_tags([segment.tag for segment in segments])}"
    raceway = f" IN {raceway_name(run.fill.raceway)}" if run.fill else ""
    return (
        f"{where}, {first.circuit}: {run.size} AWG {run.material.upper()} "
        f"{run.insulation.upper()}{raceway}"
    )


def _lines(segment: Segment, run: SizedRun, code: Code) -> Iterator[Line]:
    yield from _tests(segment, run, code)
    yield _grounding(segment, run, code)
    if run.fill is not None:
        yield _fill(segment, run, code)
    yield _drop(segment, run, code)


def _tests(segment: Segment, run: SizedRun, code: Code) -> Iterator[Line]:
    check, ends = run.check, (segment.start, segment.end)
    cited = code.cite(conductor_topic(segment))
    chosen = "SIZE OF THE JOB" if run.size_stated else _governing(run)
    yield Line(
        f"TERMINALS, {run.terminal_c:.0f} C",
        "A >= 1.25 I",
        f"1.25 x {check.demand_a:.2f} = {check.terminal_demand_a:.2f} A",
        amperes(check.terminal_ampacity_a),
        f">= {check.terminal_demand_a:.2f} A",
        f"{cited}, {code.cite('terminals')}",
        code.found(
            "conductor-terminals", (check.terminal_ampacity_a, check.terminal_demand_a), ends
        ),
    )
    adjusted = check.adjusted
    yield Line(
        f"IN PLACE: {run.place.upper()}",
        "A Ca Cn >= I",
        f"{adjusted.base_a:g} x {adjusted.ambient_factor:.2f} ({adjusted.temperature_c:.0f} C) x "
        f"{adjusted.bundling_factor:.2f} ({run.current_carrying} WIRES); {chosen}",
        amperes(adjusted.ampacity_a),
        f">= {check.demand_a:.2f} A",
        cited,
        code.found("conductor-ampacity", (adjusted.ampacity_a, check.demand_a), ends),
    )
    if check.device_a is not None:
        yield Line(
            "PROTECTION",
            "DEVICE <= LARGEST",
            f"LARGEST FOR {run.size} AWG BY THE LESSER AMPACITY",
            amperes(check.device_a),
            f"<= {amperes(check.largest_device_a)}",
            code.cite(protection_topic(segment)),
            code.found("conductor-protection", (check.device_a, check.largest_device_a), ends),
        )


def _governing(run: SizedRun) -> str:
    return "GOVERNED BY " + ", ".join(_TESTS.get(name, name.upper()) for name in run.governing)


def _grounding(segment: Segment, run: SizedRun, code: Code) -> Line:
    return Line(
        "GROUNDING",
        "SIZE >= LEAST SIZE",
        run.grounding_reason.upper(),
        f"{run.grounding} AWG",
        f">= {run.grounding_least} AWG",
        code.cite(grounding_topic(segment)),
        code.found("equipment-grounding", objects=(segment.start, segment.end)),
    )


def _fill(segment: Segment, run: SizedRun, code: Code) -> Line:
    fill = run.fill
    assert fill is not None, "the run has a raceway"
    shared = run.shares_with
    others = f", WITH SEGMENT{'S' * (len(shared) > 1)} {', '.join(shared)}" if shared else ""
    return Line(
        f"FILL{others}",
        "AREAS / AREA INSIDE",
        f"{fill.conductors_in2:.4f} / {fill.raceway.area_in2:.3f} SQ IN",
        f"{100 * fill.share:.1f} %",
        f"<= {100 * fill.limit:.0f} %",
        code.cite("conduit_fill"),
        code.found("raceway-fill", (100 * fill.share, 100 * fill.limit)),
    )


def _drop(segment: Segment, run: SizedRun, code: Code) -> Line:
    if segment.continues:
        words = f"COUNTED IN SEGMENT {segment.continues}"
        return Line("VOLTAGE DROP", words, "", percent(run.drop.percent))
    loop = "1.732" if segment.lines == 3 else "2"
    return Line(
        "VOLTAGE DROP",
        f"{loop} L I Z / 1000 / V",
        f"{loop} x {run.length_ft:.1f} FT x {segment.operating_a or 0.0:.2f} A x "
        f"{run.ohm_per_kft:.3f} / 1000 = {run.drop.drop_v:.2f} V OF {run.drop.voltage_v:.1f} V",
        percent(run.drop.percent),
        f"{NOTED_BRANCH_PERCENT:g} %, A NOTE",
        code.cite("voltage_drop_branch"),
        code.found("voltage-drop", (run.drop.percent, NOTED_BRANCH_PERCENT)),
    )


def _ways(topology: Topology, code: Code) -> Iterator[Line]:
    """The drop of every way, those of equal drops together."""
    groups: dict[tuple[str, ...], list[DropWay]] = {}
    for way in drop_ways(topology):
        drops = [s.drop for s in way.segments if s.drop is not None]
        groups.setdefault(tuple(f"{drop.percent:.2f}" for drop in drops), []).append(way)
    for terms, ways in groups.items():
        total = ways[0].percent
        yield Line(
            f"FROM {listed_tags([way.source for way in ways])}",
            f"SUM OF SEGMENTS {_through(ways)}",
            f"{' + '.join(terms)} %",
            percent(total),
            f"{NOTED_TOTAL_PERCENT:g} %, A NOTE",
            code.cite("voltage_drop_feeder"),
            code.found("voltage-drop", (total, NOTED_TOTAL_PERCENT)),
        )


def _through(ways: list[DropWay]) -> str:
    """Segments of some ways step by step, alternatives of one step drawn together."""
    steps = zip(*(way.segments for way in ways), strict=True)
    return "; ".join(listed_tags(list(dict.fromkeys(s.tag for s in step))) for step in steps)
