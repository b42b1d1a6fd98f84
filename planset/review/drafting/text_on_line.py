"""No text on a medium or wider pen or a fill; on a thin pen only where nothing better was free.

A fill that is a label's background carries text, if the two differ enough in lightness. A revision
cloud goes around what changed whatever stands beside it, and runs over words but the deltas' own.
"""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from planset.drawing.layers import MEDIUM, contrast
from planset.drawing.revision_marks import CLOUD_LAYER, DELTA_LAYER
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import HAIR, Ink, PlottedText
from planset.review.reviewed_page import ReviewedPage

_LEAST_CONTRAST = 4.5  # WCAG 2.1, 1.4.3


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Look for ink of strokes and fills within the rectangle of each text."""
    inks = [ink for item in sheet.items for ink in item.ink]
    texts = list(sheet.texts)
    inner = shapely.buffer([text.shape for text in texts], -HAIR, join_style="mitre")
    widest = max((ink.reach_in for ink in inks), default=0.0)
    tree = shapely.STRtree([ink.shape for ink in inks])
    near: list[set[str]] = [set() for _ in texts]
    for index, hit in tree.query(inner, predicate="dwithin", distance=widest).T:
        ink = inks[hit]
        if _matters(texts[index], ink) and ink.shape.distance(inner[index]) <= ink.reach_in:
            near[index].add(ink.layer.name)
    for text, layers in zip(texts, near, strict=True):
        if layers:
            drawn = ", ".join(sorted(layers))
            message = f"text {text.where} lies on what is drawn on {drawn}; move the text"
            yield RULE.fault(sheet, message, text.words)


def _matters(text: PlottedText, ink: Ink) -> bool:
    """A text that was crowded onto a thin pen may lie there, and on nothing else but a cloud."""
    if ink.layer.name == CLOUD_LAYER:
        return text.layer.name == DELTA_LAYER
    if ink.filled and ink.layer.backs_text:
        return contrast(text.layer, ink.layer) < _LEAST_CONTRAST
    return ink.filled or ink.layer.pen_mm >= MEDIUM or not text.crowded


RULE = PageRule(
    id="drafting.text-on-line",
    title="No text on lines",
    check=check,
)
