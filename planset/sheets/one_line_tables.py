"""Schedules under the single-line diagram."""

from __future__ import annotations

from functools import partial

from planset.codes.nec import rapid_shutdown
from planset.drawing.columns import first_then
from planset.drawing.geometry import Box, Point
from planset.drawing.notes import Section, flow
from planset.drawing.primitives import Primitive
from planset.drawing.stack import merged, stack
from planset.drawing.table import Column, Table, table
from planset.drawing.text import NOTE_HEIGHT
from planset.sheets.context import SheetContext
from planset.sheets.findings_table import LINE_LAYER, TEXT_LAYER, findings_table
from planset.sheets.words import inches

_GAP = 0.22
_CONDUCTORS_WIDTH = 6.15  # at least [in]
_CONDUCTORS_SHARE = 0.49  # of the width
_NOT_COMPUTED = "NOT COMPUTED"


def tables(context: SheetContext, place: Box) -> tuple[tuple[Primitive, ...], ...]:
    """Conductor schedule and notes at the left, electrical checks at the right, page by page."""
    first, following = _split(place), _split(context.area)
    conductors = stack(
        [partial(_conductors, context)], first_then((first[0],), (following[0],)), _GAP
    )
    notes = flow(
        (_notes(context),),
        first_then((conductors.rest[0],), (following[0],)),
        TEXT_LAYER,
        LINE_LAYER,
    )
    checks = stack([partial(_checks, context)], first_then((first[1],), (following[1],)), _GAP)
    before = [()] * (len(conductors.pages) - 1)  # the notes begin where the schedule ends
    return merged(conductors.pages, [*before, *notes], checks.pages)


def _split(box: Box) -> tuple[Box, Box]:
    middle = box.x0 + max(_CONDUCTORS_WIDTH, box.width * _CONDUCTORS_SHARE)
    return (
        Box(box.x0, box.y0, middle, box.y1),
        Box(middle + _GAP, box.y0, box.x1, box.y1),
    )


def _checks(context: SheetContext, at: Point, width: float) -> Table:
    checks = (finding for finding in context.findings if finding.rule.startswith("electrical."))
    widths = (width - 3.77, 1.78, 0.64, 0.71, 0.64)
    return findings_table("ELECTRICAL CHECKS", checks, at, widths)


def _notes(context: SheetContext) -> Section:
    inputs = context.design.inputs
    electrical = inputs.jurisdiction.codes.electrical
    made = [f"Array frames and rails: {array.mounting.bonding}." for array in context.design.arrays]
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


def _conductors(context: SheetContext, at: Point, width: float) -> Table:
    columns = (
        Column("TAG", 0.4, "center"),
        Column("FROM", 0.6, "center"),
        Column("TO", 0.6, "center"),
        Column("CIRCUIT", 1.72),
        Column("MAX V", 0.63, "center"),
        Column("MAX A", 0.63, "center"),
        Column("CONDUCTORS, EGC, RACEWAY", width - 4.58),
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
