"""Tables in the lettering and on the layers of notes, as on every sheet."""

from __future__ import annotations

from collections.abc import Sequence

from planset.drawing.geometry import Point
from planset.drawing.table import Column, Table, fitted, table
from planset.drawing.text import NOTE_HEIGHT

LINE_LAYER = "G-ANNO-TABL"
TEXT_LAYER = "G-ANNO-TEXT"


def note_table(
    title: str, columns: tuple[Column, ...], rows: Sequence[tuple[str, ...]], at: Point
) -> Table:
    """A table with its upper left corner at a point [paper in]."""
    return table(title, columns, rows, at, NOTE_HEIGHT, LINE_LAYER, TEXT_LAYER)


def fitted_table(
    title: str,
    titles: tuple[str, ...],
    rows: Sequence[tuple[str, ...]],
    at: Point,
    width: float,
    *,
    left: int = 1,
) -> Table:
    """A table of a width, its columns as wide as their words ask for.

    Args:
        title: Words above the table.
        titles: Headings of the columns.
        rows: Cells, one tuple per row.
        at: Upper left corner [paper in].
        width: Width of the table [in].
        left: How many columns, from the first, begin at the left; figures after them are centered.
    """
    named = [Column(name, 0.0, "left" if n < left else "center") for n, name in enumerate(titles)]
    return note_table(title, fitted(named, rows, NOTE_HEIGHT, width), rows, at)
