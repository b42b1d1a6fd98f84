"""Tables as they stand on a page, read back from their rules and words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planset.drawing.geometry import Box, box_around
from planset.drawing.page import Page
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.sheets.note_table import LINE_LAYER

_NEAR = 1e-6
_TITLE_ABOVE = 0.5  # how far over its frame a table's title may stand [in]


@dataclass(frozen=True)
class TableOnPage:
    """One table.

    Attributes:
        title: The words over it.
        rows: Its cells, row by row from the top; lines of one cell joined by a blank.
    """

    title: str
    rows: tuple[tuple[str, ...], ...]


def tables_on(page: Page) -> Iterator[TableOnPage]:
    """Yield the tables of a page that stand beside its views."""
    words = [part for part in page.paper if isinstance(part, Text)]
    for part in page.paper:
        if isinstance(part, Polyline) and part.layer == LINE_LAYER and part.closed:
            frame = box_around(part.points)
            yield TableOnPage(_title(frame, words), _rows(frame, page.paper, words))


def _title(frame: Box, words: list[Text]) -> str:
    over = [
        text
        for text in words
        if abs(text.at[0] - frame.x0) < _NEAR and 0 < text.at[1] - frame.y1 < _TITLE_ABOVE
    ]
    return min(over, key=lambda text: text.at[1]).text if over else ""


def _rows(
    frame: Box, parts: tuple[Primitive, ...], words: list[Text]
) -> tuple[tuple[str, ...], ...]:
    lines = [
        part
        for part in parts
        if isinstance(part, Line) and part.layer == LINE_LAYER and _within(frame, part)
    ]
    levels = [frame.y1, *(line.a[1] for line in lines if _level(line)), frame.y0]
    sides = [frame.x0, *(line.a[0] for line in lines if not _level(line)), frame.x1]
    levels.sort(reverse=True)
    sides.sort()
    return tuple(
        tuple(
            " ".join(t.text for t in words if left < t.at[0] < right and low < t.at[1] < high)
            for left, right in zip(sides, sides[1:], strict=False)
        )
        for high, low in zip(levels, levels[1:], strict=False)
    )


def _level(line: Line) -> bool:
    return abs(line.a[1] - line.b[1]) < _NEAR


def _within(frame: Box, line: Line) -> bool:
    around = frame.grown(_NEAR)
    return all(
        around.x0 <= x <= around.x1 and around.y0 <= y <= around.y1 for x, y in (line.a, line.b)
    )
