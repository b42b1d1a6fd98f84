"""E-701 labels and placards: where each goes, how many, and each drawn at full size."""

from __future__ import annotations

from functools import partial

from planset.citation import CodeEdition
from planset.drawing.box_packing import packed
from planset.drawing.columns import first_then
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.furniture import view_title
from planset.drawing.geometry import Box, Point
from planset.drawing.notes import Section, flow
from planset.drawing.page import NOT_TO_SCALE, View
from planset.drawing.primitives import Block, Primitive
from planset.drawing.stack import merged, stack
from planset.drawing.table import Column, Table
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.label_frames import framed
from planset.sheets.label_pictures import picture
from planset.sheets.label_plan import label_plan
from planset.sheets.label_words import MATERIAL, MATERIAL_CLAUSE
from planset.sheets.lettering import beside_views
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER, note_table

ID = "E-701"
TITLE = "LABELS AND PLACARDS"

_VIEW_TITLE = "LABEL LOCATIONS"
_TITLE_STRIP = 0.95  # under the plan: its title [in]
_LEAST_TABLES = 2.0  # height of what stands below it [in]
_GAP = 0.2
_NOTES_SHARE = 0.28  # of the width below the plan

Pages = tuple[tuple[Primitive, ...], ...]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the plan with schedule and notes; then the labels, page by page.

    Words beside the labels are drawn large where that takes no page more.

    Raises:
        ViewTooLargeError: A label, or the plan, is larger than the sheet.
    """
    tries = [_lay_out(context, factor) for factor in dict.fromkeys((beside_views(context), 1.0))]
    return min(tries, key=len)


def _lay_out(context: SheetContext, factor: float) -> tuple[SheetDrawing, ...]:
    """The sheet with words so many times their least height."""
    view = _plan(context, factor)
    title_at = (view.frame.x0 + 0.35, view.frame.y0 - 0.5)
    title = view_title(view.number, ID, view.title, view.scale, title_at)
    foot = view.frame.y0 - _TITLE_STRIP
    below = Box(context.area.x0, context.area.y0, context.area.x1, foot)
    count = len(context.design.electrical.labels)
    before, rest = _tables(context, below, [ID] * count, factor)
    if len(before) == 1:
        right = min(view.frame.x1 + _GAP, context.area.x1)
        rest += (Box(right, foot + _GAP, context.area.x1, context.area.y1),)
    labels, on_page, blocks = _full_size(context, rest, factor)
    sheets = [continued_id(ID, len(before) - 1 + page) for page in on_page]
    tables, _ = _tables(context, below, sheets, factor)
    last = len(tables) - 1
    pages = merged(tables, ((),) * last + labels)
    return tuple(
        SheetDrawing(
            (view,) if n == 0 else (),
            (*title, *page) if n == 0 else page,
            blocks if n >= last else (),
            "FULL SIZE" if n - last in on_page else "NONE",
        )
        for n, page in enumerate(pages)
    )


def _plan(context: SheetContext, factor: float) -> View:
    """The plan at the upper left of the sheet."""
    area = context.area
    size, drawn = label_plan(context.design.electrical, area.width / factor)
    width, height = size[0] * factor, size[1] * factor
    if height > area.height - _TITLE_STRIP - _LEAST_TABLES:
        msg = f"{_VIEW_TITLE} is {height:.1f} in high; give it a larger sheet"
        raise ViewTooLargeError(msg)
    window = Box(-0.05, -0.05, width + 0.05, height + 0.05)
    at = (area.x0, area.y1 - window.height)
    return View(1, _VIEW_TITLE, NOT_TO_SCALE, window, at, enlarged(drawn, factor), ())


def _full_size(
    context: SheetContext, first: tuple[Box, ...], factor: float
) -> tuple[Pages, list[int], tuple[Block, ...]]:
    """Pages of labels, for each label on which of them it stands, and the labels' blocks.

    Args:
        context: What the sheet is given.
        first: What is free beside the schedule; that page is the first of them.
        factor: Times the usual height of words.
    """
    area, code = context.area, _code(context)
    frames = [
        framed(placed, picture(placed.name, context.design), code, area.width, factor)
        for placed in context.design.electrical.labels
    ]
    places = packed([frame.size for frame in frames], area, _GAP, first)
    pages: list[list[Primitive]] = [
        [] for _ in range(max((p.page for p in places), default=-1) + 1)
    ]
    for frame, place in zip(frames, places, strict=True):
        pages[place.page] += frame.at(place.corner)
    blocks = tuple(frame.block for frame in frames)
    return tuple(map(tuple, pages)), [place.page for place in places], blocks


def _tables(
    context: SheetContext, below: Box, sheets: list[str], factor: float
) -> tuple[Pages, tuple[Box, ...]]:
    """Schedule and notes, page by page, and what is free below them on the last page.

    Args:
        context: What the sheet is given.
        below: What is free on the first page [paper in].
        sheets: Where each label stands.
        factor: Times the usual height of words.
    """
    first, following = _columns(below, factor), _columns(context.area, factor)
    schedule = partial(_schedule, context, sheets)
    listed = stack([schedule], first_then((first[0],), (following[0],)), _GAP, broken=True)
    section = Section("NOTES", _notes(context))
    noted = flow((section,), first_then((first[1],), (following[1],)), TEXT_LAYER, LINE_LAYER)
    pages = tuple(enlarged(page, factor) for page in merged(listed.pages, noted.pages))
    feet = [
        factor * one.rest[0].y1 if len(one.pages) == len(pages) else context.area.y1
        for one in (listed, noted)
    ]
    area, beside = context.area, factor * noted.rest[0].x0
    free = (
        Box(area.x0, area.y0, area.x1, max(min(feet), area.y0)),
        Box(beside, area.y0, area.x1, max(feet[1], area.y0)),
    )
    return pages, free


def _columns(box: Box, factor: float) -> tuple[Box, Box]:
    box = reduced(box, factor)
    middle = box.x1 - _NOTES_SHARE * box.width
    return (
        Box(box.x0, box.y0, middle - _GAP, box.y1),
        Box(middle, box.y0, box.x1, box.y1),
    )


def _schedule(context: SheetContext, sheets: list[str], at: Point, width: float) -> Table:
    columns = (
        Column("KEY", 0.5, "center"),
        Column("FIRST WORDS", (width - 3.4) * 0.75),
        Column("ON", (width - 3.4) * 0.25),
        Column("QTY", 0.5, "center"),
        Column(str(_code(context)), 1.5),
        Column("SHEET", 0.9, "center"),
    )
    rows = [
        (
            placed.key,
            placed.lines[0],
            ", ".join(placed.equipment),
            str(placed.quantity),
            placed.label.clause,
            sheet,
        )
        for placed, sheet in zip(context.design.electrical.labels, sheets, strict=True)
    ]
    return note_table("LABEL SCHEDULE", columns, rows, at)


def _notes(context: SheetContext) -> tuple[str, ...]:
    return (
        "Labels are drawn at full size: an inch on an unreduced print is an inch on the wall.",
        f"Every label: {MATERIAL} ({_code(context).cite(MATERIAL_CLAUSE)}); what varies "
        "from job to job may be filled in by hand.",
        "Where the code fixes no color or height of letters, the label is drawn plain and may be "
        "made otherwise; hazard signs usually follow ANSI Z535.4.",
        "Red and yellow are drawn near the safety colors of ANSI Z535.1.",
    )


def _code(context: SheetContext) -> CodeEdition:
    return context.design.inputs.jurisdiction.codes.electrical.code_edition
