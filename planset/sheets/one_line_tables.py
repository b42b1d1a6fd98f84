"""Schedules under the single-line diagram."""

from __future__ import annotations

from functools import partial

from planset.codes.nec import rapid_shutdown
from planset.design.topology import shutdown_per_string
from planset.drawing.columns import first_then
from planset.drawing.geometry import Box, Point
from planset.drawing.notes import Section, flow
from planset.drawing.primitives import Primitive
from planset.drawing.stack import merged, stack
from planset.drawing.table import Column, Table, table
from planset.drawing.text import NOTE_HEIGHT
from planset.sheets.context import SheetContext
from planset.sheets.findings_table import findings_table
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER, note_table
from planset.sheets.words import inches

_GAP = 0.22
_CONDUCTORS_WIDTH = 6.15  # at least [in]
_CONDUCTORS_SHARE = 0.49  # of the width
_NOT_COMPUTED = "NOT COMPUTED"


def tables(
    context: SheetContext, place: Box, *, strings: bool
) -> tuple[tuple[Primitive, ...], ...]:
    """Schedules and notes at the left, electrical checks at the right, page by page.

    Args:
        context: The set being drawn.
        place: What is free on the first page [paper in].
        strings: Whether the strings are scheduled, too.
    """
    first, following = _split(place), _split(context.area)
    schedules = [_strings, _conductors] if strings else [_conductors]
    conductors = stack(
        [partial(schedule, context) for schedule in schedules],
        first_then((first[0],), (following[0],)),
        _GAP,
    )
    notes = flow(
        (_notes(context),),
        first_then((conductors.rest[0],), (following[0],)),
        TEXT_LAYER,
        LINE_LAYER,
    )
    checks = stack([partial(_checks, context)], first_then((first[1],), (following[1],)), _GAP)
    before = [()] * (len(conductors.pages) - 1)  # the notes begin where the schedule ends
    return merged(conductors.pages, [*before, *notes.pages], checks.pages)


def _split(box: Box) -> tuple[Box, Box]:
    middle = box.x0 + max(_CONDUCTORS_WIDTH, box.width * _CONDUCTORS_SHARE)
    return (
        Box(box.x0, box.y0, middle, box.y1),
        Box(middle + _GAP, box.y0, box.x1, box.y1),
    )


def _checks(context: SheetContext, at: Point, width: float) -> Table:
    checks = (finding for finding in context.findings if finding.rule.startswith("electrical."))
    widths = (width - 3.83, 1.6, 0.82, 0.71, 0.7)
    return findings_table("ELECTRICAL CHECKS", checks, at, widths)


def _notes(context: SheetContext) -> Section:
    inputs = context.design.inputs
    electrical = inputs.jurisdiction.codes.electrical
    bondings = dict.fromkeys(array.system.bonding.listing for array in context.design.mounted)
    made = [f"Array frames and rails: {bonding}." for bonding in bondings]
    if inputs.shutdown is not None and electrical.edition in rapid_shutdown.editions():
        limits = rapid_shutdown.requirement(electrical.edition)
        made.append(
            f"Rapid shutdown (NEC {electrical.edition} 690.12): within {limits.inside_time_s:g} s "
            f"of initiation {limits.inside_limit_v:g} V or less within "
            f"{inches(limits.boundary_in)} of the array, {limits.outside_limit_v:g} V or less "
            "beyond."
        )
    made.append(
        "Interrupting ratings against the available fault current, labels and conductor sizes are "
        "not part of this set yet."
    )
    return Section("NOTES", tuple(made))


def _strings(context: SheetContext, at: Point, width: float) -> Table:
    """What a diagram with many strings leaves out over them."""
    inputs = context.design.inputs
    modules = {array.id: inputs.modules[array.module] for array in inputs.job.arrays}
    devices = shutdown_per_string(inputs, context.design.circuits)
    columns = (
        Column("STRING", 0.72, "center"),
        Column("MODULES", width - 4.46),
        Column("MODULE Voc", 0.75, "center"),
        Column("MODULE Isc", 0.75, "center"),
        Column("COLD Voc", 0.71, "center"),
        Column("INPUT", 0.57, "center"),
        Column("RSD", 0.96, "center"),
    )
    given = zip(inputs.job.electrical.strings, context.design.circuits.strings, strict=True)
    rows = []
    for number, (item, string) in enumerate(given):
        module = modules[item.array]
        rows.append(
            (
                string.id,
                f"({len(string.modules)}) {module.model}, {module.power_w:g} W",
                f"{module.voc_v:g} V",
                f"{module.isc_a:g} A",
                f"{string.cold_voc_v:.1f} V",
                str(string.input),
                devices[number].ratings[0] if devices else "-",
            )
        )
    return note_table("STRING SCHEDULE", columns, rows, at)


def _conductors(context: SheetContext, at: Point, width: float) -> Table:
    columns = (
        Column("TAG", 0.4, "center"),
        Column("FROM", 0.6, "center"),
        Column("TO", 0.6, "center"),
        Column("CIRCUIT", 1.83),
        Column("MAX V", 0.63, "center"),
        Column("MAX A", 0.63, "center"),
        Column("CONDUCTORS, EGC, RACEWAY", width - 4.69),
    )
    rows = [
        (
            segment.tag,
            segment.start,
            segment.end,
            segment.circuit,
            f"{segment.voltage_v:.1f}",
            "-" if segment.current_a is None else f"{segment.current_a:.2f}",
            "EXISTING" if segment.current_a is None else _NOT_COMPUTED,
        )
        for segment in context.design.topology.segments
    ]
    return table(
        "CONDUCTOR SCHEDULE",
        columns,
        rows,
        at,
        NOTE_HEIGHT,
        LINE_LAYER,
        TEXT_LAYER,
    )
