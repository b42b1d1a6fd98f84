"""E-601: the single-line diagram with its schedules, over as many pages as they need."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from planset.drawing.furniture import view_title
from planset.drawing.geometry import Box, Point
from planset.drawing.notes import Section, flow
from planset.drawing.page import NOT_TO_SCALE, View
from planset.drawing.primitives import Circle, Insert, Primitive, Text
from planset.drawing.table import Table
from planset.drawing.table_packing import Packer, Piece
from planset.drawing.text import NOTE_HEIGHT
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.lettering import at_largest_lettering
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER
from planset.sheets.one_line import notes, schedules
from planset.sheets.one_line.backup_circuits import backup_schedule
from planset.sheets.one_line.control import control_diagram, symbol_of
from planset.sheets.one_line.diagram import Diagram, draw_pages
from planset.sheets.one_line.fold import System, fold
from planset.sheets.one_line.labels import Detail
from planset.sheets.one_line.skyline import drawn_on, lowest_within
from planset.sheets.one_line.symbol_legend import symbol_legend

ID = "E-601"
TITLE = "SINGLE-LINE DIAGRAM"
THREE_LINE = "THREE-LINE DIAGRAM"

_TITLE_HEIGHT = 0.85
_TITLE_WIDTH = 3.7
_GO_ON_WIDTH = 9.5  # of the title with the words that say where the diagram goes on [in]
_GAP = 0.22
_FOOT = 0.05  # of the view below tables that stand in it [in]
_BEFORE_LEGEND = 2  # pieces that stand before the legend where it is placed early
_TALL = 100.0  # higher than any notes [in]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the diagram and its schedules, as large as the sheet allows.

    Raises:
        ViewTooLargeError: A part of the diagram is larger than the sheet.
    """
    return at_largest_lettering(context, _lay_out, more_pages=1)


def _lay_out(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Larger words are only taken where all ratings still stand at their symbols."""
    area, electrical = context.area, context.design.electrical
    each = context.design.inputs.jurisdiction.submission.draws_each_conductor
    stated = context.design.inputs.job.electrical
    arrays = {string.id: string.array for string in stated.strings}
    arrays |= {branch.id: branch.array for branch in stated.branches}
    system = System(electrical.topology, electrical.buses, electrical.grounding, each, arrays)
    least = Detail.SHORT if context.enlargement == 1.0 else Detail.FULL
    folded = fold(system, context.symbols, area.width, area.height - _TITLE_HEIGHT, least)
    ids = tuple(continued_id(ID, number) for number in range(len(folded.pages)))
    drawn = draw_pages(folded, ids)
    onward = (*ids[1:], "")
    used = [part.block for one in drawn for part in one.model if isinstance(part, Insert)]
    pieces = tuple(_pieces(context, used))
    tables = min(
        (_packed(area, drawn, o, breaks=b) for o in _orders(pieces) for b in (False, True)), key=len
    )
    title = THREE_LINE if each else TITLE
    pages = [
        diagram_page(diagram, area, sheet, next_sheet, title, tables[number])
        for number, (diagram, sheet, next_sheet) in enumerate(zip(drawn, ids, onward, strict=True))
    ]
    further = (_primitives(beyond) for beyond in tables[len(pages) :])
    return (*pages, *(SheetDrawing((), paper) for paper in further))


def _orders(pieces: tuple[Piece, ...]) -> tuple[tuple[Piece, ...], ...]:
    """Pieces as listed; then the legend early, since little room that notes leave is enough for it.

    The last one is the legend, which would else now and then stand on a page of its own.
    """
    *others, legend = pieces
    return pieces, (*others[:_BEFORE_LEGEND], legend, *others[_BEFORE_LEGEND:])


def _packed(
    area: Box, drawn: Sequence[Diagram], pieces: Iterable[Piece], *, breaks: bool
) -> list[list[Table]]:
    """The tables of each page, on those of the diagram first."""
    packer = Packer(area, _GAP, breaks)
    for diagram in drawn:
        packer.add_page(_taken(diagram, area, goes_on=diagram is not drawn[-1]))
    for piece in pieces:
        packer.place(piece)
    return packer.pages


def diagram_page(
    diagram: Diagram,
    area: Box,
    sheet: str,
    onward: str,
    title: str = TITLE,
    tables: Iterable[Table] = (),
) -> SheetDrawing:
    """A page of the diagram, which is drawn at plotted size, moved to its place."""
    at = (area.x0, area.y1 - diagram.height)
    window = Box(0.0, 0.0, area.width, diagram.height)
    annotation = tuple(_moved(part, at) for part in diagram.annotation)
    goes_on = bool(onward)
    place = _title_box(diagram, area, goes_on=goes_on)
    middle = place.y1 - 0.42
    titled = view_title(1, sheet, title, NOT_TO_SCALE, (area.x0 + 0.35, middle))
    if goes_on:
        words = f"DIAGRAM AND GROUNDING PATH GO ON AT SHEET {onward}"
        titled = (*titled, Text(words, (area.x0 + 5.0, middle), NOTE_HEIGHT, TEXT_LAYER))
    view = View(1, title, NOT_TO_SCALE, window, at, diagram.model, annotation)
    made = SheetDrawing((view,), (), diagram.blocks, title=title)
    return _beside(made, [Table(place, titled), *tables])


def _beside(page: SheetDrawing, tables: Sequence[Table]) -> SheetDrawing:
    """A page of the diagram with tables; the view reaches down to hold those that stand in it."""
    (view,) = page.views
    apart = list(tables)
    while within := [table for table in apart if table.box.overlaps(view.frame)]:
        apart = [table for table in apart if table not in within]
        foot = min(view.at[1], *(table.box.y0 - _FOOT for table in within))
        window = view.window._replace(y0=view.window.y0 + foot - view.at[1])
        annotation = (*view.annotation, *_primitives(within))
        view = replace(view, window=window, at=(view.at[0], foot), annotation=annotation)
    return replace(page, views=(view,), paper=(*page.paper, *_primitives(apart)))


def _primitives(tables: Iterable[Table]) -> tuple[Primitive, ...]:
    return tuple(part for table in tables for part in table.primitives)


def _title_box(diagram: Diagram, area: Box, *, goes_on: bool) -> Box:
    """Where the title stands: under the diagram, or beside what reaches lower than it."""
    width = _GO_ON_WIDTH if goes_on else _TITLE_WIDTH
    free = lowest_within(diagram.lowest, 0.0, width)
    top = area.y1 - diagram.height + max(0.0, min(free, _TITLE_HEIGHT))
    return Box(area.x0, top - _TITLE_HEIGHT, area.x0 + width, top)


def _taken(diagram: Diagram, area: Box, *, goes_on: bool) -> Iterator[Box]:
    """What of a page the diagram and its title take."""
    x, y = area.x0, area.y1 - diagram.height
    yield from (box.moved(x, y) for box in drawn_on(diagram.lowest, diagram.height))
    yield _title_box(diagram, area, goes_on=goes_on)


def _moved(part: Primitive, by: Point) -> Primitive:
    match part:
        case Circle():
            return replace(part, center=(part.center[0] + by[0], part.center[1] + by[1]))
        case Text():
            return replace(part, at=(part.at[0] + by[0], part.at[1] + by[1]))
        case _:
            msg = f"annotation of the diagram holds a {type(part).__name__}"
            raise TypeError(msg)


def _pieces(context: SheetContext, used: list[str]) -> Iterator[Piece]:
    """Schedules, notes and legend, what belongs beside the diagram first."""
    electrical = context.design.electrical

    def columns(*least: float) -> tuple[float, ...]:
        return tuple(_column(context.area.width, width) for width in least)

    wide, narrow, words = columns(12.0), columns(5.8, 8.5, 12.0), columns(2.8, 3.8, 5.8)
    controls = electrical.topology.controls
    if controls:
        yield Piece(partial(control_diagram, controls), columns(5.8))
        used = [*used, *(symbol_of(one.device) for one in controls)]
    yield Piece(partial(schedules.conductor_schedule, electrical), wide, broken=True)
    for section in notes.sections(context.design):
        if section.notes:
            yield Piece(partial(_notes, section), words)
    yield Piece(partial(schedules.grounding_schedule, electrical.grounding), wide, broken=True)
    yield Piece(partial(schedules.equipment_schedule, electrical.topology), wide, broken=True)
    if electrical.strings:
        yield Piece(partial(schedules.string_schedule, electrical), narrow, broken=True)
    if electrical.branches:
        yield Piece(partial(schedules.branch_schedule, electrical), narrow, broken=True)
    backup = context.design.inputs.job.electrical.backup
    if backup is not None and backup.circuits:
        yield Piece(partial(backup_schedule, backup), columns(3.8, 5.8), broken=True)
    yield Piece(partial(symbol_legend, used, context.symbols), columns(5.8, 8.5, 12.0, 2.9))


def _column(width: float, least: float) -> float:
    """Width of a column where as many of a least width stand side by side as can [in]."""
    count = max(1, int((width + _GAP) // (least + _GAP)))
    return (width - (count - 1) * _GAP) / count


def _notes(section: Section, at: Point, width: float) -> Table:
    """One section of notes as a block of its own."""
    column = Box(at[0], at[1] - _TALL, at[0] + width, at[1])
    said = flow([section], [(column,)], TEXT_LAYER, LINE_LAYER)
    return Table(Box(at[0], said.rest[0].y1, at[0] + width, at[1]), said.pages[0])
