"""S-101 attachment plan: rails and attachments plane by plane, as a crew tapes them on the roof."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from planset.drawing.columns import first_then
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.furniture import (
    BUBBLE_RADIUS,
    graphic_scale,
    north_arrow,
    title_place,
    view_title,
)
from planset.drawing.geometry import Box
from planset.drawing.primitives import Primitive
from planset.drawing.stack import TableAt, stack
from planset.drawing.text import SLACK, text_width
from planset.sheets.attachment_legend import plan_legend
from planset.sheets.attachment_pages import (
    COLUMN,
    GAP,
    TITLE_STRIP,
    Planes,
    pages_of,
    places_of,
)
from planset.sheets.attachment_plan_tables import tables
from planset.sheets.attachment_view import PlaneView, blocks, mounted_planes, plane_view
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.crew_notes import notes
from planset.sheets.cut_tables import cut_tables
from planset.sheets.lettering import beside_views
from planset.sheets.plan_turn import plane_rotation_deg

ID = "S-101"
TITLE = "ATTACHMENT PLAN"

_LEGEND = 1.95  # width of the legend, with notes at their least [in]
_UNDER_TITLE = 0.06  # from a title to the tables [paper in]
_TITLE_HEIGHT = 0.15  # of a view's title [in]
_BAR = 2.9  # from the left end of a graphic scale to the north arrow [in]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the planes with arrays mounted by this job; no sheet where there is none."""
    planes = mounted_planes(context)
    pages: list[SheetDrawing] = []
    for shown in pages_of(context, planes):
        pages += _pages(context, shown, len(pages))
    return tuple(pages)


def _pages(context: SheetContext, shown: Planes, before: int) -> Iterator[SheetDrawing]:
    """A page with some planes, and what its tables need beyond it."""
    places = places_of(context, shown)
    views = [
        plane_view(context, plane, mounted, number, place)
        for number, ((plane, mounted), place) in enumerate(zip(shown, places, strict=True), 1)
    ]
    area, lettering = context.area, beside_views(context)
    lowest = min(made.view.frame.y0 for made in views) - TITLE_STRIP
    below = Box(area.x0, area.y0, area.x1, lowest - _UNDER_TITLE)
    corner = Box(
        max(made.view.frame.x1 for made in views) + GAP,
        lowest,
        area.x1,
        max(made.view.frame.y1 for made in views) - GAP,
    )
    listed = tables(context, views)
    if not before:
        listed += [partial(notes, context), *cut_tables(context.design)]
    orders = [listed]
    legend = plan_legend(context.design, views)
    beside_legend: tuple[Primitive, ...] = ()
    if corner.width >= _LEGEND * lettering:
        small = reduced(corner, lettering)
        made = legend((small.x1 - _LEGEND, small.y1), _LEGEND)
        beside_legend = enlarged(made.primitives, lettering)
    else:
        fits = legend((0.0, 0.0), below.width).box.height * lettering <= below.height
        orders = [*([[legend, *listed]] if fits else []), [*listed, legend]]
    columns = _split(context, below)
    beside, *following = min((_stacked(context, some, columns) for some in orders), key=len)
    sheet = continued_id(ID, before)
    furniture = [part for one in views for part in _furniture(context, one, sheet)]
    scales = {one.view.scale.label for one in views}
    scale = scales.pop() if len(scales) == 1 else "AS SHOWN"
    drawn = tuple(one.view for one in views)
    paper = (*furniture, *beside_legend, *beside)
    yield SheetDrawing(drawn, paper, blocks(context), scale)
    for page in following:
        yield SheetDrawing((), page)


def _split(context: SheetContext, box: Box) -> tuple[Box, ...]:
    """As many columns as have room side by side."""
    count = max(int((box.width + GAP) / (COLUMN * beside_views(context) + GAP)), 1)
    width = (box.width - (count - 1) * GAP) / count
    lefts = [box.x0 + n * (width + GAP) for n in range(count)]
    return tuple(Box(x, box.y0, x + width, box.y1) for x in lefts)


def _stacked(
    context: SheetContext, listed: Sequence[TableAt], columns: tuple[Box, ...]
) -> tuple[tuple[Primitive, ...], ...]:
    """The tables in the columns of the page, then on as many more as they need."""
    lettering = beside_views(context)
    following = _split(context, context.area)
    first, more = (
        tuple(reduced(box, lettering) for box in boxes) for boxes in (columns, following)
    )
    made = stack(listed, first_then(first, more), GAP).pages
    return tuple(enlarged(page, lettering) for page in made)


def _furniture(context: SheetContext, made: PlaneView, sheet: str) -> tuple[Primitive, ...]:
    """Title, scale and north arrow under a view."""
    view = made.view
    frame = view.frame
    x, y = title_place(Box(frame.x0, frame.y0 - TITLE_STRIP, frame.x1, frame.y1), frame)
    title = text_width(view.title, _TITLE_HEIGHT) * SLACK
    bar = x + BUBBLE_RADIUS + title + 0.45
    north = context.design.inputs.job.roof.front_azimuth - 90 - plane_rotation_deg(made.plane)
    return (
        *view_title(view.number, sheet, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (bar, y - 0.1)),
        *north_arrow((bar + _BAR, y + 0.05), north),
    )
