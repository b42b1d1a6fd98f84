"""S-601 load tables: site criteria, wind zones, pressures, demand beside capacity, span table."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from planset.drawing.columns import first_then, side_by_side
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_view
from planset.drawing.furniture import title_and_scale, title_place
from planset.drawing.geometry import Box
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import KEY_PLAN_SCALES, View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.drawing.stack import TableAt, fewest_pages, stack
from planset.sheets import load_criteria, load_results
from planset.sheets.array_layers import MODULES_LIGHT
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.lettering import beside_views
from planset.sheets.plan_blocks import ROOF, array_block, plan_blocks, roof_extent
from planset.sheets.zone_plan import (
    ZONE_HATCHES,
    ZONES,
    array_labels,
    hatch_block,
    zone_blocks,
    zone_labels,
    zone_texts,
    zones_drawn,
)

ID = "S-601"
TITLE = "LOAD TABLES"

_VIEW_TITLE = "WIND ZONES"
_COLUMN = 6.0  # least width, with words at their least [in]
_PLAN_SHARE = 0.46  # of the height
_TITLE_STRIP = 0.72
_MARGINS = Margins(0.15, 0.15, 0.1, 0.1)
_GAP = 0.2


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """The plan at the upper left as large as the fewest pages allow, its tables whole if they may.

    Criteria go below and beside the plan, then results. Words are as beside other views, or at
    their least where that saves a page.
    """
    tables = [
        *load_criteria.zone_legend(context),
        *load_results.by_array(context),
        *load_criteria.tables(context),
        *load_results.of_all(context),
    ]
    return fewest_pages(
        _lay_out(replace(context, enlargement=factor), tables, columns)
        for factor in dict.fromkeys((beside_views(context), 1.0))
        for columns in _columns(context, factor)
    )


def _columns(context: SheetContext, lettering: float) -> Iterable[tuple[Box, ...]]:
    """Two columns, three, and as many as the words allow [paper in]."""
    least = _COLUMN * lettering
    widths = (context.area.width / 2 - _GAP, max(context.area.width / 3 - _GAP, least), least)
    return dict.fromkeys(side_by_side(context.area, width, _GAP) for width in widths)


def _lay_out(
    context: SheetContext, tables: list[TableAt], columns: tuple[Box, ...]
) -> tuple[SheetDrawing, ...]:
    """The plan in the first of some columns [paper in], tables under it and in the others."""
    left, *others = columns
    view, blocks, top = _zones(context, left)
    below = Box(left.x0, left.y0, left.x1, top)
    lettering = context.enlargement
    boxes = [
        tuple(reduced(box, lettering) for box in of_page) for of_page in ((below, *others), columns)
    ]
    whole, broken = (
        stack(tables, first_then(*boxes), _GAP, broken=broken).pages for broken in (False, True)
    )
    beside, *following = (enlarged(page, lettering) for page in min(whole, broken, key=len))
    views = () if view is None else (view,)
    furniture = () if view is None else _furniture(view, left)
    scale = view.scale.label if view else "NONE"
    first = SheetDrawing(views, (*furniture, *beside), blocks, scale)
    return (first, *(SheetDrawing((), page) for page in following))


def _zones(context: SheetContext, left: Box) -> tuple[View | None, tuple[Block, ...], float]:
    """The plan of the zones if any are known, its blocks, and where its place ends [paper in]."""
    design = context.design
    if not any(zones_drawn(design)):
        return None, (), left.y1
    foot = left.y1 - _PLAN_SHARE * left.height
    place = Box(left.x0, foot + _TITLE_STRIP, left.x1, left.y1)
    origin = (0.0, 0.0)
    shown = [Insert(block, origin, OWN_LAYERS) for block in (ZONE_HATCHES, ZONES)]
    shown += [Insert(array_block(a.id), origin, MODULES_LIGHT) for a in design.arrays]
    shown.append(Insert(ROOF, origin, OWN_LAYERS))
    extent = roof_extent(design)
    view = fit_view(1, _VIEW_TITLE, extent, _MARGINS, place, KEY_PLAN_SCALES, tuple(shown))
    view = replace(view, at=(view.at[0], place.y1 - view.frame.height))
    factor = view.scale.factor
    labels = (*zone_labels(design, factor), *array_labels(design, factor))
    hatched = hatch_block(design, labels, factor)
    blocks = (*plan_blocks(design), *zone_blocks(design), hatched)
    top = view.frame.y0 - _TITLE_STRIP - _GAP
    return replace(view, annotation=zone_texts(labels, view)), blocks, top


def _furniture(view: View, left: Box) -> tuple[Primitive, ...]:
    at = title_place(Box(left.x0, view.frame.y0 - _TITLE_STRIP, left.x1, left.y1), view.frame)
    return title_and_scale(view, ID, at)
