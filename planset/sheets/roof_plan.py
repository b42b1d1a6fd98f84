"""A-101 roof plan: planes, edges, obstructions, modules, fire access, attachments thin."""

from __future__ import annotations

from dataclasses import replace

from planset.drawing.fit import Margins, fit_view
from planset.drawing.furniture import graphic_scale, north_arrow, view_title
from planset.drawing.geometry import Box
from planset.drawing.page import PLAN_SCALES, View
from planset.drawing.primitives import Insert, Primitive
from planset.sheets import roof_plan_dimensions, roof_plan_labels, roof_plan_tables
from planset.sheets.access_areas import ACCESS, access_block, area_labels, area_texts
from planset.sheets.context import SheetContext, SheetDrawing
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
    area = context.area
    place = Box(area.x0, area.y0 + _TITLE_STRIP, area.x1 - _COLUMN - 0.1, area.y1)
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
    labels = roof_plan_labels.labels(context, bare, dimensions, area_texts(areas, bare), known)
    view = replace(bare, annotation=(*dimensions, *labels))
    column = Box(area.x1 - _COLUMN, area.y0, area.x1, area.y1)
    tables = roof_plan_tables.column(context, column)
    paper = (*_furniture(context, view), *tables[0])
    first = SheetDrawing((view,), paper, made, view.scale.label)
    return (first, *(SheetDrawing((), page) for page in tables[1:]))


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
    area = context.area
    y = area.y0 + 0.36
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, ID, view.title, view.scale, (area.x0 + 0.3, y)),
        *graphic_scale(view.scale, (area.x0 + 3.4, y - 0.1)),
        *north_arrow((area.x0 + 7.6, y + 0.22), north),
    )
