"""Tables: rows of words in ruled columns, laid out in paper inches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.drawing.text import LINE_PITCH, wrap

_PAD = 0.06


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


@dataclass(frozen=True, slots=True)
class Table:
    """A placed table.

    Attributes:
        box: What it covers [paper in].
        primitives: Its lines and text.
    """

    box: Box
    primitives: tuple[Primitive, ...]


def table(
    title: str,
    columns: tuple[Column, ...],
    rows: Sequence[tuple[str, ...]],
    top_left: Point,
    height: float,
    line_layer: str,
    text_layer: str,
) -> Table:
    """Lay out a table; cells wrap to their column, rows grow with their cells.

    Args:
        title: Words above the table, "" for none.
        columns: Columns from the left; the heading row is left out when no column has a title.
        rows: Cells, one tuple per row.
        top_left: Upper left corner [paper in].
        height: Height of the capitals [in].
        line_layer: Layer of the rules.
        text_layer: Layer of the words.
    """
    x0, top = top_left
    width = sum(column.width for column in columns)
    made: list[Primitive] = []
    y = top
    if title:
        made.append(Text(title, (x0, y - height * 1.25), height * 1.25, text_layer))
        y -= height * 1.25 + 0.07
    ruled_top = y
    body: list[tuple[str, ...]] = list(rows)
    if any(column.title for column in columns):
        body.insert(0, tuple(column.title for column in columns))
    rules = [y]
    for row in body:
        y = _row(made, columns, row, (x0, y), height, text_layer)
        rules.append(y)
    made += [Line((x0, rule), (x0 + width, rule), line_layer) for rule in rules[1:-1]]
    left = x0
    for column in columns[:-1]:
        left += column.width
        made.append(Line((left, ruled_top), (left, y), line_layer))
    frame = Box(x0, y, x0 + width, ruled_top)
    made.append(Polyline(frame.corners, line_layer, closed=True))
    return Table(Box(x0, y, x0 + width, top), tuple(made))


def _row(
    made: list[Primitive],
    columns: tuple[Column, ...],
    row: tuple[str, ...],
    top_left: Point,
    height: float,
    layer: str,
) -> float:
    """Add one row's words; the y of its lower rule is returned [in]."""
    x, y = top_left
    pitch = height * LINE_PITCH
    cells = [
        wrap(words, height, column.width - 2 * _PAD)
        for words, column in zip(row, columns, strict=True)
    ]
    for lines, column in zip(cells, columns, strict=True):
        at = {"left": x + _PAD, "center": x + column.width / 2, "right": x + column.width - _PAD}
        made += [
            Text(
                line,
                (at[column.align], y - _PAD - height - n * pitch),
                height,
                layer,
                column.align,
            )
            for n, line in enumerate(lines)
            if line
        ]
        x += column.width
    tallest = max(len(lines) for lines in cells)
    return y - 2 * _PAD - height - (tallest - 1) * pitch - height * 0.15
