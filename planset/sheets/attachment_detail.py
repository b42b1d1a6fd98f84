"""S-501 attachment details: a pair of views of each, to scale, with what holds it beside them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from planset.drawing.columns import first_then
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.furniture import title_and_scale, title_place
from planset.drawing.geometry import Box
from planset.drawing.keynotes import ColumnFullError
from planset.drawing.page import DETAIL_SCALES, Scale, View
from planset.drawing.primitives import Block, Primitive
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
_TABLES = 6.03  # width of the tables' column, with words at their least [in]
_GAP = 0.16
_APART = 0.2  # of columns, and of views and tables [in]
_STEPS_SMALLER = 3  # scales the view across the slope may take, from that of the other one


def build(context: SheetContext) -> tuple[SheetDrawing, ...]:
    """A page for each distinct detail of the job, then whatever their tables need beyond it."""
    details = details_of(context.design)
    pages: list[SheetDrawing] = []
    over: list[TableAt] = []
    for detail in details:
        page, rest = _page(context, detail, several=len(details) > 1)
        pages.append(page)
        over += rest
    return (*pages, *_further(context, over))


def _page(
    context: SheetContext, detail: Detail, *, several: bool
) -> tuple[SheetDrawing, list[TableAt]]:
    """The page of a detail, and the tables that have no room on it."""
    lettering = beside_views(context)
    along, across = _shown(detail, lettering)
    area = context.area
    right = area.x1 - _TABLES * lettering
    first, second = _views(
        along, across, detail, Box(area.x0, area.y0, right - _APART, area.y1), area
    )
    upper_foot = first.frame.y0 - _TITLE_STRIP
    place = Box(right, area.y0, area.x1, upper_foot - 0.05)
    beside, rest = _beside(tables(context, detail, several=several), place, lettering)
    paper: tuple[Primitive, ...] = (
        *title_and_scale(first, detail.sheet, title_place(_under(area, first), first.frame)),
        *title_and_scale(second, detail.sheet, title_place(_under(area, second), second.frame)),
        *beside,
    )
    scale = first.scale.label if first.scale == second.scale else "AS SHOWN"
    return SheetDrawing((first, second), paper, (along.block, across.block), scale), rest


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


def _views(
    along: Shown, across: Shown, detail: Detail, beside: Box, area: Box
) -> tuple[View, View]:
    """Both views at the largest scales that leave room for each other.

    Args:
        along: The section along the slope.
        across: The one across it, below.
        detail: The detail.
        beside: The part of the page left of the tables [paper in].
        area: The page [paper in].

    Raises:
        ViewTooLargeError: There is no room for them at any standard scale.
        ColumnFullError: There is none for their notes.
    """
    pitches = [array.plane.pitch for array in detail.arrays]
    for one, other in _scales():
        needed = across_height(across, other) + _TITLE_STRIP + _OVER_VIEW
        upper = Box(area.x0, area.y0 + needed + _TITLE_STRIP, area.x1, area.y1)
        with suppress(ViewTooLargeError, ColumnFullError):
            first = along_view(along, upper, one, pitches)
            foot = first.frame.y0 - _TITLE_STRIP
            lower = Box(beside.x0, area.y0 + _TITLE_STRIP, beside.x1, foot - _OVER_VIEW)
            return first, across_view(across, lower, other)
    msg = f"{detail.name} does not fit {area.width:.1f} x {area.height:.1f} in with its notes"
    raise ViewTooLargeError(msg)


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
    count = max(int((area.width + _APART) / (_TABLES + _APART)), 1)
    width = (area.width + _APART) / count - _APART
    columns = tuple(
        Box(left, area.y0, left + width, area.y1)
        for left in (area.x0 + n * (width + _APART) for n in range(count))
    )
    for page in stack(listed, first_then(columns, columns), _GAP).pages:
        yield SheetDrawing((), enlarged(page, lettering))
