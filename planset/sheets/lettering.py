"""How large the words of a sheet are drawn: on a larger sheet by standard steps.

A set is often read from prints of half its size, so words take the largest standard height the
sheet has room for, as views take the largest standard scale. Figures on views keep theirs.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace

from planset.drawing.enlarge import enlarged
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box
from planset.drawing.page import View
from planset.drawing.text import NOTE_HEIGHT
from planset.sheets.context import SheetContext, SheetDrawing

_HEIGHTS = (3 / 16, 5 / 32, 1 / 8)  # usual heights above that of notes, largest first [in]
_BESIDE_VIEWS = 1 / 8  # a step above the figures of the views [in]
_ON_ROOF = 1 / 8  # at least, read at arm's length [in]
_SMALLEST = Box(0.0, 0.0, 12.3, 9.5)  # where an 11x17 sheet draws, with notes at their least [in]


def beside_views(context: SheetContext) -> float:
    """How many times as large notes and tables beside a view are drawn as on an 11x17 sheet."""
    return min(_enlargements(context)[0], _BESIDE_VIEWS / NOTE_HEIGHT)


def for_crew(context: SheetContext) -> tuple[float, ...]:
    """How many times as large words may be drawn for those who read them on a roof."""
    least = _ON_ROOF / NOTE_HEIGHT
    larger = tuple(factor for factor in _enlargements(context) if factor > least)
    return larger or (least,)


def at_largest_lettering(
    context: SheetContext,
    lay_out: Callable[[SheetContext], tuple[SheetDrawing, ...]],
    *,
    more_pages: int = 0,
) -> tuple[SheetDrawing, ...]:
    """A sheet without scale, its lettering the largest at which it needs the fewest pages.

    Args:
        context: What the sheet is given.
        lay_out: Lays the sheet out in the area of a context, words at their least height.
        more_pages: How many pages more than the fewest larger words may take.

    Raises:
        ViewTooLargeError: The sheet has no room for a view, its lettering at the least height.
    """
    *larger, least = _enlargements(context)
    fewest = lay_out(replace(context, enlargement=least))  # larger words never take fewer pages
    for factor in larger:
        with suppress(ViewTooLargeError):
            pages = lay_out(replace(context, enlargement=factor))
            if len(pages) <= len(fewest) + more_pages:
                return tuple(_enlarged(page, factor) for page in pages)
    return fewest


def _enlargements(context: SheetContext) -> list[float]:
    """Factors to try, largest first: words grow no more than the sheet does."""
    area = context.area
    room = min(area.width / _SMALLEST.width, area.height / _SMALLEST.height)
    factors = [height / NOTE_HEIGHT for height in _HEIGHTS]
    return [factor for factor in factors if factor <= room] + [1.0]


def _enlarged(page: SheetDrawing, factor: float) -> SheetDrawing:
    views = tuple(_enlarged_view(view, factor) for view in page.views)
    return replace(page, views=views, paper=enlarged(page.paper, factor))


def _enlarged_view(view: View, factor: float) -> View:
    window = view.window
    return replace(
        view,
        window=Box(*(edge * factor for edge in (window.x0, window.y0, window.x1, window.y1))),
        at=(view.at[0] * factor, view.at[1] * factor),
        model=enlarged(view.model, factor),
        annotation=enlarged(view.annotation, factor),
    )
