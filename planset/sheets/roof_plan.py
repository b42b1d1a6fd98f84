"""A-101 roof plan: planes, edges, obstructions, modules, fire access, attachments thin."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, fit_or_split, match_lines
from planset.drawing.furniture import graphic_scale, north_arrow, title_place, view_title
from planset.drawing.geometry import Box
from planset.drawing.labels import NoRoomError
from planset.drawing.page import PLAN_SCALES, View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.sheets import roof_plan_dimensions, roof_plan_labels, roof_plan_tables
from planset.sheets.access_areas import ACCESS, access_block, area_labels, area_texts
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
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
from planset.sheets.roof_plan_dimensions import Wanted

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
    plan = _plan(context, place)
    smaller = replace(context, enlargement=lettering)
    tables = roof_plan_tables.column(smaller, reduced(column, lettering), plan.left_out)
    beside, *following = (enlarged(page, lettering) for page in tables)
    pages = [
        SheetDrawing(
            (view,),
            (*_furniture(context, view, sheet, column.x0), *(beside if sheet == ID else ())),
            plan.blocks,
            view.scale.label,
        )
        for view, sheet in zip(plan.views, _sheet_ids(len(plan.views)), strict=True)
    ]
    return (*pages, *(SheetDrawing((), page) for page in following))


def _sheet_ids(count: int) -> list[str]:
    """Ids of the sheets the parts of the plan stand on."""
    return [continued_id(ID, number) for number in range(count)]


@dataclass(frozen=True, slots=True)
class _Plan:
    """The plan, or its parts, with annotation.

    Attributes:
        views: The views.
        blocks: The blocks they show.
        left_out: Dimensions there was no room to draw.
    """

    views: tuple[View, ...]
    blocks: tuple[Block, ...]
    left_out: tuple[Wanted, ...]


def _plan(context: SheetContext, place: Box) -> _Plan:
    """The plan with margins wide enough for its dimensions, or with most of them.

    Raises:
        NoRoomError: A label finds no place, however wide the margins.
    """
    tried: list[_Plan] = []
    for more in _FARTHER_OUT:
        try:
            tried.append(_plan_within(context, _margins(context, more), place))
        except NoRoomError:
            if more == _FARTHER_OUT[-1] and not tried:
                raise
        if tried and not tried[-1].left_out:
            return tried[-1]
    return min(tried, key=lambda plan: len(plan.left_out))


def _plan_within(context: SheetContext, margins: Margins, place: Box) -> _Plan:
    extent, shown = roof_extent(context.design), _shown(context)
    parts = fit_or_split(TITLE, extent, margins, place, PLAN_SCALES, shown)
    areas = area_labels(context.design, parts[0].view.scale.factor)
    blocks = (*plan_blocks(context.design), access_block(context.design, areas))
    known = {block.name: block for block in blocks}
    known |= {name: symbol.block for name, symbol in context.symbols.items()}
    views: list[View] = []
    left_out: list[Wanted] = []
    for part in parts:
        annotation, missing = roof_plan_labels.annotation(
            context,
            part,
            roof_plan_dimensions.dimensions(context.design, part.view),
            (*area_texts(areas, part.view), *match_lines(part, _sheet_ids(len(parts)))),
            known,
        )
        views.append(replace(part.view, annotation=annotation))
        left_out += missing
    return _Plan(tuple(views), blocks, tuple(left_out))


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


def _furniture(
    context: SheetContext, view: View, sheet: str, right: float
) -> tuple[Primitive, ...]:
    """Title, scale and north arrow, all left of what stands at the right [paper in]."""
    x, y = title_place(context.area, view.frame)
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, sheet, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (x + 3.1, y - 0.1)),
        *north_arrow((min(x + 7.3, right - 0.65), y + 0.22), north),
    )
