"""Links on finished pages: from what names a sheet or view to it, and from there back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from planset.drawing.callouts import Callout, callouts
from planset.drawing.geometry import Box
from planset.drawing.page import Page, TitleBlock
from planset.drawing.primitives import Link
from planset.sheets.context import base_id

SHEET_ID = "SHEET_ID"
"""The field of a title block that leads back to the index."""


class _Named(NamedTuple):
    """A callout and the view it stands in, 0 outside of views."""

    callout: Callout
    stands_in: int


class _Target(NamedTuple):
    """A view, or with 0 the sheet as a whole."""

    sheet: str
    view: int


def linked(
    pages: Iterable[Page],
    titleblock: TitleBlock,
    index: str,
    others: Iterable[str] = (),
) -> tuple[Page, ...]:
    """The pages with a link on everything that names a sheet of the set.

    A bubble leads to the view it names, and the bubble in that view's title back to the first view
    that calls for it, the index with its sample of a bubble apart; the sheet's id in the title
    block leads to the index. Where a page has a link already, it stays alone.

    Args:
        pages: All sheets of the set.
        titleblock: Their title block.
        index: Id of the sheet with the index.
        others: Further ids that a link may lead to.
    """
    pages = tuple(pages)
    views = {page.sheet: frozenset(view.number for view in page.views) for page in pages}
    views |= {other: frozenset() for other in others}
    named = {page.sheet: list(_named(page)) for page in pages}
    calling = {sheet: found for sheet, found in named.items() if not _is_of(sheet, index)}
    back = _ways_back(calling)
    return tuple(
        replace(
            page,
            paper=(
                *page.paper,
                *_links(page, named[page.sheet], views, back),
                *_to_index(page, titleblock, index, views),
            ),
        )
        for page in pages
    )


def _is_of(sheet: str, index: str) -> bool:
    """Whether a sheet is the index or one it runs over to."""
    return base_id(sheet) == index


def _named(page: Page) -> Iterator[_Named]:
    for view in page.views:
        yield from (_Named(callout, view.number) for callout in callouts(view.annotation))
    yield from (_Named(callout, 0) for callout in callouts(page.paper))


def _ways_back(named: Mapping[str, list[_Named]]) -> dict[_Target, _Target]:
    """For each view that bubbles of other sheets call for, where the first of them stands."""
    back: dict[_Target, _Target] = {}
    for sheet, found in named.items():
        for callout, stands_in in found:
            if callout.is_bubble and callout.sheet != sheet:
                target = _Target(callout.sheet, callout.view)
                back.setdefault(target, _Target(sheet, stands_in))
    return back


def _links(
    page: Page,
    named: Iterable[_Named],
    views: Mapping[str, frozenset[int]],
    back: Mapping[_Target, _Target],
) -> Iterator[Link]:
    made = [
        Box(*part.lower_left, *part.upper_right) for part in page.paper if isinstance(part, Link)
    ]
    for callout, stands_in in named:
        target = _Target(callout.sheet, callout.view)
        if callout.is_bubble and callout.sheet == page.sheet:
            target = back.get(target, _Target("", 0))
        if target.sheet not in views or target in ((page.sheet, stands_in), (page.sheet, 0)):
            continue
        if not any(box.holds(callout.box.center) for box in made):
            view = target.view if target.view in views[target.sheet] else 0
            yield _link(callout.box, _Target(target.sheet, view))


def _to_index(
    page: Page, titleblock: TitleBlock, index: str, views: Mapping[str, frozenset[int]]
) -> Iterator[Link]:
    if page.sheet != index and index in views:
        yield _link(titleblock.fields[SHEET_ID].box, _Target(index, 0))


def _link(box: Box, target: _Target) -> Link:
    return Link((box.x0, box.y0), (box.x1, box.y1), *target)
