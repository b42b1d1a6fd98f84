"""A-101 roof plan: planes, edges, obstructions, modules, fire access, attachments thin."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from planset.drawing.dimension import NEXT_OFFSET
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, ViewTooLargeError, fit_or_split, match_lines
from planset.drawing.furniture import graphic_scale, north_arrow, title_place, view_title
from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import PLAN_SCALES, View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.roof.plane import Plane
from planset.sheets import roof_plan_dimensions, roof_plan_labels, roof_plan_tables
from planset.sheets.access_areas import (
    ACCESS,
    access_block,
    access_lines_block,
    area_labels,
    area_texts,
)
from planset.sheets.array_layers import MODULES
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.lettering import beside_views
from planset.sheets.plan_blocks import (
    FRAMING,
    OBSTRUCTIONS,
    ROOF,
    SUPPORT_LAYER,
    SUPPORTS,
    array_block,
    plan_blocks,
    roof_extent,
    supported_planes,
)
from planset.sheets.plan_walls import OPENINGS, WALLS, openings_blocks
from planset.sheets.racking_blocks import racking_block
from planset.sheets.roof_plan_draft import Draft, drafted
from planset.sheets.roof_plan_labels import Labeled
from planset.sheets.roof_plan_places import PlaceOverTables, places_over_tables
from planset.sheets.wanted import Wanted

ID = "A-101"
TITLE = "ROOF PLAN"

_COLUMN = 2.55
_NORTH_BESIDE = 6.0  # of the north arrow right of a title with tables beside it [paper in]
_TITLE_STRIP = 0.85
_BARE_SIDE = 0.5  # where only an edge's name or the roof's depth stands [paper in]
_EAVE_SIDE = 1.42  # below an eave with three lines of dimensions
_RAKE_SIDE = 0.88  # beside a rake with two lines of dimensions
_RAKE_LINES = 2 * NEXT_OFFSET  # that those two lines take beyond an eave's three
_STREET_SIDE = 0.6  # below the roof for the street
_WORDS_SIDE = 0.25  # for a street or driveway on any side but the front [paper in]
_FACES = 0.35  # how far a direction must point to a side for lines to stand there
_NEAR_SIDE = 0.1  # of the whole roof, how far inside of it a plane may end
_MOST_LABELED = 2  # of the margins tried
_NO_BETTER = 2  # so many margins that leave out alike, and no others are tried
_OUTWARD = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "top": (0.0, 1.0), "bottom": (0.0, -1.0)}
_FARTHER_OUT = (  # added beside and above, where words and figures find no room
    (0.0, 0.0),
    (0.5, 0.0),
    (0.0, 0.6),
    (0.5, 0.6),
    (1.2, 0.0),
    (1.2, 1.2),
)


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the roof plan."""
    sheet = _sheet(context)
    drawn, lettering = sheet.drawn, beside_views(context)
    views = tuple(part.view for part in drawn.parts)
    tables = sheet.tables(drawn.plan.left_out, drawn.unnamed)
    beside, *following = (enlarged(page, lettering) for page in tables)
    pages = [
        SheetDrawing(
            (view,),
            (*_furniture(context, view, sheet_id, sheet), *(beside if sheet_id == ID else ())),
            drawn.plan.blocks,
            view.scale.label,
        )
        for view, sheet_id in zip(views, _sheet_ids(len(views)), strict=True)
    ]
    return (*pages, *(SheetDrawing((), page) for page in following))


_Tables = Callable[
    [tuple[Wanted, ...], tuple[str, ...]],
    tuple[tuple[Primitive, ...], ...],
]
"""Lays out the tables of dimensions left out and things unnamed, with all others, by pages."""


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The plan and what stands beside it.

    Attributes:
        drawn: The plan.
        tables: Its tables.
        right: What the title with its scale and north arrow may reach [paper in].
        title_at: Where the title stands, where that is not at the foot of the sheet [paper in].
        north: How far right of the title's bubble the north arrow stands [paper in].
    """

    drawn: _Drawn
    tables: _Tables
    right: float
    title_at: Point | None = None
    north: float = 7.0


def _sheet(context: SheetContext) -> _Sheet:
    """The plan beside its tables; over them, where that gives it a larger scale and no page more.

    Sides with less room than was asked for may cost dimensions: then what leaves out less stands.
    """
    area, lettering = context.area, beside_views(context)
    smaller = replace(context, enlargement=lettering)
    column = Box(area.x1 - _COLUMN * lettering, area.y0, area.x1, area.y1)
    place = Box(area.x0, area.y0 + _TITLE_STRIP, column.x0 - 0.1, area.y1)
    beside = partial(roof_plan_tables.column, smaller, reduced(column, lettering))
    over = _over_tables(context, smaller, place, pages=len(beside((), ())))
    if over and not (over.tight and over.sheet.drawn.missing):
        return over.sheet
    usual = _Sheet(_plan(context, place), beside, column.x0)
    if over and over.sheet.drawn.missing <= usual.drawn.missing:
        return over.sheet
    return usual


@dataclass(frozen=True, slots=True)
class _OverTables:
    """The plan over its tables.

    Attributes:
        sheet: Plan and tables.
        tight: Whether the plan has less room at its sides than was asked for.
    """

    sheet: _Sheet
    tight: bool


def _over_tables(
    context: SheetContext, smaller: SheetContext, beside: Box, *, pages: int
) -> _OverTables | None:
    """The plan over its tables at a larger scale than beside them, on no more pages."""
    extent, wanted = roof_extent(context.design), _margins(context, 0.0, 0.0)
    usual = fit_or_split(TITLE, extent, wanted, beside, PLAN_SCALES, ())
    pages += len(usual) - 1
    factor = math.inf if len(usual) > 1 else usual[0].view.scale.factor
    held: list[tuple[PlaceOverTables, _Tables]] = []
    for place in places_over_tables(extent, wanted, context.area, factor):
        if held and place.frame.height != held[0][0].frame.height:
            break  # a smaller scale
        taken = [reduced(box, smaller.enlargement) for box in place.taken]
        tables: _Tables = partial(roof_plan_tables.below, smaller, taken)
        if len(tables((), ())) <= pages:
            held.append((place, tables))
    made: list[_OverTables] = []
    for place, tables in held:
        drawn = _labeled(context, _plan_within(context, place.margins, place.frame))
        sheet = _Sheet(drawn, tables, place.frame.x1, place.title_at, _NORTH_BESIDE)
        made.append(_OverTables(sheet, place.tight))
        if not drawn.missing:
            break
    return min(made, key=lambda one: one.sheet.drawn.missing, default=None)


def _sheet_ids(count: int) -> list[str]:
    """Ids of the sheets the parts of the plan stand on."""
    return [continued_id(ID, number) for number in range(count)]


@dataclass(frozen=True, slots=True)
class _Plan:
    """The plan or its parts, their labels not placed yet.

    Attributes:
        drafts: The views with their dimensions.
        blocks: The blocks they show.
    """

    drafts: tuple[Draft, ...]
    blocks: tuple[Block, ...]

    @property
    def left_out(self) -> tuple[Wanted, ...]:
        """Dimensions there was no room to draw."""
        return tuple(wanted for draft in self.drafts for wanted in draft.left_out)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """The plan or its parts with their labels.

    Attributes:
        plan: What was labeled.
        parts: The same with labels.
    """

    plan: _Plan
    parts: tuple[Labeled, ...]

    @property
    def unnamed(self) -> tuple[str, ...]:
        """What there was no room to name."""
        return tuple(thing for part in self.parts for thing in part.unnamed)

    @property
    def missing(self) -> int:
        """How many dimensions and names there was no room for."""
        return len(self.plan.left_out) + len(self.unnamed)


def _labeled(context: SheetContext, plan: _Plan) -> _Drawn:
    return _Drawn(plan, tuple(roof_plan_labels.labeled(context, draft) for draft in plan.drafts))


def _plan(context: SheetContext, place: Box) -> _Drawn:
    """The plan with margins wide enough for dimensions and names, or for most of them."""
    drawn: list[_Drawn] = []
    for plan in _plans(context, place):
        drawn.append(_labeled(context, plan))
        if not drawn[-1].unnamed or plan.left_out or len(drawn) == _MOST_LABELED:
            break  # plans come with the fewest dimensions left out first
    return min(drawn, key=lambda made: made.missing)


def _plans(context: SheetContext, place: Box) -> Iterator[_Plan]:
    """The plan with wider and wider margins; last those that leave dimensions out, most at last."""
    crowded: list[_Plan] = []
    fits = False
    for number, more in enumerate(_FARTHER_OUT, 1):
        try:
            plan = _plan_within(context, _margins(context, *more), place)
        except ViewTooLargeError:
            if number == len(_FARTHER_OUT) and not fits:
                raise
            continue
        fits = True
        if not plan.left_out:
            yield plan
            continue
        crowded.append(plan)
        if len(crowded) == _NO_BETTER and len({len(one.left_out) for one in crowded}) == 1:
            break  # wider margins are of no use
    yield from sorted(crowded, key=lambda plan: len(plan.left_out))


def _plan_within(context: SheetContext, margins: Margins, place: Box) -> _Plan:
    extent, shown = roof_extent(context.design), _shown(context)
    parts = fit_or_split(TITLE, extent, margins, place, PLAN_SCALES, shown)
    factor = parts[0].view.scale.factor
    areas = area_labels(context.design, factor)
    worded = frozenset(label.area for label in areas)
    blocks = (
        *plan_blocks(context.design),
        access_lines_block(context.design),
        access_block(context.design, areas, factor),
    )
    known = {block.name: block for block in blocks}
    known |= {name: symbol.block for name, symbol in context.symbols.items()}
    drafts = tuple(
        drafted(
            context,
            part,
            roof_plan_dimensions.dimensions(context.design, part.view),
            (*area_texts(areas, part.view), *match_lines(part, _sheet_ids(len(parts)))),
            worded,
            known,
        )
        for part in parts
    )
    return _Plan(drafts, blocks)


def _margins(context: SheetContext, beside: float, above: float) -> Margins:
    """Room on the eave side and the left rake's side of every plane with modules.

    Args:
        context: What the sheet is given.
        beside: Added where lines stand beside a rake [paper in].
        above: Added above the plan [paper in].
    """
    sides = dict.fromkeys(_OUTWARD, _BARE_SIDE)
    planes = {array.plane for array in context.design.arrays}
    for side, (x, y) in _OUTWARD.items():
        # The roof's own depth stands at the right, before what another plane needs there.
        depth = _BARE_SIDE if side == "right" else 0.0
        eave = any(
            plane.downslope[0] * x + plane.downslope[1] * y > _FACES
            and _at_side(context, plane, side)
            for plane in planes
        )
        rake = any(-plane.along[0] * x - plane.along[1] * y > _FACES for plane in planes)
        if eave:
            sides[side] = _EAVE_SIDE
        if rake:  # a hip's planes have their lines on one side, farther out than the eave's
            lines = _EAVE_SIDE + _RAKE_LINES if eave else _RAKE_SIDE
            sides[side] = lines + beside + depth
    sides["bottom"] = max(sides["bottom"], _STREET_SIDE)
    site = context.design.inputs.job.site
    for named, side in (("back", "top"), ("left", "left"), ("right", "right")):
        if named in (*site.street_sides, *site.driveway_sides):
            sides[side] += _WORDS_SIDE
    sides["top"] += above
    return Margins(**sides)


def _at_side(context: SheetContext, plane: Plane, side: str) -> bool:
    """Whether a plane ends where the whole roof does on a side, or nearly."""
    whole, own = roof_extent(context.design), box_around(plane.outline)
    gaps = {
        "left": own.x0 - whole.x0,
        "right": whole.x1 - own.x1,
        "bottom": own.y0 - whole.y0,
        "top": whole.y1 - own.y1,
    }
    return gaps[side] < _NEAR_SIDE * max(whole.width, whole.height)


def _shown(context: SheetContext) -> tuple[Primitive, ...]:
    design = context.design
    origin = (0.0, 0.0)
    shown = [
        Insert(WALLS, origin, "A-WALL-BELO"),
        Insert(ACCESS, origin, OWN_LAYERS),
        Insert(FRAMING, origin, "S-ROOF-FRAM"),
        Insert(OBSTRUCTIONS, origin, OWN_LAYERS),
    ]
    if supported_planes(design):
        shown.append(Insert(SUPPORTS, origin, SUPPORT_LAYER))
    shown += [Insert(racking_block(a.id), origin, OWN_LAYERS) for a in design.mounted]
    shown += [Insert(array_block(a.id), origin, MODULES) for a in design.arrays]
    if openings_blocks(design):
        shown.append(Insert(OPENINGS, origin, "A-WALL-OPNG"))
    shown.append(Insert(ROOF, origin, OWN_LAYERS))
    return tuple(shown)


def _furniture(
    context: SheetContext, view: View, sheet_id: str, sheet: _Sheet
) -> tuple[Primitive, ...]:
    """Title, scale and north arrow, all left of what stands at the right [paper in]."""
    x, y = sheet.title_at or title_place(context.area, view.frame)
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, sheet_id, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (x + 3.1, y - 0.1)),
        *north_arrow((min(x + sheet.north, sheet.right - 1.1), y + 0.05), north),
    )
