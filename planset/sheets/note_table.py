"""Tables in the lettering and on the layers of notes, as on every sheet."""

from __future__ import annotations

from collections.abc import Sequence

from planset.drawing.geometry import Point
from planset.drawing.table import Column, Table, table
from planset.drawing.text import NOTE_HEIGHT

LINE_LAYER = "G-ANNO-TABL"
TEXT_LAYER = "G-ANNO-TEXT"


def note_table(
    title: str, columns: tuple[Column, ...], rows: Sequence[tuple[str, ...]], at: Point
) -> Table:
    """A table with its upper left corner at a point [paper in]."""
    return table(title, columns, rows, at, NOTE_HEIGHT, LINE_LAYER, TEXT_LAYER)
