"""Schedules of E-601: conductors, equipment, strings or branches, the grounding path."""

from __future__ import annotations

from collections.abc import Sequence

from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.system import ElectricalDesign, GroundingStep, StringCircuit
from planset.design.electrical.topology import (
    ControlCircuit,
    Equipment,
    Kind,
    Panel,
    Segment,
    Topology,
)
from planset.drawing.geometry import Point
from planset.drawing.table import Column, Table, cell_width
from planset.sheets.note_table import note_table
from planset.sheets.one_line.kinds import ratings_of, status
from planset.sheets.tag_lists import listed_tags
from planset.sheets.words import raceway_name

_METALS = {"copper": "CU", "aluminum": "AL"}
_NOT_SIZED = "NOT SIZED"
_EXISTING = "EXISTING"
_NARROW, _WIDE = 12.3, 18.0  # of a table on an 11x17 sheet, and on a wide one [in]


def conductor_schedule(electrical: ElectricalDesign, at: Point, width: float) -> Table:
    """Every run of conductors."""
    fixed = (
        Column("TAG", 0.42, "center"),
        Column("FROM", 0.82, "center"),
        Column("TO", 0.82, "center"),
        Column("CIRCUIT", _roomy(1.4, 2.9, width)),
        Column("CONDUCTORS", 0.0),
        Column("EGC", 0.58, "center"),
        Column("RACEWAY, FILL", _roomy(0.99, 2.4, width), "center"),
        Column("LENGTH ft", 0.68, "center"),
        Column("MAX V", 0.53, "center"),
        Column("MAX A", 0.54, "center"),
        Column("125 % A", 0.54, "center"),
        Column("DEVICE", _roomy(0.66, 1.1, width), "center"),
        Column("AT deg C, FACTORS", _roomy(0.84, 1.35, width), "center"),
        Column("TERM. deg C, A", 0.77, "center"),
        Column("USABLE A", 0.68, "center"),
        Column("DROP %", 0.52, "center"),
    )
    columns = _widened(fixed, width)
    why = dict(electrical.not_sized)
    rows = [_conductor_row(segment, segment.tag in why) for segment in electrical.topology.segments]
    rows += [_control_row(one) for one in electrical.topology.controls]
    return note_table("CONDUCTOR SCHEDULE", columns, rows, at)


def _roomy(least: float, most: float, width: float) -> float:
    """Width of a column, more of it on a wide sheet, where its words then take one line [in]."""
    share = (width - _NARROW) / (_WIDE - _NARROW)
    return least + (most - least) * min(max(share, 0.0), 1.0)


def _widened(columns: Sequence[Column], width: float) -> tuple[Column, ...]:
    """The columns, the one without a width taking what the others leave."""
    rest = width - sum(column.width for column in columns)
    return tuple(Column(c.title, c.width or rest, c.align) for c in columns)


def _conductor_row(segment: Segment, unsized: bool) -> tuple[str, ...]:
    said = segment.circuit.removesuffix(" (E)")  # which the conductors' column says
    circuit = ", ".join(words for words in (said, segment.flows) if words)
    head = (segment.tag, segment.start, segment.end, circuit)
    volts = f"{segment.voltage_v:.1f}" if not segment.ac else f"{segment.voltage_v:g}"
    amps = "-" if segment.current_a is None else f"{segment.current_a:.2f}"
    more = "-" if segment.current_a is None else f"{1.25 * segment.current_a:.2f}"
    device = "-" if segment.device_a is None else f"{segment.device_a:g} A"
    if segment.device_a is not None and segment.device_tag:
        device = f"{device}, {segment.device_tag}"
    run = segment.conductors
    if run is None:
        existing = f"{_EXISTING}, {segment.existing.upper()}" if segment.existing else _EXISTING
        what = _NOT_SIZED if unsized else segment.cable or existing
        trunk = segment.trunk
        length, drop = (
            (f"{trunk.length_ft:.0f}", f"{trunk.drop.percent:.2f}") if trunk else ("-", "-")
        )
        return (*head, what, "-", "-", length, volts, amps, more, device, "-", "-", "-", drop)
    check = run.check
    factors = f"{check.adjusted.ambient_factor:.2f} x {check.adjusted.bundling_factor:.2f}"
    return (
        *head,
        conductor_words(run, ac=segment.ac),
        f"{run.grounding} {_METALS.get(run.grounding_material, '')}".strip(),
        raceway_words(run),
        f"WITH {segment.continues}" if segment.continues else f"{run.length_ft:.0f}",
        volts,
        amps,
        more,
        device,
        f"{check.adjusted.temperature_c:.0f}, {factors}",
        f"{run.terminal_c:.0f}, {check.terminal_ampacity_a:g}",
        f"{min(check.adjusted.ampacity_a, check.terminal_ampacity_a):.1f}",
        f"WITH {segment.continues}" if segment.continues else f"{run.drop.percent:.2f}",
    )


def _control_row(one: ControlCircuit) -> tuple[str, ...]:
    """Of a control circuit only what its maker states: it carries no power."""
    metal = _METALS.get(one.material, one.material.upper())
    raceway = raceway_name(one.fill.raceway)
    return (
        one.tag,
        one.start,
        one.end,
        f"CONTROL, {one.device.tag} TO {one.input.upper()}",
        f"({one.conductors}) {one.size.removesuffix(' AWG')} {metal} {one.insulation.upper()}",
        "-",
        f"{raceway}, {100 * one.fill.share:.0f} %",
        f"{one.length_ft:.0f}",
        f"{one.voltage_v:g}",
        *("-",) * 7,
    )


def conductor_words(run: SizedRun, *, ac: bool) -> str:
    """Count, size, metal and insulation, neutrals apart."""
    metal = _METALS.get(run.material, run.material.upper())
    words = f"({run.ungrounded}) {run.size} {metal} {run.insulation.upper()}"
    if run.rating_v is not None:
        words += f" {run.rating_v:g} V"
    if not run.neutrals:
        return f"{words}, NO NEUTRAL" if ac else words
    return f"{words} + ({run.neutrals}) {run.neutral_size or run.size} {metal} NEUTRAL"


def raceway_words(run: SizedRun) -> str:
    """Trade size, kind and fill, and the runs that share it."""
    if run.fill is None:
        return "FREE AIR"
    shared = f", WITH {', '.join(run.shares_with)}" if run.shares_with else ""
    return f"{raceway_name(run.fill.raceway)}, {100 * run.fill.share:.0f} %{shared}"


def equipment_schedule(topology: Topology, at: Point, width: float) -> Table:
    """Everything on the diagram, like things on one line."""
    columns = _widened(
        (
            Column("TAG", 1.35),
            Column("EQUIPMENT", _roomy(2.55, 4.4, width)),
            Column("RATINGS", 0.0),
            Column("LOCATION", _roomy(2.6, 3.4, width)),
            Column("N, E", 0.5, "center"),
        ),
        width,
    )
    rows = [_panel_row(topology, panel) for panel in topology.panels]
    boxes = {panel.tag for panel in topology.panels if not _is_panel(topology, panel)}
    listed = [i for i in topology.equipment if i.panel not in boxes and not _said_with_panel(i)]
    listed += topology.beside
    for tags, item in _alike(listed):
        rows.append(
            (
                listed_tags(tags),
                _named(item.kind.value.upper(), item.name),
                ", ".join(_shared_ratings(item)) or "-",
                (item.location or (f"IN {item.panel}" if item.panel else "-")).upper(),
                status(existing=item.existing),
            )
        )
    return note_table("EQUIPMENT SCHEDULE, (N) NEW, (E) EXISTING", columns, rows, at)


def _panel_row(topology: Topology, panel: Panel) -> tuple[str, ...]:
    what = _named(_enclosure(topology, panel), panel.name)
    ratings, place = ", ".join(panel.ratings) or "-", panel.location.upper()
    return (panel.tag, what, ratings, place, status(existing=panel.existing))


def _said_with_panel(item: Equipment) -> bool:
    """Whether the line of its panel says all there is to say."""
    return item.kind is Kind.BUS or (item.kind is Kind.LOADS and item.name.upper() == "LOADS")


def _named(kind: str, name: str) -> str:
    """What it is and its maker and model, or only one where the other says no more."""
    return name if kind in name.upper() else f"{kind}: {name}"


def _is_panel(topology: Topology, panel: Panel) -> bool:
    """Whether an enclosure has a bus, and is not a box that several circuits go through."""
    return any(part.kind is Kind.BUS for part in topology.parts_of(panel.tag))


def _enclosure(topology: Topology, panel: Panel) -> str:
    return "PANEL" if _is_panel(topology, panel) else Kind.JUNCTION_BOX.value.upper()


def _shared_ratings(item: Equipment) -> tuple[str, ...]:
    """Ratings without what the schedule of strings gives for each."""
    return tuple(words for words in ratings_of(item) if not words.startswith("TO INPUT"))


def _alike(equipment: Sequence[Equipment]) -> list[tuple[list[str], Equipment]]:
    """Equipment with all that is said of it, and the tags of which it is said."""
    found: dict[tuple[object, ...], tuple[list[str], Equipment]] = {}
    for item in equipment:
        said = (item.kind, item.name, _shared_ratings(item), item.location, item.panel)
        key = (*said, item.existing)
        found.setdefault(key, ([], item))[0].append(item.tag)
    return list(found.values())


def string_schedule(electrical: ElectricalDesign, at: Point, width: float) -> Table:
    """Every string with its voltages and currents."""
    fixed = all(string.converter for string in electrical.strings)
    columns = _widened(
        (
            Column("STRING", 0.64, "center"),
            Column("MODULES", 0.0),
            Column("INPUT", 0.75, "center"),
            Column("MAX V BY LISTING" if fixed else "COLD Voc V", 0.69, "center"),
            *(() if fixed else (Column("BY TABLE V", 0.66, "center"),)),
            Column("FIXED V" if fixed else "HOT Vmp V", 0.6, "center"),
            Column("MAX A", 0.56, "center"),
            Column("125 % A", 0.56, "center"),
            Column("FUSE", 0.58, "center"),
        ),
        width,
    )
    rows = [
        (
            string.id,
            electrical.topology.by_tag[string.id].ratings[0].partition(",")[0],
            f"{string.inverter}, {string.input}",
            f"{string.cold_voc_v:.1f}",
            *(() if fixed else (_table_volts(string),)),
            f"{string.hot_vmp_v:.1f}",
            f"{string.maximum_current_a:.2f}",
            f"{1.25 * string.maximum_current_a:.2f}",
            "NONE" if string.fuse_a is None else f"{string.fuse_a:g} A",
        )
        for string in electrical.strings
    ]
    return note_table("STRING SCHEDULE", columns, rows, at)


def _table_volts(string: StringCircuit) -> str:
    return "-" if string.table_voc_v is None else f"{string.table_voc_v:.1f}"


def branch_schedule(electrical: ElectricalDesign, at: Point, width: float) -> Table:
    """Every branch circuit of microinverters."""
    columns = _widened(
        (
            Column("BRANCH", 0.68, "center"),
            Column("MICROINVERTERS", 0.0),
            Column("MOST", 0.55, "center"),
            Column("COLD Voc V", 0.62, "center"),
            Column("MAX A", 0.56, "center"),
            Column("125 % A", 0.56, "center"),
            Column("BREAKER", 0.76, "center"),
            Column("RISE V", 0.52, "center"),
        ),
        width,
    )
    rows = [
        (
            branch.id,
            electrical.topology.by_tag[branch.id].ratings[0],
            str(branch.most_units),
            f"{branch.cold_voc_v:.1f}",
            f"{branch.maximum_current_a:.2f}",
            f"{1.25 * branch.maximum_current_a:.2f}",
            f"{branch.breaker_a:g} A",
            f"{branch.trunk.drop.drop_v:.2f}" if branch.trunk else "-",
        )
        for branch in electrical.branches
    ]
    return note_table("BRANCH SCHEDULE", columns, rows, at)


def _end_width(steps: Sequence[GroundingStep]) -> float:
    """So that every end of a step takes one line [in]."""
    return max((cell_width(step.end) for step in steps), default=1.0)


def grounding_schedule(steps: Sequence[GroundingStep], at: Point, width: float) -> Table:
    """The grounding path from module frames to earth, step by step."""
    columns = _widened(
        (
            Column("FROM", _roomy(1.6, 1.9, width)),
            Column("TO", _end_width(steps)),
            Column("BY", _roomy(2.75, 3.8, width)),
            Column("LUGS", 0.5, "center"),
            Column("SIZED BY", 0.0),
        ),
        width,
    )
    rows = [
        (step.start, step.end, step.conductor, str(step.lugs) if step.lugs else "-", step.reason)
        for step in steps
    ]
    return note_table("GROUNDING PATH", columns, rows, at)
