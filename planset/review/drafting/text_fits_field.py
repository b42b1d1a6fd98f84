"""What the title block says stays within the box drawn for it."""

from __future__ import annotations

from collections.abc import Iterator

from planset.drawing.primitives import Attribute, Insert
from planset.drawing.text import text_box
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import HAIR, Part
from planset.review.reviewed_page import ReviewedPage


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Compare each field's text with its box."""
    borders = [item.primitive for item in sheet.items if item.part is Part.TITLE_BLOCK]
    if len(borders) != 1:
        message = f"its title block is inserted {len(borders)} times; insert it once"
        yield RULE.fault(sheet, message, sheet.titleblock.name)
    for border in borders:
        if isinstance(border, Insert):
            for attribute in border.attributes:
                yield from _field(sheet, attribute)


def _field(sheet: ReviewedPage, attribute: Attribute) -> Iterator[Finding]:
    field = sheet.titleblock.fields.get(attribute.tag)
    text = attribute.text
    if field is None or text is None or not text.text.strip():
        return
    covered = text_box(text.text, text.at, text.height, text.align)
    if not field.box.contains(covered, HAIR):
        yield RULE.fault(
            sheet,
            f'"{text.text}" is {covered.width:.2f} in wide and leaves the {field.box.width:.2f} in '
            f"box of field {attribute.tag}; shorten it or widen the field",
            attribute.tag,
            text.text,
            measured=covered.width,
            limit=field.box.width,
            unit="in",
        )


RULE = PageRule(
    id="drafting.text-fits-field",
    title="Title block fields fit",
    check=check,
)
