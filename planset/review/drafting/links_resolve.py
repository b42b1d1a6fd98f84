"""Whatever sends the reader to another sheet or view leads to one of the set, by a link too."""

from __future__ import annotations

import re
from collections.abc import Iterator

from shapely.geometry import box

from planset.drawing.furniture import BUBBLE
from planset.drawing.geometry import Box
from planset.drawing.primitives import Insert
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import Item, PlottedText, place
from planset.review.reviewed_page import ReviewedPage

_CALLOUT = re.compile(
    r"(?:\bSEE (?:SHEET )?|\bSHEET |\b(\d+)/)([A-Z]-\d{3}(?:\.\d+)?|(?<!/)D-\d+)\b"
)


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Look up every link, view bubble and callout in the set."""
    for link in sheet.links:
        named = f"the link at {place((link.box.x0, link.box.y0))}"
        yield from _unresolved(sheet, named, link.sheet, str(link.view or ""))
    for item in sheet.items:
        if isinstance(item.primitive, Insert) and item.primitive.block == BUBBLE:
            yield from _bubble(sheet, item)
    for text in sheet.texts:
        for number, leads_to in _CALLOUT.findall(text.words):
            yield from _reference(sheet, f"text {text.where}", text.box, leads_to, number)


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
    yield from _reference(sheet, named, item.box, words[1], words[0])


def _level(text: PlottedText) -> float:
    return text.box.center[1]


def _reference(
    sheet: ReviewedPage, named: str, where: Box, leads_to: str, number: str
) -> Iterator[Finding]:
    """What is there to go to has a link to it, unless it is on the page itself."""
    wrong = list(_unresolved(sheet, named, leads_to, number))
    yield from wrong
    if wrong or leads_to == sheet.sheet:
        return
    target = (leads_to, int(number or 0))
    there = [link for link in sheet.links if link.box.overlaps(where)]
    if target not in [(link.sheet, link.view) for link in there]:
        message = f"{named} has no link to {leads_to}; add one to what it names"
        yield RULE.fault(sheet, message, leads_to, *([number] if number else []))


def _unresolved(sheet: ReviewedPage, named: str, leads_to: str, number: str) -> Iterator[Finding]:
    """A sheet of the same file and, where a number is given, a view on it."""
    whole = sheet.drawing
    file = whole.for_crew if sheet.page.for_crew else whole.for_review
    views = {page.sheet: [str(view.number) for view in page.views] for page in file.pages}
    views |= {data_sheet.id: [] for data_sheet in file.data_sheets}
    if leads_to not in views:
        message = f"{named} leads to {leads_to}, which is no sheet of this set"
        yield RULE.fault(sheet, f"{message}; correct or remove it", leads_to)
    elif number and number not in views[leads_to]:
        message = f"{named} names view {number} of {leads_to}, which has no such view; correct it"
        yield RULE.fault(sheet, message, leads_to, number)


RULE = PageRule(
    id="drafting.links-resolve",
    title="Links and callouts resolve",
    check=check,
)
