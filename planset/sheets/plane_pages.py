"""Pages with planes seen from their eaves, and tables beside them: for the permit, for the crew."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planset.drawing.columns import first_then, side_by_side
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.furniture import (
    BUBBLE_RADIUS,
    graphic_scale,
    north_arrow,
    title_place,
    view_title,
)
from planset.drawing.geometry import Box
from planset.drawing.page import View
from planset.drawing.primitives import Primitive
from planset.drawing.stack import TableAt, fewest_pages, filled, stack
from planset.drawing.text import SLACK, text_width
from planset.roof.plane import Plane
from planset.sheets.attachment_pages import COLUMN, GAP, TITLE_STRIP, Planes, places_of
from planset.sheets.attachment_view import ATTACHMENTS, PlaneView, Shows, blocks, plane_view
from planset.sheets.context import SheetContext, SheetDrawing, continued_id
from planset.sheets.plan_turn import plane_rotation_deg

_LEGEND = 1.95  # width of the legend, with notes at their least [in]
_UNDER_TITLE = 0.06  # from a title to the tables [paper in]
_TITLE_HEIGHT = 0.15  # of a view's title [in]
_BAR = 2.9  # from the left end of a graphic scale to the north arrow [in]
_ARROW = 1.1  # from the middle of the arrow past the words beside it [in]


@dataclass(frozen=True, slots=True)
class PagePlan:
    """What pages with planes have in common.

    Attributes:
        sheet: Id of the sheet.
        letterings: How many times as large words beside the views may be drawn; of these the
            first that takes the fewest pages is.
        legend: Lays out the legend of some views.
        shows: What the views show.
    """

    sheet: str
    letterings: tuple[float, ...]
    legend: Callable[[Sequence[PlaneView]], TableAt]
    shows: Shows = ATTACHMENTS


def plane_pages(
    context: SheetContext,
    plan: PagePlan,
    batches: Sequence[Planes],
    tables: Callable[[Sequence[PlaneView]], list[TableAt]],
    before: int,
    carried: Sequence[TableAt] = (),
) -> tuple[SheetDrawing, ...]:
    """A page for each batch of planes, then what their tables need beyond them.

    A table without room beside its planes goes where the pages after have room.

    Args:
        context: What the sheet is given.
        plan: What the pages have in common.
        batches: The planes of each page.
        tables: Gives the tables of the views of a page.
        before: Pages of the sheet before these.
        carried: Tables of no plane, after those of the first page.

    Raises:
        ViewTooLargeError: The planes fit at no standard scale.
    """
    pages: list[SheetDrawing] = []
    rest = tuple(carried)
    for shown in batches:
        page, rest = _plane_page(context, plan, shown, tables, rest, before + len(pages))
        pages.append(page)
    if pages and rest:
        sizes = ((columns_in(context.area, size), size) for size in plan.letterings)
        tried = (stacked(rest, columns, columns, size) for columns, size in sizes)
        pages += (SheetDrawing((), page) for page in fewest_pages(tried))
    return tuple(pages)


def _plane_page(
    context: SheetContext,
    plan: PagePlan,
    shown: Planes,
    tables: Callable[[Sequence[PlaneView]], list[TableAt]],
    carried: tuple[TableAt, ...],
    before: int,
) -> tuple[SheetDrawing, tuple[TableAt, ...]]:
    """A page of planes with their tables, then others; and the tables it has no room for."""
    places = places_of(context, shown)
    views = [
        plane_view(context, plane, mounted, number, place, plan.shows)
        for number, ((plane, mounted), place) in enumerate(zip(shown, places, strict=True), 1)
    ]
    own, legend = [*tables(views), *carried], plan.legend(views)
    beside, rest = min(
        (_beside(context, views, own, legend, size) for size in plan.letterings),
        key=lambda made: len(made[1]),
    )
    titles = [
        part
        for one in views
        for part in furniture(context, one.plane, one.view, plan.sheet, before)
    ]
    scales = {one.view.scale.label for one in views}
    scale = scales.pop() if len(scales) == 1 else "AS SHOWN"
    drawn = tuple(one.view for one in views)
    page = SheetDrawing(drawn, (*titles, *beside), blocks(context, plan.shows), scale)
    return page, rest


def _beside(
    context: SheetContext,
    views: Sequence[PlaneView],
    listed: list[TableAt],
    legend: TableAt,
    lettering: float,
) -> tuple[tuple[Primitive, ...], tuple[TableAt, ...]]:
    """Tables and legend below and beside the views, and the tables without room there."""
    area = context.area
    lowest = min(made.view.frame.y0 for made in views) - TITLE_STRIP
    below = Box(area.x0, area.y0, area.x1, lowest - _UNDER_TITLE)
    corner = Box(
        max(made.view.frame.x1 for made in views) + GAP,
        lowest,
        area.x1,
        max(made.view.frame.y1 for made in views) - GAP,
    )
    in_corner: tuple[Primitive, ...] = ()
    if corner.width >= _LEGEND * lettering:
        small = reduced(corner, lettering)
        made = legend((small.x1 - _LEGEND, small.y1), _LEGEND)
        in_corner = enlarged(made.primitives, lettering)
    else:
        listed = [legend, *listed]
    columns = tuple(reduced(box, lettering) for box in columns_in(below, lettering))
    drawn, rest = filled(listed, columns, GAP)
    return (*in_corner, *enlarged(drawn, lettering)), rest


def columns_in(box: Box, lettering: float) -> tuple[Box, ...]:
    """As many columns as have room side by side, words so many times as large [paper in]."""
    return side_by_side(box, COLUMN * lettering, GAP)


def stacked(
    listed: Sequence[TableAt],
    columns: tuple[Box, ...],
    following: tuple[Box, ...],
    lettering: float,
    *,
    broken: bool = False,
) -> tuple[tuple[Primitive, ...], ...]:
    """Tables in the columns of a page, then in those of as many more as they need.

    Args:
        listed: The tables.
        columns: The columns of the first page [paper in].
        following: Those of the others [paper in].
        lettering: How many times as large words are drawn.
        broken: Whether a table may go on in another column wherever some of it has room.
    """
    first, more = (
        tuple(reduced(box, lettering) for box in boxes) for boxes in (columns, following)
    )
    made = stack(listed, first_then(first, more), GAP, broken=broken).pages
    return tuple(enlarged(page, lettering) for page in made)


def furniture(
    context: SheetContext, plane: Plane, view: View, sheet: str, before: int
) -> tuple[Primitive, ...]:
    """Title, scale and north arrow under a view of a plane.

    Args:
        context: What the sheet is given.
        plane: The plane.
        view: Its view.
        sheet: Id of the sheet.
        before: Pages of the sheet before this one.
    """
    frame = view.frame
    x, y = title_place(Box(frame.x0, frame.y0 - TITLE_STRIP, frame.x1, frame.y1), frame)
    to_bar = BUBBLE_RADIUS + text_width(view.title, _TITLE_HEIGHT) * SLACK + 0.45
    x = min(x, context.area.x1 - to_bar - _BAR - _ARROW)
    bar = x + to_bar
    north = context.design.inputs.job.roof.front_azimuth - 90 - plane_rotation_deg(plane)
    return (
        *view_title(view.number, continued_id(sheet, before), view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (bar, y - 0.1)),
        *north_arrow((bar + _BAR, y + 0.05), north),
    )
