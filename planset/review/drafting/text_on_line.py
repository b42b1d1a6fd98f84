"""No text on a stroke of a medium or wider pen, or on a filled area; a thin pen may pass."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from planset.drawing.layers import MEDIUM
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import HAIR, Ink
from planset.review.reviewed_page import ReviewedPage


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Look for ink of wide strokes and fills within the rectangle of each text."""
    heavy = list(_heavy(sheet))
    texts = list(sheet.texts)
    inner = shapely.buffer([text.shape for text in texts], -HAIR, join_style="mitre")
    widest = max((ink.reach_in for ink in heavy), default=0.0)
    tree = shapely.STRtree([ink.shape for ink in heavy])
    near: list[set[str]] = [set() for _ in texts]
    for index, hit in tree.query(inner, predicate="dwithin", distance=widest).T:
        ink = heavy[hit]
        if ink.shape.distance(inner[index]) <= ink.reach_in:
            near[index].add(ink.layer.name)
    for text, layers in zip(texts, near, strict=True):
        if layers:
            drawn = ", ".join(sorted(layers))
            message = f"text {text.where} lies on what is drawn on {drawn}; move the text"
            yield RULE.fault(sheet, message, text.words)


def _heavy(sheet: ReviewedPage) -> Iterator[Ink]:
    for item in sheet.items:
        yield from (ink for ink in item.ink if ink.filled or ink.layer.pen_mm >= MEDIUM)


RULE = PageRule(
    id="drafting.text-on-line",
    title="No text on medium or wider lines",
    check=check,
)
