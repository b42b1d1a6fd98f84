"""E-601: the single-line diagram with its schedules, over as many pages as they need."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from planset.drawing.columns import first_then
from planset.drawing.furniture import view_title
from planset.drawing.geometry import Box, Point
from planset.drawing.notes import flow
from planset.drawing.page import NOT_TO_SCALE, View
from planset.drawing.primitives import Circle, Insert, Primitive, Text
from planset.drawing.stack import TableAt, merged, stack
from planset.drawing.text import NOTE_HEIGHT
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.lettering import at_largest_lettering
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER
from planset.sheets.one_line import notes, schedules
from planset.sheets.one_line.diagram import Diagram, draw_pages
from planset.sheets.one_line.fold import System, fold
from planset.sheets.one_line.labels import Detail
from planset.sheets.one_line.symbol_legend import symbol_legend

ID = "E-601"
TITLE = "SINGLE-LINE DIAGRAM"
THREE_LINE = "THREE-LINE DIAGRAM"

_TITLE_HEIGHT = 0.85
_GAP = 0.22
_COLUMN_GAP = 0.25
_TABLE_WIDTH = 12.0  # of the widest schedule, at least [in]
_HALF_WIDTH = 5.8  # of the others
_NOTES_WIDTH = 2.8
_LEAST_HEIGHT = 1.2  # that tables and notes begin in [in]


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
    pages = [
        diagram_page(diagram, area, sheet, onward, THREE_LINE if each else TITLE)
        for diagram, sheet, onward in zip(drawn, ids, (*ids[1:], ""), strict=True)
    ]
    foot = area.y1 - drawn[-1].height - _TITLE_HEIGHT
    used = [part.block for one in drawn for part in one.model if isinstance(part, Insert)]
    tables = _tables(context, Box(area.x0, area.y0, area.x1, foot), used)
    pages[-1] = replace(pages[-1], paper=(*pages[-1].paper, *tables[0]))
    return (*pages, *(SheetDrawing((), page) for page in tables[1:]))


def diagram_page(
    diagram: Diagram, area: Box, sheet: str, onward: str, title: str = TITLE
) -> SheetDrawing:
    """A page of the diagram, which is drawn at plotted size, moved to its place."""
    at = (area.x0, area.y1 - diagram.height)
    window = Box(0.0, 0.0, area.width, diagram.height)
    annotation = tuple(_moved(part, at) for part in diagram.annotation)
    view = View(1, title, NOT_TO_SCALE, window, at, diagram.model, annotation)
    below = view_title(1, sheet, title, NOT_TO_SCALE, (area.x0 + 0.35, at[1] - 0.42))
    if onward:
        words = f"DIAGRAM AND GROUNDING PATH GO ON AT SHEET {onward}"
        below = (*below, Text(words, (area.x0 + 5.0, at[1] - 0.42), NOTE_HEIGHT, TEXT_LAYER))
    return SheetDrawing((view,), below, diagram.blocks, title=title)


def _moved(part: Primitive, by: Point) -> Primitive:
    match part:
        case Circle():
            return replace(part, center=(part.center[0] + by[0], part.center[1] + by[1]))
        case Text():
            return replace(part, at=(part.at[0] + by[0], part.at[1] + by[1]))
        case _:
            msg = f"annotation of the diagram holds a {type(part).__name__}"
            raise TypeError(msg)


def _tables(
    context: SheetContext, first: Box, used: list[str]
) -> tuple[tuple[Primitive, ...], ...]:
    """What has long lines over the whole width; the rest in columns."""
    electrical = context.design.electrical
    wide: list[TableAt] = [
        partial(schedules.conductor_schedule, electrical),
        partial(schedules.equipment_schedule, electrical.topology),
        partial(schedules.grounding_schedule, electrical.grounding),
    ]
    narrow: list[TableAt] = []
    if electrical.strings:
        narrow.append(partial(schedules.string_schedule, electrical))
    if electrical.branches:
        narrow.append(partial(schedules.branch_schedule, electrical))
    legend = partial(symbol_legend, used, context.symbols)
    area = context.area
    legend_height = legend((0.0, 0.0), _columns(area, _HALF_WIDTH)[0].width).box.height
    pages: tuple[tuple[Primitive, ...], ...] = ((),)
    free: tuple[Box, ...] = (first,)
    for tables, width, height in (
        (wide, _TABLE_WIDTH, _LEAST_HEIGHT),
        (narrow, _HALF_WIDTH, _LEAST_HEIGHT),
        ([legend], _HALF_WIDTH, legend_height),
    ):
        left = _left(free, width, height)
        stacked = stack(tables, _room(left, area, width), _GAP, broken=True)
        pages, free = _going_on(pages, stacked.pages, left), stacked.rest
    left = _left(free, _NOTES_WIDTH, _LEAST_HEIGHT)
    said = flow(
        notes.sections(context.design), _room(left, area, _NOTES_WIDTH), TEXT_LAYER, LINE_LAYER
    )
    return _going_on(pages, said.pages, left)


def _room(left: tuple[Box, ...], area: Box, least: float) -> Iterator[tuple[Box, ...]]:
    """Columns of a least width: what a page has left, then whole pages."""
    following = _columns(area, least)
    return first_then(left or following, following)


def _left(free: tuple[Box, ...], least: float, height: float) -> tuple[Box, ...]:
    """Columns of a least width and height in what a page has left."""
    tall = [box for box in free if box.height >= height]
    return tuple(column for box in tall for column in _columns(box, least))


def _going_on(
    pages: tuple[tuple[Primitive, ...], ...],
    more: tuple[tuple[Primitive, ...], ...],
    left: tuple[Box, ...],
) -> tuple[tuple[Primitive, ...], ...]:
    """Pages that go on where the last one has room left, else on a new one."""
    before = len(pages) - (1 if left else 0)
    return merged(pages, [*[()] * before, *more])


def _columns(box: Box, least: float) -> tuple[Box, ...]:
    """As many columns side by side as have a least width."""
    count = max(1, int((box.width + _COLUMN_GAP) // (least + _COLUMN_GAP)))
    width = (box.width - (count - 1) * _COLUMN_GAP) / count
    lefts = [box.x0 + number * (width + _COLUMN_GAP) for number in range(count)]
    return tuple(Box(left, box.y0, left + width, box.y1) for left in lefts)
