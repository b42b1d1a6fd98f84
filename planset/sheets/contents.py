"""What stands on a drawn sheet: its words, and the blocks inserted on it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from planset.drawing.primitives import Block, Dimension, Insert, Primitive, Text

if TYPE_CHECKING:
    from planset.sheets.context import SheetDrawing


@dataclass(frozen=True, slots=True)
class SheetContents:
    """What stands on one sheet, its title block apart.

    Attributes:
        sheet: Its id.
        words: All lines of text, one after the other.
        blocks: Names of the blocks inserted on it, in its views and in other blocks.
        views: Numbers of its views.
    """

    sheet: str
    words: str
    blocks: frozenset[str]
    views: tuple[int, ...] = ()

    def says(self, name: str) -> bool:
        """Whether a name stands on the sheet as a word or words, capitals or not."""
        wanted, words = _folded(name), _folded(self.words)
        return wanted in words and _whole(wanted).search(words) is not None


def contents(sheet: str, drawing: SheetDrawing, blocks: Mapping[str, Block]) -> SheetContents:
    """What stands on a sheet.

    Args:
        sheet: Its id.
        drawing: The sheet.
        blocks: The blocks its insertions name, its own among them.
    """
    parts = [*drawing.paper]
    for view in drawing.views:
        parts += [*view.model, *view.annotation]
    inserted: dict[str, None] = {}
    words = list(_words(parts, blocks, inserted))
    views = tuple(view.number for view in drawing.views)
    return SheetContents(sheet, "\n".join(words), frozenset(inserted), views)


@lru_cache(maxsize=512)
def _folded(words: str) -> str:
    """Words without capitals, one space between each two: a name may be broken on its sheet."""
    return " ".join(words.split()).casefold()


@lru_cache(maxsize=512)
def _whole(name: str) -> re.Pattern[str]:
    """A pattern for a name that is no part of another."""
    return re.compile(rf"(?<![\w-]){re.escape(name)}(?![\w-])")


def _words(
    parts: Iterable[Primitive], blocks: Mapping[str, Block], inserted: dict[str, None]
) -> Iterator[str]:
    """Yield each line of text, a block's only once however often it is inserted."""
    for part in parts:
        match part:
            case Text():
                yield part.text
            case Dimension():
                yield part.text
            case Insert():
                yield from (one.value for one in part.attributes if one.text is not None)
                if part.block not in inserted and part.block in blocks:
                    inserted[part.block] = None
                    yield from _words(blocks[part.block].primitives, blocks, inserted)
