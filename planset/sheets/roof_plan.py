"""A-101 roof plan: planes, edges, obstructions, modules, fire access, attachments thin."""

from __future__ import annotations

from dataclasses import replace

from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_view
from planset.drawing.furniture import graphic_scale, north_arrow, title_place, view_title
from planset.drawing.geometry import Box
from planset.drawing.labels import NoRoomError
from planset.drawing.page import PLAN_SCALES, View
from planset.drawing.primitives import Block, Insert, Primitive
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
_BARE_SIDE = 0.5  # where only an edge's name or the roof's depth stands [paper in]
_EAVE_SIDE = 1.42  # below an eave with three lines of dimensions
_RAKE_SIDE = 0.88  # beside a rake with two lines of dimensions
_STREET_SIDE = 0.6  # below the roof for the street
_FARTHER_OUT = (0.0, 0.5, 1.2)  # added where figures need lines farther out


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the roof plan."""
    area, lettering = context.area, beside_views(context)
    column = Box(area.x1 - _COLUMN * lettering, area.y0, area.x1, area.y1)
    place = Box(area.x0, area.y0 + _TITLE_STRIP, column.x0 - 0.1, area.y1)
    view, made = _view(context, place)
    smaller = replace(context, enlargement=lettering)
    tables = roof_plan_tables.column(smaller, reduced(column, lettering))
    first, *following = (enlarged(page, lettering) for page in tables)
    paper = (*_furniture(context, view, column.x0), *first)
    plan = SheetDrawing((view,), paper, made, view.scale.label)
    return (plan, *(SheetDrawing((), page) for page in following))


def _view(context: SheetContext, place: Box) -> tuple[View, tuple[Block, ...]]:
    """The plan with its annotation, and its blocks.

    Raises:
        NoRoomError: What must be written finds no place, however wide the margins.
    """
    for more in _FARTHER_OUT:
        margins = _margins(context, more)
        bare = fit_view(
            1, TITLE, roof_extent(context.design), margins, place, PLAN_SCALES, _shown(context)
        )
        areas = area_labels(context.design, bare.scale.factor)
        made = (*plan_blocks(context.design), access_block(context.design, areas))
        known = {block.name: block for block in made}
        known |= {name: symbol.block for name, symbol in context.symbols.items()}
        wanted = roof_plan_dimensions.dimensions(context.design, bare)
        words = area_texts(areas, bare)
        try:
            annotation = roof_plan_labels.annotation(context, bare, wanted, words, known)
        except NoRoomError:
            if more == _FARTHER_OUT[-1]:
                raise
            continue
        return replace(bare, annotation=annotation), made
    raise AssertionError


def _margins(context: SheetContext, more: float) -> Margins:
    """Room on the eave side and the left rake's side of every plane with modules."""
    sides = {"left": _BARE_SIDE, "right": _BARE_SIDE, "top": _BARE_SIDE, "bottom": _BARE_SIDE}
    for plane in {array.plane for array in context.design.arrays}:
        front = plane.downslope[1] < 0
        sides["bottom" if front else "top"] = _EAVE_SIDE
        # The roof's own depth stands at the right, before what a back plane needs there.
        sides["left" if front else "right"] = _RAKE_SIDE + more + (0.0 if front else _BARE_SIDE)
    sides["bottom"] = max(sides["bottom"], _STREET_SIDE)
    return Margins(**sides)


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


def _furniture(context: SheetContext, view: View, right: float) -> tuple[Primitive, ...]:
    """Title, scale and north arrow, all left of what stands at the right [paper in]."""
    x, y = title_place(context.area, view.frame)
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, ID, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (x + 3.1, y - 0.1)),
        *north_arrow((min(x + 7.3, right - 0.65), y + 0.22), north),
    )
