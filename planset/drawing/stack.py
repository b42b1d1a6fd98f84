"""Tables one below another, down columns and on to further pages."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import zip_longest

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Primitive
from planset.drawing.table import Table

TableAt = Callable[[Point, float], Table]
"""Lays a table out at an upper left corner, in a width [paper in]."""


@dataclass(frozen=True, slots=True)
class Stack:
    """Placed tables.

    Attributes:
        pages: The primitives of each page used.
        rest: The columns of the last page used that are free, the first one from below the
            last table [paper in].
    """

    pages: tuple[tuple[Primitive, ...], ...]
    rest: tuple[Box, ...]


def stack(tables: Iterable[TableAt], pages: Iterable[tuple[Box, ...]], gap: float) -> Stack:
    """Place tables in order; one that does not fit a column's rest starts the next column.

    Args:
        tables: The tables.
        pages: The columns of each page, as many pages as may be needed [paper in].
        gap: Free between two tables [in].

    Raises:
        StopIteration: The pages were too few.
    """
    source = iter(pages)
    columns = list(next(source))
    drawn: list[list[Primitive]] = [[]]
    top = columns[0].y1
    for lay in tables:
        placed = lay((columns[0].x0, top), columns[0].width)
        while placed.box.y0 < columns[0].y0 - 1e-9 and top < columns[0].y1:
            columns.pop(0)
            if not columns:
                columns = list(next(source))
                drawn.append([])
            top = columns[0].y1
            placed = lay((columns[0].x0, top), columns[0].width)
        drawn[-1] += placed.primitives
        top = placed.box.y0 - gap
    first = columns[0]
    free = Box(first.x0, first.y0, first.x1, max(top, first.y0))
    return Stack(tuple(tuple(page) for page in drawn), (free, *columns[1:]))


def merged(*parts: Iterable[tuple[Primitive, ...]]) -> tuple[tuple[Primitive, ...], ...]:
    """Pages that are drawn in several parts side by side, put together page by page."""
    return tuple(
        tuple(primitive for part in page for primitive in part)
        for page in zip_longest(*parts, fillvalue=())
    )
