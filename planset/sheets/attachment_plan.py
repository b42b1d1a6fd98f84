"""S-101 attachment plan: rails and attachments plane by plane, as a crew tapes them on the roof."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from planset.drawing.columns import first_then
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.furniture import graphic_scale, north_arrow, title_place, view_title
from planset.drawing.geometry import Box
from planset.drawing.primitives import Primitive
from planset.drawing.stack import stack
from planset.roof.plane import Plane
from planset.sheets import attachment_plan_tables
from planset.sheets.attachment_tapes import Mounted
from planset.sheets.attachment_view import (
    PlaneView,
    blocks,
    mounted_planes,
    plane_view,
    scale_factor,
)
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.lettering import beside_views
from planset.sheets.plan_blocks import plane_rotation_deg

ID = "S-101"
TITLE = "ATTACHMENT PLAN"

_COLUMN = 3.95  # least width of a column of tables, with notes at their least [in]
_TITLE_STRIP = 0.85
_GAP = 0.17
_LARGE_ENOUGH = 48.0  # a view at 1/4" is read on a roof; no page is spent for a larger one

_Planes = Sequence[tuple[Plane, tuple[Mounted, ...]]]


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """Lay out the planes with arrays mounted by this job; no sheet where there is none."""
    planes = mounted_planes(context)
    pages: list[SheetDrawing] = []
    if planes:
        for shown in _batches(planes, _planes_per_page(context, planes)):
            pages += _pages(context, shown, len(pages))
    return tuple(pages)


def _planes_per_page(context: SheetContext, planes: _Planes) -> int:
    """As many planes on a page as it can hold without drawing one too small."""
    alone = _factors(context, planes, 1)
    for count in range(len(planes), 1, -1):
        try:
            together = _factors(context, planes, count)
        except ViewTooLargeError:
            continue
        pairs = zip(together, alone, strict=True)
        if all(factor <= max(_LARGE_ENOUGH, least) for factor, least in pairs):
            return count
    return 1


def _batches(planes: _Planes, count: int) -> list[_Planes]:
    return [planes[n : n + count] for n in range(0, len(planes), count)]


def _factors(context: SheetContext, planes: _Planes, count: int) -> list[float]:
    return [
        scale_factor(context, plane, mounted, place)
        for shown in _batches(planes, count)
        for (plane, mounted), place in zip(shown, _places(context, shown), strict=True)
    ]


def _places(context: SheetContext, shown: _Planes) -> list[Box]:
    """Where the views of a page stand: one below the other, left of the tables or above them.

    A single one stands above the tables when it is drawn larger there.
    """
    area = context.area
    left = Box(area.x0, area.y0, _column(context).x0 - 0.15, area.y1)
    height = left.height / len(shown)
    beside = [
        Box(left.x0, left.y1 - n * height + _TITLE_STRIP - height, left.x1, left.y1 - n * height)
        for n in range(len(shown))
    ]
    if len(shown) > 1:
        return beside
    above = Box(area.x0, area.y0 + _TITLE_STRIP, area.x1, area.y1)
    plane, mounted = shown[0]
    try:
        larger = scale_factor(context, plane, mounted, above) < scale_factor(
            context, plane, mounted, beside[0]
        )
    except ViewTooLargeError:
        larger = True
    return [above] if larger else beside


def _column(context: SheetContext) -> Box:
    """The column of tables at the right [paper in]."""
    area, width = context.area, _COLUMN * beside_views(context)
    return Box(area.x1 - width, area.y0, area.x1, area.y1)


def _pages(context: SheetContext, shown: _Planes, before: int) -> Iterator[SheetDrawing]:
    """A page with some planes, and what its tables need beyond it."""
    places = _places(context, shown)
    views = [
        plane_view(context, plane, mounted, number, place)
        for number, ((plane, mounted), place) in enumerate(zip(shown, places, strict=True), 1)
    ]
    above = places[0].x1 > _column(context).x0
    columns = _below(context, views[0]) if above else (_column(context),)
    beside, *following = _tables(context, views, columns)
    sheet = continued_id(ID, before)
    furniture = [
        part
        for made, place in zip(views, places, strict=True)
        for part in _furniture(context, made, sheet, place)
    ]
    scales = {made.view.scale.label for made in views}
    scale = scales.pop() if len(scales) == 1 else "AS SHOWN"
    drawn = tuple(made.view for made in views)
    yield SheetDrawing(drawn, (*furniture, *beside), blocks(context), scale)
    for page in following:
        yield SheetDrawing((), page)


def _below(context: SheetContext, made: PlaneView) -> tuple[Box, ...]:
    """Columns of tables below a view and its title [paper in]."""
    area = context.area
    return _split(context, Box(area.x0, area.y0, area.x1, made.view.frame.y0 - _TITLE_STRIP))


def _split(context: SheetContext, box: Box) -> tuple[Box, ...]:
    """As many columns as have room side by side."""
    count = max(int((box.width + _GAP) / (_COLUMN * beside_views(context) + _GAP)), 1)
    width = (box.width - (count - 1) * _GAP) / count
    lefts = [box.x0 + n * (width + _GAP) for n in range(count)]
    return tuple(Box(x, box.y0, x + width, box.y1) for x in lefts)


def _tables(
    context: SheetContext, views: Sequence[PlaneView], columns: tuple[Box, ...]
) -> tuple[tuple[Primitive, ...], ...]:
    """The tables in the columns of the page, then on as many more as they need."""
    lettering = beside_views(context)
    smaller = replace(context, enlargement=lettering)
    width = columns[0].width
    following = tuple(
        Box(box.x0, box.y0, box.x0 + width, box.y1)
        for box in _split(context, context.area)
        if box.x0 + width <= context.area.x1 + 1e-9
    )
    first, more = (
        tuple(reduced(box, lettering) for box in boxes) for boxes in (columns, following)
    )
    listed = attachment_plan_tables.tables(smaller, views)
    made = stack(listed, first_then(first, more), _GAP).pages
    return tuple(enlarged(page, lettering) for page in made)


def _furniture(
    context: SheetContext, made: PlaneView, sheet: str, place: Box
) -> tuple[Primitive, ...]:
    """Title, scale and north arrow under a view."""
    view = made.view
    x, y = title_place(Box(place.x0, view.frame.y0 - _TITLE_STRIP, place.x1, place.y1), view.frame)
    north = context.design.inputs.job.roof.front_azimuth - 90 - plane_rotation_deg(made.plane)
    return (
        *view_title(view.number, sheet, view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (x + 4.2, y - 0.1)),
        *north_arrow((min(x + 7.4, place.x1 - 1.1), y + 0.05), north),
    )
