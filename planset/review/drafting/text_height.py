"""No text smaller than a reader of the plotted sheet can make out."""

from __future__ import annotations

from collections.abc import Iterator

from planset.drawing.text import MINIMUM_HEIGHT
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.reviewed_page import ReviewedPage

_NOISE = 1e-9


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Measure the capitals of every text as plotted."""
    for text in sheet.texts:
        if text.height_in < MINIMUM_HEIGHT - _NOISE:
            yield RULE.fault(
                sheet,
                f"the capitals of {text.where} are {text.height_in:.4f} in high when plotted, "
                f"under {MINIMUM_HEIGHT:.4f} in; draw the text larger",
                text.words,
                measured=text.height_in,
                limit=MINIMUM_HEIGHT,
                unit="in",
            )


RULE = PageRule(
    id="drafting.text-height",
    title="Text height when plotted",
    check=check,
    citation="US National CAD Standard, least text height 3/32 in (from memory)",
)
