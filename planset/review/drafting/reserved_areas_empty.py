"""Nothing stands where a licensee seals and the building department stamps."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import HAIR
from planset.review.reviewed_page import ReviewedPage


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Look for ink in the seal and approval areas, that of the title block included."""
    titleblock = sheet.titleblock
    for name, area in (("seal", titleblock.seal_area), ("approval", titleblock.approval_area)):
        inner = area.grown(-HAIR)
        reserved = shapely.box(inner.x0, inner.y0, inner.x1, inner.y1)
        near = (item for item in sheet.items if item.box and item.box.overlaps(area))
        for item in near:
            text = next((text for text in item.texts if text.shape.intersects(reserved)), None)
            if text:
                yield _occupied(sheet, f"text {text.where}", text.words, name)
            elif any(ink.shape.intersects(reserved) for ink in item.ink):
                yield _occupied(sheet, item.name, item.name, name)


def _occupied(sheet: ReviewedPage, named: str, what: str, area: str) -> Finding:
    return RULE.fault(sheet, f"{named} stands in the {area} area; move it out", what)


RULE = PageRule(
    id="drafting.reserved-areas-empty",
    title="Seal and approval areas empty",
    check=check,
)
