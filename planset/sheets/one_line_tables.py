"""Schedules under the single-line diagram."""

from __future__ import annotations

from planset.drawing.geometry import Box
from planset.drawing.primitives import Primitive
from planset.drawing.table import Column, Table, table
from planset.drawing.text import NOTE_HEIGHT
from planset.sheets.context import SheetContext
from planset.sheets.findings_table import LINE_LAYER, TEXT_LAYER, findings_table

_GAP = 0.22
_CONDUCTORS_WIDTH = 6.3
_NOT_COMPUTED = "OPEN: NOT COMPUTED"


def tables(context: SheetContext, place: Box) -> tuple[Primitive, ...]:
    """Conductor schedule at the left, electrical checks at the right."""
    made = list(_conductors(context, place).primitives)
    left = place.x0 + _CONDUCTORS_WIDTH + _GAP
    width = place.x1 - left
    checks = (finding for finding in context.findings if finding.rule.startswith("electrical."))
    widths = (width - 3.62, 1.62, 0.65, 0.7, 0.65)
    made += findings_table("ELECTRICAL CHECKS", checks, (left, place.y1), widths).primitives
    return tuple(made)


def _conductors(context: SheetContext, place: Box) -> Table:
    columns = (
        Column("TAG", 0.4, "center"),
        Column("FROM", 0.62, "center"),
        Column("TO", 0.62, "center"),
        Column("CIRCUIT", 1.9),
        Column("MAX V", 0.62, "center"),
        Column("MAX A", 0.62, "center"),
        Column("CONDUCTORS, EGC, RACEWAY", _CONDUCTORS_WIDTH - 4.78),
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
        (place.x0, place.y1),
        NOTE_HEIGHT,
        LINE_LAYER,
        TEXT_LAYER,
    )
