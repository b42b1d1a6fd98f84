"""A set as a reviewer takes it up: its pages, and the job they were drawn for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planset.drawing.primitives import Block, Insert, Primitive
from planset.job.load import Inputs
from planset.review.plotted import Item, Part
from planset.review.reviewed_page import ReviewedPage
from planset.sheets.context import base_id


@dataclass(frozen=True, slots=True)
class Submittal:
    """A set under review.

    Attributes:
        sheets: its pages, in order.
        inputs: the job, with the jurisdiction it goes to.
    """

    sheets: tuple[ReviewedPage, ...]
    inputs: Inputs
    _read: dict[tuple[str, bool], str] = field(default_factory=dict, repr=False, compare=False)

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of the sheets, without what runs over from them."""
        return tuple(dict.fromkeys(base_id(sheet.sheet) for sheet in self.sheets))

    def pages(self, sheet: str) -> list[ReviewedPage]:
        """A sheet and what runs over from it."""
        return [one for one in self.sheets if base_id(one.sheet) == sheet]

    def words(self, sheet: str, *, border: bool = False) -> str:
        """All that a sheet and what runs over from it say, in one line.

        Args:
            sheet: Id of the sheet.
            border: Whether to read its title block instead of what stands in it.
        """
        key = (sheet, border)
        if key not in self._read:
            items = (item for page in self.pages(sheet) for item in page.items)
            self._read[key] = " ".join(
                text.words for item in items if _in_border(item) is border for text in item.texts
            )
        return self._read[key]

    def inserted(self, sheet: str, prefix: str) -> int | None:
        """How many things of a kind the views of a sheet show; None where it has no view.

        Args:
            sheet: Id of the sheet.
            prefix: What the names of their blocks begin with; each thing counts once.
        """
        pages = self.pages(sheet)
        if not any(one.page.views for one in pages):
            return None
        found: set[str] = set()
        for one in pages:
            for view in one.page.views:
                _gather(view.model, one.drawing.blocks, prefix, found)
        return len(found)


def _in_border(item: Item) -> bool:
    return item.part is Part.TITLE_BLOCK


def _gather(
    parts: tuple[Primitive, ...], blocks: Mapping[str, Block], prefix: str, found: set[str]
) -> None:
    for part in parts:
        if isinstance(part, Insert):
            if part.block.startswith(prefix):
                found.add(part.identity)
            _gather(blocks[part.block].primitives, blocks, prefix, found)
