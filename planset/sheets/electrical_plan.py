"""E-101 electrical plan: circuits and raceways on the roof, equipment on its walls."""

from __future__ import annotations

from itertools import zip_longest

from planset.drawing.enlarge import enlarged
from planset.drawing.furniture import (
    BUBBLE_RADIUS,
    graphic_scale,
    north_arrow,
    title_place,
    view_title,
)
from planset.drawing.geometry import Box
from planset.drawing.page import View
from planset.drawing.primitives import Primitive
from planset.drawing.text import SLACK, text_width
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.electrical_plan_layout import TITLE_STRIP, PageLayout, laid_out
from planset.sheets.electrical_plan_view import PlanPart, blocks, named_parts
from planset.sheets.electrical_plan_wall import WallPage, wall_page

ID = "E-101"
TITLE = "ELECTRICAL PLAN"

_TITLE_HEIGHT = 0.15  # of a view's title [in]
_TITLE_TO_BAR, _BAR_TO_ARROW, _ARROW_TO_EDGE = 0.45, 2.75, 1.1  # [in]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the plan and the walls with tables beside and below them, and beyond."""
    layout = laid_out(context, ID)
    fitted = tuple(page.part for page in layout.pages if page.part)
    parts = dict(enumerate(named_parts(context, fitted, ID)))
    walls = [
        tuple(wall_page(wall, continued_id(ID, number)) for wall in page.walls)
        for number, page in enumerate(layout.pages)
    ]
    unnamed = [words for part in parts.values() for words in part.unnamed]
    unnamed += [words for page in walls for wall in page for words in wall.unnamed]
    undrawn = [words for part in parts.values() for words in part.undrawn]
    listed = layout.listed(context, unnamed, undrawn)
    views = [
        _page(context, page, parts.get(number), walls[number], number, layout.lettering)
        for number, page in enumerate(layout.pages)
    ]
    tables = [enlarged(page, layout.lettering) for page in listed]
    return tuple(
        _with(page or SheetDrawing(), words or ()) for page, words in zip_longest(views, tables)
    )


def _page(
    context: SheetContext,
    page: PageLayout,
    part: PlanPart | None,
    walls: tuple[WallPage, ...],
    number: int,
    lettering: float,
) -> SheetDrawing:
    """Views and notes of a page.

    Args:
        context: What the sheet is given.
        page: What stands on it.
        part: The plan or a part of it.
        walls: Walls.
        number: Of the page, counted from 0.
        lettering: How many times as large words are drawn.
    """
    views: list[View] = [part.view] if part else []
    paper: list[Primitive] = []
    if part:
        right = page.columns[0].x0
        paper += _furniture(context, part.view, continued_id(ID, number), right)
    for wall in walls:
        views += wall.views
        paper += wall.paper
    for _, drawn in page.wide:
        paper += enlarged(drawn, lettering)
    shown = [*(blocks(context) if part else ()), *(b for wall in walls for b in wall.blocks)]
    scales = {view.scale.label for view in views}
    scale = scales.pop() if len(scales) == 1 else "AS SHOWN"
    return SheetDrawing(tuple(views), tuple(paper), tuple(shown), scale)


def _with(page: SheetDrawing, words: tuple[Primitive, ...]) -> SheetDrawing:
    return SheetDrawing(page.views, (*page.paper, *words), page.blocks, page.scale)


def _furniture(
    context: SheetContext, view: View, sheet: str, right: float
) -> tuple[Primitive, ...]:
    """Title, scale and north arrow, all left of what stands at the right [paper in]."""
    area = context.area
    foot = max(view.frame.y0 - TITLE_STRIP, area.y0)
    x, y = title_place(Box(area.x0, foot, area.x1, area.y1), view.frame)
    to_bar = BUBBLE_RADIUS + text_width(view.title, _TITLE_HEIGHT) * SLACK + _TITLE_TO_BAR
    x = max(min(x, right - _ARROW_TO_EDGE - _BAR_TO_ARROW - to_bar), area.x0 + BUBBLE_RADIUS)
    arrow = x + to_bar + _BAR_TO_ARROW
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, sheet, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (x + to_bar, y - 0.1)),
        *north_arrow((arrow, y + 0.05), north),
    )
