"""Every page rule on every page of a set."""

from __future__ import annotations

from planset.drawing.page import DrawingSet
from planset.finding import Finding
from planset.review.registry import PAGE_RULES
from planset.review.reviewed_page import reviewed_page


def review(drawing: DrawingSet) -> tuple[Finding, ...]:
    """Return what the page rules find: per page and rule each offence, or that all is in order.

    Raises:
        KeyError: A block or layer is not defined.
        ValueError: The drawing face lacks a character.
    """
    sheets = [reviewed_page(page, drawing) for page in drawing.pages]
    return tuple(
        finding for sheet in sheets for rule in PAGE_RULES for finding in rule.judge(sheet)
    )
