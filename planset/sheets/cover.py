"""G-001 cover: scope, contacts, code basis, index, summary, notes, cautions, what is open."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from planset.drawing.columns import first_then
from planset.drawing.geometry import Box, Point
from planset.drawing.notes import Section, flow
from planset.drawing.primitives import Line, Link, Primitive, Text
from planset.drawing.stack import Stack, TableAt, stack
from planset.drawing.table import Column, Table
from planset.drawing.text import NOTE_HEIGHT, height_to_fit
from planset.sheets import cover_words
from planset.sheets.abbreviations import abbreviations_in
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.cover_words import Rows
from planset.sheets.documents import documents
from planset.sheets.lettering import at_largest_lettering
from planset.sheets.marks import abbreviation_table, symbol_table, symbols_used
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER, fitted_table, note_table

ID = "G-001"
TITLE = "COVER SHEET"

_GAP = 0.28
_HEAD = 1.0
_TABLE_GAP = 0.17
_COLUMNS = 3
_LABELS = 1.25
_NUMBER, _DATE = 0.5, 1.05
_HANDED_IN = 1.7  # of the column that says how a document is handed in
_FEET = (0.6, 0.55, 0.5, 0.45, 0.4, 0.35, 0.3, 0.25, 0.2, 0.15, 0.1, 0.05)  # of the height
_INDEX = "SHEET INDEX"


@dataclass(frozen=True, slots=True)
class _Content:
    """What the cover says, before it has a place.

    Attributes:
        tables: Facts.
        notes: Sections of notes.
        marks: Documents, symbols and abbreviations.
    """

    tables: list[TableAt]
    notes: tuple[Section, ...]
    marks: list[TableAt]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the cover, its lettering as large as the sheet allows."""
    index = _index(context)
    facts = list(cover_words.facts(context))
    if alternates := cover_words.alternates(context):
        facts.append(("APPROVED ALTERNATES", alternates))
    notes = cover_words.sections(context)
    tables: list[TableAt] = [partial(_index_table, index), *(_pairs(*fact) for fact in facts)]
    if revisions := cover_words.revisions(context):
        tables.insert(1, partial(_revision_block, revisions))
    marks: list[TableAt] = [
        partial(_documents_table, documents(context.design.inputs)),
        *_marks(context, [(_INDEX, index), *facts], notes),
    ]
    content = _Content(tables, notes, marks)
    return at_largest_lettering(context, lambda given: _lay_out(given, content))


def _lay_out(context: SheetContext, content: _Content) -> tuple[SheetDrawing, ...]:
    """Tables, then notes, down columns of even length when one page holds them."""
    area = context.area
    whole = _flowed(context, content, area.y0)
    if len(whole) > 1:
        return whole
    feet = (area.y0 + area.height * share for share in _FEET)
    evened = (_flowed(context, content, foot) for foot in feet)
    return next((one for one in evened if len(one) == 1), whole)


def _flowed(context: SheetContext, content: _Content, foot: float) -> tuple[SheetDrawing, ...]:
    """Down three columns that end at a foot [paper in], and on to further pages."""
    area = context.area
    whole = _split(area)
    columns = _split(Box(area.x0, foot, area.x1, area.y1 - _HEAD))
    made = [stack(content.tables, first_then(columns, whole), _TABLE_GAP)]
    rest = first_then(made[-1].rest, whole)
    made.append(flow(content.notes, rest, TEXT_LAYER, LINE_LAYER))
    rest = first_then(made[-1].rest, whole)
    made.append(stack(content.marks, rest, _TABLE_GAP, broken=True))
    pages = _joined(made)
    pages[0] = (*_heading(context, area), *_links(context, pages[0]), *pages[0])
    return tuple(SheetDrawing((), page) for page in pages)


def _index(context: SheetContext) -> list[tuple[str, str]]:
    """The sheets, and after them the data sheets."""
    rows = [(entry.id, entry.title) for entry in context.index]
    for sheet in context.data_sheets:
        count = len(sheet.sizes)
        rows.append((sheet.id, f"{sheet.title} ({count} PAGE{'S' if count > 1 else ''})"))
    return rows


def _joined(parts: list[Stack]) -> list[tuple[Primitive, ...]]:
    """The pages of parts that each begin on the last page of the one before."""
    pages: list[tuple[Primitive, ...]] = [()]
    for part in parts:
        first, *following = part.pages
        pages[-1] = (*pages[-1], *first)
        pages += following
    return pages


def _marks(
    context: SheetContext, facts: list[tuple[str, Rows]], notes: tuple[Section, ...]
) -> list[TableAt]:
    """Symbols, and abbreviations, that stand on the sheets of the set, this one included."""
    words = [page.words for page in context.others]
    words += [cell for _, rows in facts for row in rows for cell in row]
    words += [line for section in notes for line in (section.heading, *section.notes)]
    tables: list[TableAt] = []
    if symbols := symbols_used(context):
        tables.append(partial(symbol_table, symbols))
    if meanings := abbreviations_in(words):
        tables.append(partial(abbreviation_table, meanings))
    return tables


def _split(box: Box) -> tuple[Box, ...]:
    width = (box.width - (_COLUMNS - 1) * _GAP) / _COLUMNS
    lefts = [box.x0 + n * (width + _GAP) for n in range(_COLUMNS)]
    return tuple(Box(x, box.y0, x + width, box.y1) for x in lefts)


def _heading(context: SheetContext, area: Box) -> list[Primitive]:
    project = context.design.inputs.job.project
    electrical = context.design.electrical
    count = context.design.module_count
    words = (
        f"{count} MODULES, {electrical.dc_kw:.2f} kW DC, {electrical.ac_kw:.2f} kW AC, "
        f"{project.address.upper()}"
    )
    x, y = area.x0, area.y1
    name, kind, width = project.name.upper(), cover_words.kind_of_system(context), area.width
    return [
        Text(name, (x, y - 0.27), height_to_fit(name, 0.26, width), TEXT_LAYER),
        Text(kind, (x, y - 0.54), height_to_fit(kind, 0.14, width), TEXT_LAYER),
        Text(words, (x, y - 0.76), height_to_fit(words, 0.12, width), TEXT_LAYER),
        Line((x, y - 0.85), (area.x1, y - 0.85), "G-ANNO-TITL"),
    ]


def _links(context: SheetContext, primitives: tuple[Primitive, ...]) -> list[Link]:
    """Each line of the index leads to its sheet."""
    lines = {p.text: p.at for p in reversed(primitives) if isinstance(p, Text)}
    width = _split(context.area)[0].width
    made = []
    for sheet, _ in _index(context):
        x, y = lines[sheet]
        made.append(Link((x - 0.05, y - 0.05), (x - 0.05 + width, y + NOTE_HEIGHT + 0.05), sheet))
    return made


def _revision_block(rows: list[tuple[str, str, str]], at: Point, width: float) -> Table:
    titles = (Column("NO.", _NUMBER), Column("DATE", _DATE))
    columns = (*titles, Column("WHAT CHANGED", width - _NUMBER - _DATE))
    return note_table("REVISIONS", columns, rows, at)


def _documents_table(rows: Rows, at: Point, width: float) -> Table:
    columns = (Column("", width - _HANDED_IN), Column("", _HANDED_IN))
    return note_table("DOCUMENTS THIS SET RESTS ON", columns, rows, at)


def _index_table(rows: Rows, at: Point, width: float) -> Table:
    return fitted_table(_INDEX, ("", ""), rows, at, width, left=2)


def _pairs(title: str, rows: list[tuple[str, str]]) -> TableAt:
    def lay(at: Point, width: float) -> Table:
        columns = (Column("", _LABELS), Column("", width - _LABELS))
        return note_table(title, columns, rows, at)

    return lay
