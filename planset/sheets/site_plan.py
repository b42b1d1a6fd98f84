"""C-101 site plan: lot, buildings, street and driveway, equipment, the way of the fire service."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planset.design.site import Site
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import Margins, ViewTooLargeError, fit_view
from planset.drawing.furniture import (
    BUBBLE_RADIUS,
    graphic_scale,
    north_arrow,
    title_place,
    view_title,
)
from planset.drawing.geometry import Box, united
from planset.drawing.labels import LabelPlacer, NoRoomError
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import SITE_SCALES, View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.sheets import site_plan_dimensions, site_plan_labels, site_plan_tables
from planset.sheets.array_layers import MODULES
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.lettering import beside_views
from planset.sheets.plan_blocks import ROOF_EDGES, ROOF_LINES, array_block, plan_blocks, roof_extent
from planset.sheets.plan_walls import WALLS
from planset.sheets.site_blocks import site_blocks, site_extent, site_inserts
from planset.sheets.site_words import OnSitePlan, free_of_lines
from planset.sheets.unnamed import Marked, Unnamed
from planset.sheets.wanted import Wanted

ID = "C-101"
TITLE = "SITE PLAN"

_COLUMN = 2.75
_TITLE_STRIP = 0.85
_FURNITURE = 7.0  # of title, scale and north arrow from the middle of the bubble, at least [in]
_AROUND = (0.3, 0.6, 0.9)  # the lot and its streets, for words there [paper in]


@dataclass(frozen=True, slots=True)
class _Plan:
    """The plan with its words.

    Attributes:
        view: Its view.
        left_out: Dimensions it had no room for.
        unnamed: What it had no room to name.
    """

    view: View
    left_out: tuple[Wanted, ...]
    unnamed: tuple[str, ...]

    @property
    def missing(self) -> int:
        """How many dimensions and names there was no room for."""
        return len(self.left_out) + len(self.unnamed)


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the site plan; nothing where the job describes no lot."""
    site = context.design.site
    if site is None:
        return ()
    area, lettering = context.area, beside_views(context)
    column = Box(area.x1 - _COLUMN * lettering, area.y0, area.x1, area.y1)
    place = Box(area.x0, area.y0 + _TITLE_STRIP, column.x0 - 0.15, area.y1)
    blocks = (*plan_blocks(context.design), *site_blocks(site))
    plan = _plan(context, site, blocks, place)
    smaller = replace(context, enlargement=lettering)
    tables = site_plan_tables.column(
        smaller, site, reduced(column, lettering), plan.left_out, plan.unnamed
    )
    beside, *following = (enlarged(page, lettering) for page in tables)
    paper = (*_furniture(context, plan.view, column.x0), *beside)
    first = SheetDrawing((plan.view,), paper, blocks, plan.view.scale.label)
    return (first, *(SheetDrawing((), page) for page in following))


def _plan(context: SheetContext, site: Site, blocks: tuple[Block, ...], place: Box) -> _Plan:
    """The plan at the largest scale, with margins wide enough for its words or most of them."""
    made: list[_Plan] = []
    for around in _AROUND:
        margins = Margins(around, around, around, around)
        try:
            view = _view(context, site, margins, place)
        except ViewTooLargeError:
            if not made and around == _AROUND[-1]:
                raise
            continue
        made.append(_labeled(context, site, blocks, view))
        if not made[-1].missing:
            break
    return min(made, key=lambda plan: plan.missing)


def _view(context: SheetContext, site: Site, margins: Margins, place: Box) -> View:
    extent = united([site_extent(site), roof_extent(context.design)])
    model = (*_buildings(context), *site_inserts(site))
    return fit_view(1, TITLE, extent, margins, place, SITE_SCALES, model)


def _buildings(context: SheetContext) -> list[Primitive]:
    """Walls in full, the roof's edges above them dashed, its ridges, the arrays."""
    origin = (0.0, 0.0)
    return [
        Insert(WALLS, origin, "C-BLDG-OTLN"),
        Insert(ROOF_EDGES, origin, "C-BLDG-OVHD"),
        Insert(ROOF_LINES, origin, OWN_LAYERS),
        *(Insert(array_block(one.id), origin, MODULES) for one in context.design.arrays),
    ]


def _labeled(context: SheetContext, site: Site, blocks: tuple[Block, ...], view: View) -> _Plan:
    known = {block.name: block for block in blocks}
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, known, view.on_paper)
    free = free_of_lines(context.design, site, view)
    plan = OnSitePlan(context.design, site, view, placer, free)
    site_plan_labels.reserve(plan)
    made: list[Marked] = []
    left_out: list[Wanted] = []
    for wanted in site_plan_dimensions.dimensions(site, view):
        try:
            made.append(placer.place_dimension(wanted.ways))
        except NoRoomError:
            left_out.append(wanted)
    made += site_plan_labels.labels(plan)
    marks = tuple(mark for mark in made if not isinstance(mark, Unnamed))
    unnamed = tuple(mark.thing for mark in made if isinstance(mark, Unnamed))
    return _Plan(replace(view, annotation=marks), tuple(left_out), unnamed)


def _furniture(context: SheetContext, view: View, right: float) -> tuple[Primitive, ...]:
    """Title, scale and north arrow, all left of what stands at the right [paper in]."""
    x, y = title_place(context.area, view.frame)
    x = min(x, max(right - _FURNITURE, context.area.x0 + BUBBLE_RADIUS))
    north = context.design.inputs.job.roof.front_azimuth - 90
    return (
        *view_title(view.number, ID, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (x + 3.1, y - 0.1)),
        *north_arrow((min(x + 7.0, right - 1.1), y + 0.05), north),
    )
