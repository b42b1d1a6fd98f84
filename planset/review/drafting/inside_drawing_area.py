"""Everything a sheet draws keeps to the drawing area, and what a view says to the view's frame."""

from __future__ import annotations

from collections.abc import Iterator

from planset.drawing.geometry import Box
from planset.drawing.primitives import Insert, Link
from planset.drawing.revision_marks import DELTA_LAYER
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import HAIR, Item, Part, place
from planset.review.reviewed_page import ReviewedPage


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Compare frames and paper with the drawing area, annotation and words with their frame."""
    area = sheet.titleblock.drawing_area
    for view in sheet.page.views:
        if not area.contains(view.frame, HAIR):
            yield _outside(
                sheet, f"the frame of view {view.number}", view.title, view.frame, "drawing area"
            )
    for item in sheet.items:
        if _is_on_field(item, sheet):
            continue
        if item.part is Part.PAPER and item.box and not area.contains(item.box, HAIR):
            yield _outside(sheet, item.name, item.name, item.box, "drawing area")
        elif item.view:
            frame = f"frame of view {item.view.number}"
            for name, box in _uncut(item):
                if not item.view.frame.contains(box, HAIR):
                    yield _outside(sheet, name, name, box, frame)


def _is_on_field(item: Item, sheet: ReviewedPage) -> bool:
    """Whether an item is a link or a delta on a field of the title block, as on the sheet id."""
    fields, part = sheet.titleblock.fields.values(), item.primitive
    is_delta = isinstance(part, Insert) and part.layer == DELTA_LAYER
    return (isinstance(part, Link) or is_delta) and any(
        item.box is not None and field.box.contains(item.box, HAIR) for field in fields
    )


def _uncut(item: Item) -> Iterator[tuple[str, Box]]:
    """What the frame of a view may not cut: annotation, and the words in the model."""
    if item.part is Part.ANNOTATION and item.box:
        yield item.name, item.box
    elif item.part is Part.MODEL:
        for text in item.texts:
            yield f'"{text.words}"', text.box


def _outside(sheet: ReviewedPage, name: str, what: str, box: Box, limit: str) -> Finding:
    span = f"{place((box.x0, box.y0))} to {place((box.x1, box.y1))}"
    message = f"{name}, from {span}, leaves the {limit}; move it inside"
    return RULE.fault(sheet, message, what)


RULE = PageRule(
    id="drafting.inside-drawing-area",
    title="Inside drawing area and frames",
    check=check,
)
