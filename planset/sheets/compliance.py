"""G-002 compliance: every rule by subject, and what the building department is asked."""

from __future__ import annotations

from collections.abc import Iterable

from planset.drawing.columns import first_then, side_by_side
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Line, Primitive, Text
from planset.drawing.stack import TableAt, stack
from planset.drawing.table import Column, Table
from planset.drawing.text import NOTE_HEIGHT, TITLE_HEIGHT, wrap
from planset.sheets import compliance_rows
from planset.sheets.compliance_rows import Rows
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.lettering import at_largest_lettering
from planset.sheets.note_table import TEXT_LAYER, note_table

ID = "G-002"
TITLE = "COMPLIANCE"

_HEAD_PITCH = 1.9  # of the lines below the title, in heights
_ABOVE_RULE, _BELOW_RULE = 0.08, 0.12  # [in]
_GAP = 0.25
_TABLE_GAP = 0.17
_LEAST_WIDTH = 10.5  # of a column of tables [in]

_Shares = tuple[tuple[str, float, str], ...]
_JUDGED: _Shares = (
    ("REQUIREMENT", 3.5, "left"),
    ("WHERE", 1.75, "left"),
    ("LIMIT", 1.16, "center"),
    ("IS", 0.97, "center"),
    ("CLAUSE OR DOCUMENT", 2.75, "left"),
    ("RESULT", 0.97, "center"),
    ("SHEET", 1.2, "left"),
)
_ASKED: _Shares = (
    ("REQUIREMENT", 3.2, "left"),
    ("TO BE ANSWERED", 6.6, "left"),
    ("CLAUSE OR DOCUMENT", 2.5, "left"),
)
_ALTERNATES: _Shares = (
    ("REQUIREMENT", 3.2, "left"),
    ("APPROVED BY, DATE, REFERENCE", 3.2, "left"),
    ("APPROVED TEXT", 4.6, "left"),
    ("USE", 1.3, "left"),
)
_ANSWERS: _Shares = (
    ("NO.", 0.9, "left"),
    ("COMMENT", 4.6, "left"),
    ("REPLY", 5.6, "left"),
    ("SHEET", 1.2, "left"),
)
_IDLE: _Shares = (("REASON", 3.2, "left"), ("RULES", 9.1, "left"))


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the tables, their lettering as large as the sheet allows."""
    tables = _tables(context)
    return at_largest_lettering(context, lambda given: _lay_out(given, tables))


def _tables(context: SheetContext) -> list[TableAt]:
    judged = [
        _shared(subject.upper(), _JUDGED, rows)
        for subject, rows in compliance_rows.subjects(context)
        if rows
    ]
    title, answers = compliance_rows.answers(context)
    before = [_shared(title, _ANSWERS, answers)] if answers else []
    others = (
        ("PUT TO THE BUILDING DEPARTMENT", _ASKED, compliance_rows.asked(context)),
        ("APPROVED ALTERNATES", _ALTERNATES, compliance_rows.alternates(context)),
        ("DOES NOT APPLY", _IDLE, compliance_rows.idle(context)),
    )
    return (
        before + judged + [_shared(title, shares, rows) for title, shares, rows in others if rows]
    )


def _lay_out(context: SheetContext, tables: Iterable[TableAt]) -> tuple[SheetDrawing, ...]:
    area = context.area
    heading, foot = _heading(context, area)
    below = Box(area.x0, area.y0, area.x1, foot)
    first, following = (side_by_side(box, _LEAST_WIDTH, _GAP) for box in (below, area))
    pages = stack(tables, first_then(first, following), _TABLE_GAP, broken=True).pages
    return tuple(SheetDrawing((), page) for page in ((*heading, *pages[0]), *pages[1:]))


def _heading(context: SheetContext, area: Box) -> tuple[list[Primitive], float]:
    """By which codes was judged, and how it came out; where the tables begin [paper in]."""
    jurisdiction = context.design.inputs.jurisdiction
    named = (getattr(jurisdiction.codes, kind) for kind in type(jurisdiction.codes).model_fields)
    editions = ", ".join(str(code.code_edition) for code in named if code)
    lines = [
        *wrap(f"{jurisdiction.name}: {editions}", NOTE_HEIGHT, area.width),
        *wrap(compliance_rows.counted(context), NOTE_HEIGHT, area.width),
    ]
    x, y = area.x0, area.y1 - TITLE_HEIGHT
    made: list[Primitive] = [Text("COMPLIANCE TABLE", (x, y), TITLE_HEIGHT, TEXT_LAYER)]
    for words in lines:
        y -= NOTE_HEIGHT * _HEAD_PITCH
        made.append(Text(words, (x, y), NOTE_HEIGHT, TEXT_LAYER))
    y -= _ABOVE_RULE
    made.append(Line((x, y), (area.x1, y), "G-ANNO-TITL"))
    return made, y - _BELOW_RULE


def _shared(title: str, shares: _Shares, rows: Rows) -> TableAt:
    """A table whose columns share the width it is given."""
    whole = sum(share for _, share, _ in shares)

    def lay(at: Point, width: float) -> Table:
        columns = tuple(Column(name, width * part / whole, align) for name, part, align in shares)
        return note_table(title, columns, rows, at)

    return lay
