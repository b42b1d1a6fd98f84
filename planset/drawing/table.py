"""Tables: rows of words in ruled columns, laid out in paper inches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, SLACK, text_width, wrap

CONTINUED = ", CONT."

_PAD = 0.06
_NOISE = 1e-6
_FOOT = 0.15  # room for descenders, as a part of the capitals' height
_TITLE_RATIO = 1.25  # height of the title's capitals over those of the rows
_AFTER_TITLE = 0.07
_HALVINGS = 30  # of the bisection for widths, far below what is seen


def cell_width(words: str, height: float = NOTE_HEIGHT) -> float:
    """Width of a column in which words take one line [in]."""
    return text_width(words, height) * SLACK + 2 * _PAD + _NOISE


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table.

    Attributes:
        title: Heading.
        width: Width [in].
        align: "left", "center" or "right".
    """

    title: str
    width: float
    align: str = "left"


class Breakable(Protocol):
    """What can be laid out anywhere, and broken between its rows."""

    @property
    def rows(self) -> Sequence[object]:
        """What it lists."""
        ...

    @property
    def total_height(self) -> float:
        """Of all it lists, with what stands above [in]."""
        ...

    def at(self, top_left: Point) -> Table:
        """It with its upper left corner at a point [paper in]."""
        ...

    def cut(self, room: float) -> tuple[Breakable, Breakable | None]:
        """The rows that fit `room` inches, at least one, and what is left; None for nothing."""
        ...


@dataclass(frozen=True, slots=True)
class Table:
    """A placed table.

    Attributes:
        box: What it covers [paper in].
        primitives: Its lines and text.
        spec: What it is made of; None when it can't be broken between rows.
    """

    box: Box
    primitives: tuple[Primitive, ...]
    spec: Breakable | None = None


@dataclass(frozen=True, slots=True)
class TableSpec:
    """A table before it has a place; cells wrap to their column, rows grow with their cells.

    Attributes:
        title: Words above the table, "" for none.
        columns: Columns from the left; the heading row is left out when no column has a title.
        rows: Cells, one tuple per row.
        height: Height of the capitals [in].
        line_layer: Layer of the rules.
        text_layer: Layer of the words.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    height: float
    line_layer: str
    text_layer: str

    @property
    def total_height(self) -> float:
        """Of title, heading and rows [in]."""
        rows = (*self._heading, *self.rows)
        return self._title_height + sum(self._row_height(self._wrapped(row)) for row in rows)

    def at(self, top_left: Point) -> Table:
        """The table with its upper left corner at a point [paper in]."""
        x0, top = top_left
        x1 = x0 + sum(column.width for column in self.columns)
        made: list[Primitive] = []
        y = top - self._title_height
        height = self.height * _TITLE_RATIO
        for n, words in enumerate(self._title_lines):
            baseline = top - height * (1 + n * LINE_PITCH)
            made.append(Text(words, (x0, baseline), height, self.text_layer))
        frame_top = y
        rows = (*self._heading, *self.rows)
        for number, row in enumerate(rows, 1):
            cells = self._wrapped(row)
            made += self._words(cells, (x0, y))
            y -= self._row_height(cells)
            if number < len(rows):
                made.append(Line((x0, y), (x1, y), self.line_layer))
        left = x0
        for column in self.columns[:-1]:
            left += column.width
            made.append(Line((left, frame_top), (left, y), self.line_layer))
        frame = Box(x0, y, x1, frame_top)
        made.append(Polyline(frame.corners, self.line_layer, closed=True))
        return Table(Box(x0, y, x1, top), tuple(made), self)

    def cut(self, room: float) -> tuple[TableSpec, TableSpec | None]:
        """The rows that fit `room` inches, at least one, and what is left under the same heading.

        The second is None when nothing is left.
        """
        left = room - self._title_height + 1e-9
        left -= sum(self._row_height(self._wrapped(row)) for row in self._heading)
        count = 0
        for row in self.rows:
            left -= self._row_height(self._wrapped(row))
            if left < 0:
                break
            count += 1
        count = max(count, 1)
        if count >= len(self.rows):
            return self, None
        title = self.title and self.title.removesuffix(CONTINUED) + CONTINUED
        return (
            replace(self, rows=self.rows[:count]),
            replace(self, title=title, rows=self.rows[count:]),
        )

    @property
    def _title_lines(self) -> list[str]:
        """The title on one line where the table is as wide."""
        height, width = self.height * _TITLE_RATIO, sum(column.width for column in self.columns)
        if text_width(self.title, height) <= width:
            return [self.title] if self.title else []
        return wrap(self.title, height, width)

    @property
    def _title_height(self) -> float:
        lines = len(self._title_lines)
        height = self.height * _TITLE_RATIO * (1 + (lines - 1) * LINE_PITCH)
        return height + _AFTER_TITLE if lines else 0.0

    @property
    def _heading(self) -> tuple[tuple[str, ...], ...]:
        titles = tuple(column.title for column in self.columns)
        return (titles,) if any(titles) else ()

    def _wrapped(self, row: tuple[str, ...]) -> list[list[str]]:
        return [
            wrap(words, self.height, column.width - 2 * _PAD)
            for words, column in zip(row, self.columns, strict=True)
        ]

    def _row_height(self, cells: list[list[str]]) -> float:
        tallest = max(len(lines) for lines in cells)
        return 2 * _PAD + self.height * (1 + _FOOT + (tallest - 1) * LINE_PITCH)

    def _words(self, cells: list[list[str]], top_left: Point) -> list[Primitive]:
        x, y = top_left
        baseline = y - _PAD - self.height
        pitch = self.height * LINE_PITCH
        made: list[Primitive] = []
        for lines, column in zip(cells, self.columns, strict=True):
            at = {
                "left": x + _PAD,
                "center": x + column.width / 2,
                "right": x + column.width - _PAD,
            }[column.align]
            made += [
                Text(line, (at, baseline - n * pitch), self.height, self.text_layer, column.align)
                for n, line in enumerate(lines)
                if line
            ]
            x += column.width
        return made


def fitted(
    columns: Sequence[Column], rows: Sequence[tuple[str, ...]], height: float, width: float
) -> tuple[Column, ...]:
    """The columns with widths that serve their words, together of one width.

    No column is narrower than its longest word, and none wider than its longest line while
    another one wraps. Between these bounds widths go as the square root of the length of all
    words in a column: that makes the sum of their lines least.

    Args:
        columns: Columns from the left, their widths ignored.
        rows: Cells, one tuple per row.
        height: Height of the capitals [in].
        width: Of the table [in].
    """
    cells = list(zip([column.title for column in columns], *rows, strict=True))
    least = [
        _widest([word for cell in column for word in wrap(cell, height, 0.0)], height)
        for column in cells
    ]
    lines = [[line for cell in column for line in cell.split("\n")] for column in cells]
    most = [_widest(column, height) for column in lines]
    words = [sum(text_width(line, height) for line in column) ** 0.5 for column in lines]

    def widths(factor: float) -> list[float]:
        shares = zip(least, words, most, strict=True)
        return [min(max(low, factor * root), high) for low, root, high in shares]

    low, high = 0.0, max(most) / min(root for root in words if root) if any(words) else 0.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if sum(widths(middle)) < width else (low, middle)
    made = widths(low)
    scale = width / sum(made)
    return tuple(
        replace(column, width=one * scale) for column, one in zip(columns, made, strict=True)
    )


def _widest(lines: Sequence[str], height: float) -> float:
    """What a column needs that holds each of the lines unbroken [in]."""
    return max(text_width(line, height) for line in lines) * SLACK + 2 * _PAD


def table(
    title: str,
    columns: tuple[Column, ...],
    rows: Sequence[tuple[str, ...]],
    top_left: Point,
    height: float,
    line_layer: str,
    text_layer: str,
) -> Table:
    """Lay out a table; see `TableSpec` for what it is made of.

    Args:
        title: Words above the table, "" for none.
        columns: Columns from the left.
        rows: Cells, one tuple per row.
        top_left: Upper left corner [paper in].
        height: Height of the capitals [in].
        line_layer: Layer of the rules.
        text_layer: Layer of the words.
    """
    spec = TableSpec(title, columns, tuple(rows), height, line_layer, text_layer)
    return spec.at(top_left)
