"""A page with all that is plotted on it, resolved once for every rule."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planset.drawing.extent import BlockBoxes
from planset.drawing.page import DrawingSet, Page, TitleBlock
from planset.review.plotted import Item, PlottedLink, PlottedText
from planset.review.plotting import plotted_items


@dataclass(frozen=True, slots=True)
class ReviewedPage:
    """A page as the rules see it.

    Attributes:
        page: the page.
        drawing: the set it belongs to.
        items: what is plotted, view by view, then the paper.
    """

    page: Page
    drawing: DrawingSet
    items: tuple[Item, ...]

    @property
    def sheet(self) -> str:
        """Sheet id."""
        return self.page.sheet

    @property
    def titleblock(self) -> TitleBlock:
        """The page's title block."""
        return self.drawing.titleblocks[self.page.titleblock]

    @property
    def texts(self) -> Iterator[PlottedText]:
        """Every text on the page."""
        for item in self.items:
            yield from item.texts

    @property
    def links(self) -> Iterator[PlottedLink]:
        """Every link on the page."""
        for item in self.items:
            yield from item.links


def reviewed_page(page: Page, drawing: DrawingSet, boxes: BlockBoxes | None = None) -> ReviewedPage:
    """Resolve what is plotted on a page of a set.

    Args:
        page: The page.
        drawing: The set.
        boxes: The boxes around its blocks, where several pages need them.

    Raises:
        KeyError: A block or layer is not defined.
        ValueError: The drawing face lacks a character.
    """
    boxes = BlockBoxes(drawing.blocks) if boxes is None else boxes
    return ReviewedPage(page, drawing, plotted_items(page, drawing.blocks, boxes))
