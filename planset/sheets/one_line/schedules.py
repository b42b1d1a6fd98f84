"""Schedules of E-601: conductors, equipment, strings or branches, the grounding path."""

from __future__ import annotations

from collections.abc import Sequence

from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.system import ElectricalDesign, GroundingStep
from planset.design.electrical.topology import Equipment, Segment, Topology
from planset.drawing.geometry import Point
from planset.drawing.table import Column, Table
from planset.sheets.note_table import note_table
from planset.sheets.one_line.kinds import status
from planset.sheets.tag_lists import listed_tags

_METALS = {"copper": "CU", "aluminum": "AL"}
_NOT_SIZED = "NOT SIZED"
_EXISTING = "EXISTING"


def conductor_schedule(electrical: ElectricalDesign, at: Point, width: float) -> Table:
    """Every run of conductors."""
    fixed = (
        Column("TAG", 0.42, "center"),
        Column("FROM", 0.88, "center"),
        Column("TO", 0.88, "center"),
        Column("CIRCUIT", 0.0),
        Column("CONDUCTORS", 2.1),
        Column("EGC", 0.62, "center"),
        Column("RACEWAY, FILL", 0.92, "center"),
        Column("LENGTH ft", 0.78, "center"),
        Column("MAX V", 0.56, "center"),
        Column("MAX A", 0.56, "center"),
        Column("125 % A", 0.6, "center"),
        Column("DEVICE", 0.74, "center"),
        Column("AMPACITY AFTER FACTORS", 1.02, "center"),
        Column("DROP %", 0.6, "center"),
    )
    columns = _widened(fixed, width)
    why = dict(electrical.not_sized)
    rows = [_conductor_row(segment, segment.tag in why) for segment in electrical.topology.segments]
    return note_table("CONDUCTOR SCHEDULE", columns, rows, at)


def _widened(columns: Sequence[Column], width: float) -> tuple[Column, ...]:
    """The columns, the one without a width taking what the others leave."""
    rest = width - sum(column.width for column in columns)
    return tuple(Column(c.title, c.width or rest, c.align) for c in columns)


def _conductor_row(segment: Segment, unsized: bool) -> tuple[str, ...]:
    head = (segment.tag, segment.start, segment.end, segment.circuit)
    volts = f"{segment.voltage_v:.1f}" if not segment.ac else f"{segment.voltage_v:g}"
    amps = "-" if segment.current_a is None else f"{segment.current_a:.2f}"
    more = "-" if segment.current_a is None else f"{1.25 * segment.current_a:.2f}"
    device = "-" if segment.device_a is None else f"{segment.device_a:g} A"
    run = segment.conductors
    if run is None:
        what = _NOT_SIZED if unsized else segment.cable or _EXISTING
        return (*head, what, "-", "-", "-", volts, amps, more, device, "-", "-")
    return (
        *head,
        conductor_words(run),
        f"{run.grounding} {_METALS.get(run.grounding_material, '')}".strip(),
        raceway_words(run),
        f"WITH {segment.continues}" if segment.continues else f"{run.length_ft:.0f}",
        volts,
        amps,
        more,
        device,
        f"{run.check.adjusted.ampacity_a:.1f} A",
        f"WITH {segment.continues}" if segment.continues else f"{run.drop.percent:.2f}",
    )


def conductor_words(run: SizedRun) -> str:
    """Count, size, metal and insulation, neutrals apart."""
    metal = _METALS.get(run.material, run.material.upper())
    words = f"({run.ungrounded}) {run.size} {metal} {run.insulation.upper()}"
    return f"{words} + ({run.neutrals}) N" if run.neutrals else words


def raceway_words(run: SizedRun) -> str:
    """Trade size, kind and fill; a run whose raceway other runs share says with which."""
    if run.fill is None:
        return "FREE AIR"
    shared = f", WITH {', '.join(run.shares_with)}" if run.shares_with else ""
    size, kind = run.fill.raceway.trade_size, run.fill.raceway.kind.upper()
    return f"{size} {kind}, {100 * run.fill.share:.0f} %{shared}"


def equipment_schedule(topology: Topology, at: Point, width: float) -> Table:
    """Everything on the diagram, like things on one line."""
    columns = _widened(
        (
            Column("TAG", 1.3),
            Column("EQUIPMENT", 1.6),
            Column("MAKER AND MODEL", 1.8),
            Column("RATINGS", 0.0),
            Column("LOCATION", 1.9),
            Column("N / E", 0.5, "center"),
        ),
        width,
    )
    rows = [
        (panel.tag, "PANEL", panel.name, ", ".join(panel.ratings), panel.location.upper(),
         status(existing=panel.existing))
        for panel in topology.panels
    ]  # fmt: skip
    for tags, item in _alike(topology.equipment):
        rows.append(
            (
                listed_tags(tags),
                item.kind.value.upper(),
                item.name,
                ", ".join(_shared_ratings(item)) or "-",
                (item.location or (f"IN {item.panel}" if item.panel else "-")).upper(),
                status(existing=item.existing),
            )
        )
    return note_table("EQUIPMENT SCHEDULE, (N) NEW, (E) EXISTING", columns, rows, at)


def _shared_ratings(item: Equipment) -> tuple[str, ...]:
    """Ratings without what the schedule of strings gives for each."""
    return tuple(words for words in item.ratings if not words.startswith("TO INPUT"))


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
    columns = _widened(
        (
            Column("STRING", 0.7, "center"),
            Column("MODULES", 0.0),
            Column("INPUT", 0.95, "center"),
            Column("COLD Voc V", 0.75, "center"),
            Column("BY TABLE V", 0.75, "center"),
            Column("HOT Vmp V", 0.7, "center"),
            Column("MAX A", 0.6, "center"),
            Column("125 % A", 0.62, "center"),
            Column("FUSE", 0.6, "center"),
        ),
        width,
    )
    rows = [
        (
            string.id,
            electrical.topology.by_tag[string.id].ratings[0],
            f"{string.inverter}, {string.input}",
            f"{string.cold_voc_v:.1f}",
            "-" if string.table_voc_v is None else f"{string.table_voc_v:.1f}",
            f"{string.hot_vmp_v:.1f}",
            f"{string.maximum_current_a:.2f}",
            f"{1.25 * string.maximum_current_a:.2f}",
            "NONE" if string.fuse_a is None else f"{string.fuse_a:g} A",
        )
        for string in electrical.strings
    ]
    return note_table("STRING SCHEDULE", columns, rows, at)


def branch_schedule(electrical: ElectricalDesign, at: Point, width: float) -> Table:
    """Every branch circuit of microinverters."""
    columns = _widened(
        (
            Column("BRANCH", 0.75, "center"),
            Column("MICROINVERTERS", 0.0),
            Column("MOST", 0.6, "center"),
            Column("COLD Voc V", 0.75, "center"),
            Column("MAX A", 0.65, "center"),
            Column("125 % A", 0.65, "center"),
            Column("BREAKER", 0.8, "center"),
            Column("RISE V", 0.65, "center"),
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
            f"{branch.rise_v:.2f}",
        )
        for branch in electrical.branches
    ]
    return note_table("BRANCH SCHEDULE", columns, rows, at)


def grounding_schedule(steps: Sequence[GroundingStep], at: Point, width: float) -> Table:
    """The grounding path from module frames to earth, step by step."""
    columns = _widened(
        (
            Column("FROM", 1.8),
            Column("TO", 1.8),
            Column("BY", 2.3),
            Column("LUGS", 0.55, "center"),
            Column("SIZED BY", 0.0),
        ),
        width,
    )
    rows = [
        (step.start, step.end, step.conductor, str(step.lugs) if step.lugs else "-", step.reason)
        for step in steps
    ]
    return note_table("GROUNDING PATH", columns, rows, at)
