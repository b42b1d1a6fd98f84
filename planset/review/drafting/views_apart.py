"""No view reaches into another view or over the words beside it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import HAIR
from planset.review.reviewed_page import ReviewedPage


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Compare the frames of views with one another and with texts outside of views."""
    views = sheet.page.views
    for one, other in combinations(views, 2):
        if one.frame.grown(-HAIR).overlaps(other.frame):
            message = f"the frames of views {one.number} and {other.number} overlap; move one"
            yield RULE.fault(sheet, message, one.title, other.title)
    beside = [text for item in sheet.items if item.view is None for text in item.texts]
    for view in views:
        inner = view.frame.grown(-HAIR)
        for text in beside:
            if inner.overlaps(text.box):
                message = f"text {text.where} lies in the frame of view {view.number}; move it out"
                yield RULE.fault(sheet, message, view.title, text.words)


RULE = PageRule(
    id="drafting.views-apart",
    title="Views keep apart",
    check=check,
)
