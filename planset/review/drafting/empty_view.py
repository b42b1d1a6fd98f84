"""A view shows something."""

from __future__ import annotations

from collections.abc import Iterator

from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import Part
from planset.review.reviewed_page import ReviewedPage


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Look for a line or a filled area of the model inside the frame of each view."""
    shown = {
        item.view.number
        for item in sheet.items
        if item.view and item.part is Part.MODEL and item.ink
    }
    for view in sheet.page.views:
        if view.number not in shown:
            message = (
                f"view {view.number} {view.title} shows nothing of the model inside its frame; "
                "move its window to what it should show, or leave the view out"
            )
            yield RULE.fault(sheet, message, view.title)


RULE = PageRule(
    id="drafting.empty-view",
    title="No empty view",
    check=check,
)
