"""A-101 roof plan: planes, edges, obstructions, modules, fire access, attachments thin."""

from __future__ import annotations

from dataclasses import replace

from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_view
from planset.drawing.furniture import graphic_scale, north_arrow, title_place, view_title
from planset.drawing.geometry import Box
from planset.drawing.page import PLAN_SCALES, View
from planset.drawing.primitives import Insert, Primitive
from planset.sheets import roof_plan_dimensions, roof_plan_labels, roof_plan_tables
from planset.sheets.access_areas import ACCESS, access_block, area_labels, area_texts
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.lettering import beside_views
from planset.sheets.plan_blocks import (
    FRAMING,
    OBSTRUCTIONS,
    ROOF,
    WALLS,
    array_block,
    plan_blocks,
    racking_block,
    roof_extent,
)

ID = "A-101"
TITLE = "ROOF PLAN"

_COLUMN = 2.55
_TITLE_STRIP = 0.85
_MARGINS = Margins(left=0.88, right=0.5, top=0.5, bottom=1.42)


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the roof plan."""
    area, lettering = context.area, beside_views(context)
    column = Box(area.x1 - _COLUMN * lettering, area.y0, area.x1, area.y1)
    place = Box(area.x0, area.y0 + _TITLE_STRIP, column.x0 - 0.1, area.y1)
    bare = fit_view(
        1,
        TITLE,
        roof_extent(context.design),
        _MARGINS,
        place,
        PLAN_SCALES,
        _shown(context),
    )
    areas = area_labels(context.design, bare.scale.factor)
    made = (*plan_blocks(context.design), access_block(context.design, areas))
    known = {block.name: block for block in made}
    known |= {name: symbol.block for name, symbol in context.symbols.items()}
    dimensions = roof_plan_dimensions.dimensions(context.design, bare)
    words = area_texts(areas, bare)
    annotation = roof_plan_labels.annotation(context, bare, dimensions, words, known)
    view = replace(bare, annotation=annotation)
    smaller = replace(context, enlargement=lettering)
    tables = roof_plan_tables.column(smaller, reduced(column, lettering))
    first, *following = (enlarged(page, lettering) for page in tables)
    paper = (*_furniture(context, view), *first)
    plan = SheetDrawing((view,), paper, made, view.scale.label)
    return (plan, *(SheetDrawing((), page) for page in following))


def _shown(context: SheetContext) -> tuple[Primitive, ...]:
    design = context.design
    origin = (0.0, 0.0)
    shown = [
        Insert(WALLS, origin, "A-WALL-BELO"),
        Insert(ACCESS, origin, "F-ROOF-ACCS"),
        Insert(FRAMING, origin, "S-ROOF-FRAM"),
        Insert(OBSTRUCTIONS, origin, "A-ROOF-OBST"),
    ]
    for array in design.arrays:
        shown.append(Insert(racking_block(array.id), origin, "S-ROOF-ANCH"))
        shown.append(Insert(array_block(array.id), origin, "E-SOLR-PANL"))
    shown.append(Insert(ROOF, origin, "A-ROOF-OTLN"))
    return tuple(shown)


def _furniture(context: SheetContext, view: View) -> tuple[Primitive, ...]:
    x, y = title_place(context.area, view.frame)
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, ID, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (x + 3.1, y - 0.1)),
        *north_arrow((x + 7.3, y + 0.22), north),
    )
