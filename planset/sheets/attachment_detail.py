"""S-501 attachment details: a pair of views of each, to scale, with what holds it beside them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass

from planset.drawing.columns import first_then, side_by_side
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.furniture import title_and_scale, title_place
from planset.drawing.geometry import Box
from planset.drawing.keynotes import ColumnFullError
from planset.drawing.page import DETAIL_SCALES, Scale, View
from planset.drawing.primitives import Block, Line, Polyline, Primitive
from planset.drawing.stack import TableAt, stack
from planset.sheets.context import SheetContext, SheetDrawing
from planset.sheets.details.detail import ACROSS, ALONG, SHEET, Detail, details_of
from planset.sheets.details.sections import sections
from planset.sheets.details.tables import tables
from planset.sheets.details.views import Shown, across_height, across_view, along_view
from planset.sheets.lettering import beside_views

ID = SHEET
TITLE = "ATTACHMENT DETAILS"

_TITLE_STRIP = 0.72
_OVER_VIEW = 0.1  # above the view across the slope [in]
_TABLES = 6.0  # width of the tables' column, with words at their least [in]
_GAP = 0.16
_APART = 0.2  # of columns, and of views and tables [in]
_UNDER_VIEW = 0.05  # from a view or its title to the tables [in]
_LEGIBLE = 4  # factor of the least scale taken for the tables' sake
_STEPS_SMALLER = 3  # scales the view across the slope may take, from that of the other one


@dataclass(frozen=True, slots=True)
class _Layout:
    """A page of a detail as it might be.

    Attributes:
        views: Its two views.
        paper: Titles and tables beside them [paper in].
        rest: Tables that have no room on it.
    """

    views: tuple[View, View]
    paper: tuple[Primitive, ...]
    rest: tuple[TableAt, ...]

    @property
    def scale(self) -> str:
        """Words for the title block's scale field."""
        labels = {view.scale.label for view in self.views}
        return labels.pop() if len(labels) == 1 else "AS SHOWN"


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """A page for each distinct detail of the job, then whatever their tables need beyond it."""
    details = details_of(context.design)
    pages: list[SheetDrawing] = []
    over: list[TableAt] = []
    for detail in details:
        along, across = _shown(detail, beside_views(context))
        listed = tables(context, detail, several=len(details) > 1)
        page = _best(context, detail, (along, across), listed)
        pages.append(SheetDrawing(page.views, page.paper, (along.block, across.block), page.scale))
        over += reversed(page.rest)  # the one that may have to be broken comes last on the page
    return (*pages, *_further(context, over))


def _best(
    context: SheetContext, detail: Detail, shown: tuple[Shown, Shown], listed: list[TableAt]
) -> _Layout:
    """The largest scales at which all tables stand beside the views, else the largest of all.

    Raises:
        ViewTooLargeError: There is no room for the views and their notes at any standard scale.
    """
    largest: _Layout | None = None
    for scales in _scales():
        if largest is not None and scales[0].factor > _LEGIBLE:
            break
        with suppress(ViewTooLargeError, ColumnFullError):
            page = _layout(context, detail, shown, scales, listed)
            if not page.rest:
                return page
            largest = largest or page
    if largest is None:
        area = context.area
        msg = f"{detail.name} does not fit {area.width:.1f} x {area.height:.1f} in with its notes"
        raise ViewTooLargeError(msg)
    return largest


def _layout(
    context: SheetContext,
    detail: Detail,
    shown: tuple[Shown, Shown],
    scales: tuple[Scale, Scale],
    listed: list[TableAt],
) -> _Layout:
    """The page at two scales: one view over the other, tables at the right of the lower one.

    Raises:
        ViewTooLargeError: There is no room for a view.
        ColumnFullError: There is none for its notes.
    """
    area, lettering = context.area, beside_views(context)
    (along, across), (one, other) = shown, scales
    needed = across_height(across, other) + _TITLE_STRIP + _OVER_VIEW
    upper = Box(area.x0, area.y0 + needed + _TITLE_STRIP, area.x1, area.y1)
    first = along_view(along, upper, one, [array.plane.pitch for array in detail.arrays])
    left = area.x1 - _TABLES * lettering
    foot = first.frame.y0 - _TITLE_STRIP
    lower = Box(area.x0, area.y0 + _TITLE_STRIP, left - _APART, foot - _OVER_VIEW)
    second = across_view(across, lower, other)
    titles = [
        title_and_scale(view, detail.sheet, title_place(_under(area, view), view.frame))
        for view in (first, second)
    ]
    beside_title = _right_end(titles[0]) < left - _APART
    top = first.frame.y0 if beside_title else foot
    place = Box(left, area.y0, area.x1, top - _UNDER_VIEW)
    beside, rest = _beside(listed, place, lettering)
    return _Layout((first, second), (*titles[0], *titles[1], *beside), tuple(rest))


def _right_end(title: tuple[Primitive, ...]) -> float:
    """How far right a title and its scale reach [paper in]."""
    rule = [part.b[0] for part in title if isinstance(part, Line)]
    bar = [x for part in title if isinstance(part, Polyline) for x, _ in part.points]
    return max(rule + bar) + _APART


def _under(area: Box, view: View) -> Box:
    """The strip below a view, for its title [paper in]."""
    foot = view.frame.y0
    return Box(max(area.x0, view.frame.x0), foot - _TITLE_STRIP, area.x1, foot)


def _shown(detail: Detail, lettering: float) -> tuple[Shown, Shown]:
    """Both sections of a detail with their blocks."""
    suffix = f"-{detail.number + 1}" if detail.number else ""
    way = "SEAM" if detail.fastening is None else "RAFTER"
    first, second = sections(detail)
    along = Block(f"DETAIL-ALONG{suffix}", first.sketch.drawn, f"{detail.name}, along the {way}")
    across = Block(f"DETAIL-ACROSS{suffix}", second.sketch.drawn, f"{detail.name}, across")
    return (
        Shown(ALONG, f"{detail.name}, ALONG THE {way}", first, along, lettering),
        Shown(ACROSS, "ACROSS THE SLOPE", second, across, lettering),
    )


def _scales() -> Iterator[tuple[Scale, Scale]]:
    """Pairs of scales to try, the larger ones first."""
    for number, one in enumerate(DETAIL_SCALES):
        for other in DETAIL_SCALES[number : number + _STEPS_SMALLER]:
            yield one, other


def _beside(
    listed: list[TableAt], place: Box, lettering: float
) -> tuple[tuple[Primitive, ...], list[TableAt]]:
    """The tables that have room beside the views, and the others, in their order."""
    small = reduced(place, lettering)
    made: list[Primitive] = []
    rest: list[TableAt] = []
    top = small.y1
    for lay in listed:
        laid = lay((small.x0, top), small.width)
        if laid.box.y0 < small.y0:
            rest.append(lay)
        else:
            made += laid.primitives
            top = laid.box.y0 - _GAP
    return enlarged(made, lettering), rest


def _further(context: SheetContext, listed: list[TableAt]) -> Iterator[SheetDrawing]:
    """Pages of tables alone, in as many columns as the sheet takes."""
    if not listed:
        return
    lettering = beside_views(context)
    area = reduced(context.area, lettering)
    columns = side_by_side(area, _TABLES, _APART)
    for page in stack(listed, first_then(columns, columns), _GAP).pages:
        yield SheetDrawing((), enlarged(page, lettering))
