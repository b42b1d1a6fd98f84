"""Pages with planes seen from their eaves, and tables beside them: for the permit, for the crew."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

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
from planset.drawing.page import View
from planset.drawing.primitives import Primitive
from planset.drawing.stack import TableAt, fewest_pages, stack
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
    shown: Planes,
    tables: Callable[[Sequence[PlaneView]], list[TableAt]],
    before: int,
) -> Iterator[SheetDrawing]:
    """A page with some planes, and what its tables need beyond it.

    Args:
        context: What the sheet is given.
        plan: What the pages have in common.
        shown: The planes.
        tables: Gives the tables of the views.
        before: Pages of the sheet before this one.

    Raises:
        ViewTooLargeError: The planes fit at no standard scale.
    """
    places = places_of(context, shown)
    views = [
        plane_view(context, plane, mounted, number, place, plan.shows)
        for number, ((plane, mounted), place) in enumerate(zip(shown, places, strict=True), 1)
    ]
    listed, legend = tables(views), plan.legend(views)
    beside, *following = fewest_pages(
        _beside(context, views, listed, legend, size) for size in plan.letterings
    )
    titles = [
        part
        for one in views
        for part in furniture(context, one.plane, one.view, plan.sheet, before)
    ]
    scales = {one.view.scale.label for one in views}
    scale = scales.pop() if len(scales) == 1 else "AS SHOWN"
    drawn = tuple(one.view for one in views)
    yield SheetDrawing(drawn, (*titles, *beside), blocks(context, plan.shows), scale)
    for page in following:
        yield SheetDrawing((), page)


def _beside(
    context: SheetContext,
    views: Sequence[PlaneView],
    listed: list[TableAt],
    legend: TableAt,
    lettering: float,
) -> tuple[tuple[Primitive, ...], ...]:
    """Tables and legend below and beside the views, then on further pages."""
    area = context.area
    lowest = min(made.view.frame.y0 for made in views) - TITLE_STRIP
    below = Box(area.x0, area.y0, area.x1, lowest - _UNDER_TITLE)
    corner = Box(
        max(made.view.frame.x1 for made in views) + GAP,
        lowest,
        area.x1,
        max(made.view.frame.y1 for made in views) - GAP,
    )
    orders = [listed]
    in_corner: tuple[Primitive, ...] = ()
    if corner.width >= _LEGEND * lettering:
        small = reduced(corner, lettering)
        made = legend((small.x1 - _LEGEND, small.y1), _LEGEND)
        in_corner = enlarged(made.primitives, lettering)
    else:
        fits = legend((0.0, 0.0), below.width).box.height * lettering <= below.height
        orders = [*([[legend, *listed]] if fits else []), [*listed, legend]]
    columns, whole = columns_in(below, lettering), columns_in(area, lettering)
    first, *following = fewest_pages(stacked(some, columns, whole, lettering) for some in orders)
    return ((*in_corner, *first), *following)


def columns_in(box: Box, lettering: float) -> tuple[Box, ...]:
    """As many columns as have room side by side, words so many times as large [paper in]."""
    count = max(int((box.width + GAP) / (COLUMN * lettering + GAP)), 1)
    width = (box.width - (count - 1) * GAP) / count
    lefts = [box.x0 + n * (width + GAP) for n in range(count)]
    return tuple(Box(x, box.y0, x + width, box.y1) for x in lefts)


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
    title = text_width(view.title, _TITLE_HEIGHT) * SLACK
    bar = x + BUBBLE_RADIUS + title + 0.45
    north = context.design.inputs.job.roof.front_azimuth - 90 - plane_rotation_deg(plane)
    return (
        *view_title(view.number, continued_id(sheet, before), view.title, view.scale, (x, y)),
        *graphic_scale(view.scale, (bar, y - 0.1)),
        *north_arrow((bar + _BAR, y + 0.05), north),
    )
