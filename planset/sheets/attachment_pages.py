"""Which planes stand on which page of the attachment plan, and where."""

from __future__ import annotations

from collections.abc import Sequence

from planset.design.mounted import Mounted
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box
from planset.drawing.page import PLAN_SCALES, Scale
from planset.roof.plane import Plane
from planset.sheets.attachment_view import room_for
from planset.sheets.context import SheetContext

COLUMN = 3.95  # least width of a column of tables, with notes at their least [in]
TITLE_STRIP = 0.85
GAP = 0.17
_APART = 0.3  # between two views side by side [paper in]
_LEAST_WIDTH = 7.8  # of a view's title, scale and north arrow [paper in]
_VIEWS_SHARE = 0.62  # of a page's height for several views, the rest for their tables
_LARGE_ENOUGH = 48.0  # a view at 1/4" is read on a roof; no page is spent for a larger one

Planes = Sequence[tuple[Plane, tuple[Mounted, ...]]]
"""Planes with their mounted arrays."""


def pages_of(context: SheetContext, planes: Planes) -> list[Planes]:
    """The planes page by page: as many on one as it holds without drawing one too small.

    Raises:
        ViewTooLargeError: A plane fits at no standard scale.
    """
    alone = [_scale(context, [plane]).factor for plane in planes]
    for count in range(len(planes), 1, -1):
        shared = _batches(planes, count)
        try:
            together = [_scale(context, some).factor for some in shared for _ in some]
        except ViewTooLargeError:
            continue
        pairs = zip(together, alone, strict=True)
        if all(factor <= max(_LARGE_ENOUGH, least) for factor, least in pairs):
            return shared
    return _batches(planes, 1)


def places_of(context: SheetContext, shown: Planes) -> list[Box]:
    """Where the views of a page stand, in rows from the upper left, titles apart [paper in].

    Raises:
        ViewTooLargeError: They fit at no standard scale.
    """
    if len(shown) == 1:
        area = context.area
        return [Box(area.x0, area.y0 + TITLE_STRIP, area.x1, area.y1)]
    return _in_rows(context, shown, _scale(context, shown))


def _batches(planes: Planes, count: int) -> list[Planes]:
    return [planes[n : n + count] for n in range(0, len(planes), count)]


def _scale(context: SheetContext, shown: Planes) -> Scale:
    """The largest scale at which all views have room."""
    area = context.area
    share = _VIEWS_SHARE if len(shown) > 1 else 1.0
    foot = area.y1 - share * area.height + TITLE_STRIP
    for scale in PLAN_SCALES:
        places = _in_rows(context, shown, scale)
        if all(place.x1 <= area.x1 + 1e-9 and place.y0 >= foot - 1e-9 for place in places):
            return scale
    names = ", ".join(plane.id for plane, _ in shown)
    msg = f"the attachment plan of {names} fits at no standard scale"
    raise ViewTooLargeError(msg)


def _in_rows(context: SheetContext, shown: Planes, scale: Scale) -> list[Box]:
    """Views side by side as far as a row has room, then in the next row."""
    area = context.area
    made: list[Box] = []
    left, top, row = area.x0, area.y1, 0.0
    for plane, mounted in shown:
        width, height = room_for(context, plane, mounted, scale)
        if left > area.x0 and left + max(width, _LEAST_WIDTH) > area.x1:
            left, top, row = area.x0, top - row - TITLE_STRIP, 0.0
        made.append(Box(left, top - height, left + width, top))
        left += max(width, _LEAST_WIDTH) + _APART
        row = max(row, height)
    return made
