"""Whatever sends the reader to another sheet or view leads to one of the set."""

from __future__ import annotations

import re
from collections.abc import Iterator

from shapely.geometry import box

from planset.drawing.furniture import BUBBLE
from planset.drawing.primitives import Insert
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import Item, PlottedText, place
from planset.review.reviewed_page import ReviewedPage

_CALLOUT = re.compile(r"(?:\bSEE (?:SHEET )?|\bSHEET |\b(\d+)/)([A-Z]-\d{3}(?:\.\d+)?)\b")


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Look up every link, view bubble and callout in the set."""
    ids = {page.sheet for page in sheet.drawing.pages}
    for item in sheet.items:
        for link in item.links:
            if link.sheet not in ids:
                corner = place((link.box.x0, link.box.y0))
                yield _unresolved(sheet, f"the link at {corner}", link.sheet)
        if isinstance(item.primitive, Insert) and item.primitive.block == BUBBLE:
            yield from _bubble(sheet, item)
    for text in sheet.texts:
        for number, leads_to in _CALLOUT.findall(text.words):
            yield from _reference(sheet, f"text {text.where}", leads_to, number)


def _bubble(sheet: ReviewedPage, item: Item) -> Iterator[Finding]:
    """A bubble holds the number of a view over the sheet it is drawn on."""
    if item.box is None:
        return
    around = box(item.box.x0, item.box.y0, item.box.x1, item.box.y1)
    inside = [text for text in sheet.texts if around.contains(text.shape.centroid)]
    words = [text.words for text in sorted(inside, key=_level, reverse=True)]
    named = f"the view bubble at {place(item.box.center)}"
    if len(words) != 2:
        message = f"{named} holds {words}; write a view's number over its sheet's id in it"
        yield RULE.fault(sheet, message, BUBBLE)
        return
    yield from _reference(sheet, named, words[1], words[0])


def _level(text: PlottedText) -> float:
    return text.box.center[1]


def _reference(
    sheet: ReviewedPage, named: str, leads_to: str, number: str = ""
) -> Iterator[Finding]:
    """A sheet of the set and, where a number is given, a view on it."""
    views = {page.sheet: [view.number for view in page.views] for page in sheet.drawing.pages}
    if leads_to not in views:
        yield _unresolved(sheet, named, leads_to)
    elif number and number not in map(str, views[leads_to]):
        message = f"{named} names view {number} of {leads_to}, which has no such view; correct it"
        yield RULE.fault(sheet, message, leads_to, number)


def _unresolved(sheet: ReviewedPage, named: str, leads_to: str) -> Finding:
    message = f"{named} leads to {leads_to}, which is no sheet of this set; correct or remove it"
    return RULE.fault(sheet, message, leads_to)


RULE = PageRule(
    id="drafting.links-resolve",
    title="Links and callouts resolve",
    check=check,
)
