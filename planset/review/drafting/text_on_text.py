"""No text over another text."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import HAIR
from planset.review.reviewed_page import ReviewedPage


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Intersect the rectangles of all texts, turned as they are, with one another."""
    texts = list(sheet.texts)
    inner = shapely.buffer([text.shape for text in texts], -HAIR / 2, join_style="mitre")
    pairs = shapely.STRtree(inner).query(inner, predicate="intersects").T
    for first, second in sorted((int(a), int(b)) for a, b in pairs if a < b):
        one, other = texts[first], texts[second]
        message = f"text {one.where} lies on text {other.where}; move one of them"
        yield RULE.fault(sheet, message, one.words, other.words)


RULE = PageRule(
    id="drafting.text-on-text",
    title="No text on text",
    check=check,
)
