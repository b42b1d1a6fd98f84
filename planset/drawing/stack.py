"""Tables one below another, down columns and on to further pages."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import zip_longest
from typing import TypeVar

from planset.drawing.columns import ColumnCursor
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Primitive
from planset.drawing.table import Table, TableSpec

_FEW_ROWS = 3

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


def stack(
    tables: Iterable[TableAt],
    pages: Iterable[tuple[Box, ...]],
    gap: float,
    *,
    broken: bool = False,
) -> Stack:
    """Place tables in order; one that does not fit a column's rest starts the next column.

    A table taller than a whole column is broken between its rows, its heading repeated. One
    without a spec can't be broken and runs past the foot, as does a row taller than a column.

    Args:
        tables: The tables.
        pages: The columns of each page, all of one width, as many pages as may be needed
            [paper in].
        gap: Free between two tables [in].
        broken: Whether a table may begin in the rest of a column that can't hold all of it, where
            a few rows have room.

    Raises:
        PagesFullError: The pages were too few.
    """
    cursor = ColumnCursor(pages)
    drawn: list[list[Primitive]] = [[]]
    for lay in tables:
        for piece in _pieces(lay, cursor, broken=broken):
            while len(drawn) <= cursor.page:
                drawn.append([])
            drawn[-1] += piece.primitives
            cursor.y = piece.box.y0 - gap
    return Stack(tuple(tuple(page) for page in drawn), cursor.take_rest_of_page())


def merged(*parts: Iterable[tuple[Primitive, ...]]) -> tuple[tuple[Primitive, ...], ...]:
    """Pages that are drawn in several parts side by side, put together page by page."""
    return tuple(
        tuple(primitive for part in page for primitive in part)
        for page in zip_longest(*parts, fillvalue=())
    )


Pages = TypeVar("Pages", bound=tuple[object, ...])


def fewest_pages(layouts: Iterable[Pages]) -> Pages:
    """The first of some layouts with the fewest pages; none is made after one on a single page.

    Raises:
        ValueError: There is none.
    """
    made: list[Pages] = []
    for pages in layouts:
        made.append(pages)
        if len(pages) == 1:
            break
    return min(made, key=len)


def _begins(spec: TableSpec, room: float) -> bool:
    """Whether a few rows fit a room that is too small for all."""
    first, rest = spec.cut(room)
    fits = first.at((0.0, 0.0)).box.height <= room
    return rest is not None and fits and len(first.rows) >= _FEW_ROWS


def _pieces(lay: TableAt, cursor: ColumnCursor, *, broken: bool) -> Iterator[Table]:
    """The table where it fits; else its pieces, each further one at the top of a column."""
    corner, width = cursor.corner, cursor.box.width
    whole = lay(corner, width)
    begins = broken and whole.spec is not None and _begins(whole.spec, cursor.room)
    fits = not begins and cursor.room_for(whole.box.height)
    if whole.spec is None and not fits:
        cursor.leave_short_columns(whole.box.height)
    if whole.spec is None or fits:
        moved = (cursor.corner, cursor.box.width) != (corner, width)
        yield lay(cursor.corner, cursor.box.width) if moved else whole
        return
    rest: TableSpec | None = whole.spec
    while rest is not None:
        piece, rest = rest.cut(cursor.room)
        yield piece.at(cursor.corner)
        if rest is not None:
            cursor.advance()
