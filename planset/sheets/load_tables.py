"""S-601 load tables: site criteria, wind zones, pressures, demand beside capacity, span table."""

from __future__ import annotations

from dataclasses import replace

from planset.drawing.columns import first_then
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_view
from planset.drawing.furniture import title_and_scale, title_place
from planset.drawing.geometry import Box
from planset.drawing.page import KEY_PLAN_SCALES, View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.drawing.stack import TableAt, stack
from planset.sheets import load_criteria, load_results
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.lettering import beside_views
from planset.sheets.plan_blocks import ROOF, array_block, plan_blocks, roof_extent
from planset.sheets.zone_plan import (
    ZONE_HATCHES,
    ZONES,
    array_labels,
    hatch_block,
    zone_block,
    zone_labels,
    zone_texts,
    zones_drawn,
)

ID = "S-601"
TITLE = "LOAD TABLES"

_VIEW_TITLE = "WIND ZONES"
_LEFT_SHARE = 0.5  # of the width: the plan, and the criteria below it
_PLAN_SHARE = 0.46  # of the height
_TITLE_STRIP = 0.72
_MARGINS = Margins(0.15, 0.15, 0.1, 0.1)
_GAP = 0.2


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the zones at the upper left; below and beside them criteria, then results."""
    area, lettering = context.area, beside_views(context)
    middle = area.x0 + _LEFT_SHARE * area.width
    left, right = (
        Box(area.x0, area.y0, middle - _GAP / 2, area.y1),
        Box(middle + _GAP / 2, area.y0, area.x1, area.y1),
    )
    view, blocks, top = _zones(context, left)
    below = Box(left.x0, left.y0, left.x1, top)
    smaller = replace(context, enlargement=lettering)
    tables = [
        *load_criteria.zone_legend(smaller),
        *load_results.by_array(smaller),
        *load_criteria.tables(smaller),
        *load_results.of_all(smaller),
    ]
    pages = _stacked(tables, (below, right), (left, right), lettering)
    beside, *following = pages
    views = () if view is None else (view,)
    furniture = () if view is None else _furniture(view, left)
    scale = view.scale.label if view else "NONE"
    first = SheetDrawing(views, (*furniture, *beside), blocks, scale)
    return (first, *(SheetDrawing((), page) for page in following))


def _stacked(
    tables: list[TableAt],
    first: tuple[Box, ...],
    following: tuple[Box, ...],
    lettering: float,
) -> tuple[tuple[Primitive, ...], ...]:
    """Tables down the columns of the first page, then of as many more as they need."""
    columns = [tuple(reduced(box, lettering) for box in boxes) for boxes in (first, following)]
    pages = stack(tables, first_then(*columns), _GAP).pages
    return tuple(enlarged(page, lettering) for page in pages)


def _zones(context: SheetContext, left: Box) -> tuple[View | None, tuple[Block, ...], float]:
    """The plan of the zones if any are known, its blocks, and where its place ends [paper in]."""
    design = context.design
    if not any(zones_drawn(design)):
        return None, (), left.y1
    foot = left.y1 - _PLAN_SHARE * left.height
    place = Box(left.x0, foot + _TITLE_STRIP, left.x1, left.y1)
    origin = (0.0, 0.0)
    shown = [Insert(block, origin, "S-ROOF-ZONE") for block in (ZONE_HATCHES, ZONES)]
    shown += [Insert(array_block(a.id), origin, "S-ROOF-ANCH") for a in design.arrays]
    shown.append(Insert(ROOF, origin, "A-ROOF-OTLN"))
    extent = roof_extent(design)
    view = fit_view(1, _VIEW_TITLE, extent, _MARGINS, place, KEY_PLAN_SCALES, tuple(shown))
    factor = view.scale.factor
    labels = (*zone_labels(design, factor), *array_labels(design, factor))
    hatched = hatch_block(design, labels, factor)
    blocks = (*plan_blocks(design), zone_block(design), hatched)
    return replace(view, annotation=zone_texts(labels, view)), blocks, foot - _GAP


def _furniture(view: View, left: Box) -> tuple[Primitive, ...]:
    at = title_place(Box(left.x0, view.frame.y0 - _TITLE_STRIP, left.x1, left.y1), view.frame)
    return title_and_scale(view, ID, at)
