"""Every page rule on every page of a set, and every rule on the set as a whole."""

from __future__ import annotations

from collections.abc import Iterable

from planset.drawing.extent import BlockBoxes
from planset.drawing.page import DrawingSet
from planset.finding import Finding
from planset.review.registry import PAGE_RULES, SET_RULES
from planset.review.reviewed_page import ReviewedPage, reviewed_page
from planset.review.submittal import Submittal


def reviewed_pages(drawing: DrawingSet) -> tuple[ReviewedPage, ...]:
    """Resolve what is plotted on the pages of a set.

    Raises:
        KeyError: A block or layer is not defined.
        ValueError: The drawing face lacks a character.
    """
    boxes = BlockBoxes(drawing.blocks)
    return tuple(reviewed_page(page, drawing, boxes) for page in drawing.pages)


def review(drawing: DrawingSet) -> tuple[Finding, ...]:
    """Return what the page rules find on the pages of a set; raises what resolving them raises."""
    return review_pages(reviewed_pages(drawing))


def review_pages(sheets: Iterable[ReviewedPage]) -> tuple[Finding, ...]:
    """Return what the page rules find: per page and rule each offence, or that all is in order."""
    return tuple(
        finding for sheet in sheets for rule in PAGE_RULES for finding in rule.judge(sheet)
    )


def review_contents(submittal: Submittal) -> tuple[Finding, ...]:
    """Return what the rules on the set find of its contents."""
    return tuple(finding for rule in SET_RULES for finding in rule.check(submittal))
