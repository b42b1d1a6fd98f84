"""Z-601 bill of materials: what to order, and what each line was counted from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import partial
from itertools import groupby

from planset.design.design import Design
from planset.design.material_line import MaterialLine
from planset.design.materials import bill_of_materials, spares_rule
from planset.drawing.columns import first_then
from planset.drawing.geometry import Point
from planset.drawing.stack import TableAt, stack
from planset.drawing.table import Column, Table
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.lettering import at_largest_lettering
from planset.sheets.note_table import note_table
from planset.sheets.words import capitals

ID = "Z-601"
TITLE = "BILL OF MATERIALS"

_GAP = 0.17
_COLUMNS = (
    ("ITEM", 2.1, "left"),
    ("MAKER, MODEL OR SIZE", 2.3, "left"),
    ("DOCUMENT", 2.4, "left"),
    ("COUNT", 0.65, "center"),
    ("SPARE", 0.65, "center"),
    ("ORDER", 0.65, "center"),
    ("UNIT", 0.55, "center"),
    ("COUNTED FROM", 2.4, "left"),
)
"""Headings with their shares of the width."""

_LEFT_OUT = (
    "Not counted on this bill: connectors, raceway fittings and supports, conductors from lug to "
    "lug, and what fixes equipment to walls."
)


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the bill group by group, its lettering as large as the sheet allows."""
    lines = bill_of_materials(context.design)
    groups = [
        partial(_group, name, tuple(held))
        for name, held in groupby(lines, key=lambda line: line.group)
    ]
    tables: list[TableAt] = [*groups, partial(_notes, notes(context.design))]
    return at_largest_lettering(context, lambda given: _lay_out(given, tables))


def cells(line: MaterialLine) -> tuple[str, ...]:
    """A line of the bill as it is printed."""
    counts = (line.quantity, line.spare, line.total) if line.quantity is not None else ("-",) * 3
    words = (line.item, line.product or "-", line.document or "-")
    return (
        *map(capitals, words),
        *map(str, counts),
        capitals(line.unit),
        capitals(line.counted),
    )


def notes(design: Design) -> list[str]:
    """By which rule spares are ordered, and what the bill leaves out."""
    spares = spares_rule(design)
    shares = (
        f"{spares.small_parts:.0%} of screws, clamps, feet, couplings, splices, clips and lugs, "
        "and of feet of conductors and raceways as waste, "
        f"{spares.attachments:.0%} of attachments with flashings and sealing, "
        f"{spares.modules:.0%} of modules and shutdown devices, none of rails, trim and other "
        "equipment"
    )
    return [
        f"Spares: {shares}; each line rounded up ({spares.source}).",
        _LEFT_OUT,
    ]


def _lay_out(context: SheetContext, tables: Sequence[TableAt]) -> tuple[SheetDrawing, ...]:
    columns = (context.area,)
    pages = stack(tables, first_then(columns, columns), _GAP, broken=True).pages
    return tuple(SheetDrawing((), page) for page in pages)


def _group(name: str, lines: Iterable[MaterialLine], at: Point, width: float) -> Table:
    whole = sum(share for _, share, _ in _COLUMNS)
    columns = tuple(Column(title, width * share / whole, how) for title, share, how in _COLUMNS)
    return note_table(name, columns, [cells(line) for line in lines], at)


def _notes(lines: Sequence[str], at: Point, width: float) -> Table:
    columns = (Column("", 0.3, "center"), Column("", width - 0.3))
    rows = [(str(number), words) for number, words in enumerate(lines, 1)]
    return note_table("HOW IT WAS COUNTED", columns, rows, at)
