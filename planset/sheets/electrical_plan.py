"""E-101 electrical plan: circuits and raceways on the roof, equipment on its walls."""

from __future__ import annotations

from itertools import chain, repeat, zip_longest

from planset.drawing.enlarge import enlarged, reduced
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
from planset.drawing.stack import stack
from planset.drawing.text import SLACK, text_width
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.electrical_plan_tables import tables
from planset.sheets.electrical_plan_view import blocks, plan_parts
from planset.sheets.electrical_plan_wall import wall_page
from planset.sheets.lettering import beside_views

ID = "E-101"
TITLE = "ELECTRICAL PLAN"

_COLUMN = 2.75  # width of the tables' column, words at their least [in]
_TITLE_STRIP = 0.85
_APART = 0.12  # of views and tables [in]
_GAP = 0.16
_TITLE_HEIGHT = 0.15  # of a view's title [in]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the plan, then a page for each wall, tables beside them and beyond."""
    area, lettering = context.area, beside_views(context)
    column = Box(area.x1 - _COLUMN * lettering, area.y0, area.x1, area.y1)
    left = column.x0 - _APART
    parts = plan_parts(context, ID, "ROOF, ELECTRICAL PLAN", _above_title(area, left))
    place = Box(area.x0, area.y0, left, area.y1)
    walls = [
        wall_page(context, n, wall, place, continued_id(ID, len(parts) + n - 1))
        for n, wall in enumerate(context.design.inputs.job.electrical.walls, 1)
    ]
    unnamed = [words for part in parts for words in part.unnamed]
    unnamed += [words for page in walls for words in page.unnamed]
    undrawn = [words for part in parts for words in part.undrawn]
    beside = repeat((reduced(column, lettering),), len(parts) + len(walls))
    further = repeat(tuple(reduced(box, lettering) for box in _columns(area, lettering)))
    listed = stack(tables(context, unnamed, undrawn), chain(beside, further), _GAP).pages
    pages = [enlarged(page, lettering) for page in listed]
    plan = [
        SheetDrawing(
            (part.view,),
            _furniture(context, part.view, continued_id(ID, number), left),
            blocks(context),
            part.view.scale.label,
        )
        for number, part in enumerate(parts)
    ]
    elevations = [
        SheetDrawing(page.views, page.paper, page.blocks, page.views[0].scale.label)
        for page in walls
    ]
    return tuple(
        _with(page or SheetDrawing(), words or ())
        for page, words in zip_longest([*plan, *elevations], pages)
    )


def _with(page: SheetDrawing, words: tuple[Primitive, ...]) -> SheetDrawing:
    return SheetDrawing(page.views, (*page.paper, *words), page.blocks, page.scale)


def _above_title(area: Box, right: float) -> Box:
    return Box(area.x0, area.y0 + _TITLE_STRIP, right, area.y1)


def _columns(area: Box, lettering: float) -> list[Box]:
    """Columns of a page of tables alone."""
    width = _COLUMN * lettering
    count = max(int((area.width + _GAP) / (width + _GAP)), 1)
    lefts = [area.x0 + n * (width + _GAP) for n in range(count)]
    return [Box(x, area.y0, x + width, area.y1) for x in lefts]


def _furniture(
    context: SheetContext, view: View, sheet: str, right: float
) -> tuple[Primitive, ...]:
    """Title, scale and north arrow, all left of what stands at the right [paper in]."""
    x, y = title_place(context.area, view.frame)
    bar = x + BUBBLE_RADIUS + text_width(view.title, _TITLE_HEIGHT) * SLACK + 0.45
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, sheet, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (bar, y - 0.1)),
        *north_arrow((min(bar + 3.0, right - 1.1), y + 0.05), north),
    )
