"""Tables one below another, down columns and on to further pages."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import zip_longest
from typing import TypeVar

from planset.drawing.columns import OpenColumn, OpenColumns
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Primitive
from planset.drawing.table import Breakable, Table

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
        ends: What else is free below the tables of each page used [paper in].
    """

    pages: tuple[tuple[Primitive, ...], ...]
    rest: tuple[Box, ...]
    ends: tuple[tuple[Box, ...], ...] = ()


def stack(
    tables: Iterable[TableAt],
    pages: Iterable[tuple[Box, ...]],
    gap: float,
    *,
    broken: bool = False,
) -> Stack:
    """Place tables in order, each in the first column with room for it, page after page.

    A table taller than a whole column is broken between its rows, its heading repeated; columns
    too short for a row of it are left. One without a spec can't be broken and runs past the foot,
    as does a row taller than any column.

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
    columns = OpenColumns(pages)
    drawn: list[list[Primitive]] = [[]]
    for lay in tables:
        for column, piece in _placed(lay, columns, broken=broken):
            while len(drawn) <= column.page:
                drawn.append([])
            drawn[column.page] += piece.primitives
            column.y = piece.box.y0 - gap
    return Stack(tuple(map(tuple, drawn)), columns.rest(), columns.ends(len(drawn)))


def filled(
    tables: Iterable[TableAt], columns: tuple[Box, ...], gap: float
) -> tuple[tuple[Primitive, ...], tuple[TableAt, ...]]:
    """Place on one page what has room there, each table whole in the first column that holds it.

    Args:
        tables: The tables.
        columns: The columns of the page, all of one width [paper in].
        gap: Free between two tables [in].

    Returns:
        What is drawn, and the tables that have no room.
    """
    opened = OpenColumns([columns]).opened
    drawn: list[Primitive] = []
    rest: list[TableAt] = []
    for lay in tables:
        whole = lay(opened[0].corner, opened[0].box.width)
        column = next((one for one in opened if one.fits(whole.box.height)), None)
        if column is None:
            rest.append(lay)
            continue
        placed = lay(column.corner, column.box.width)
        drawn += placed.primitives
        column.y = placed.box.y0 - gap
    return tuple(drawn), tuple(rest)


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


def _begins(spec: Breakable, room: float) -> bool:
    """Whether a few rows fit a room that is too small for all."""
    first, rest = spec.cut(room)
    fits = first.total_height <= room
    return rest is not None and fits and len(first.rows) >= _FEW_ROWS


def _placed(
    lay: TableAt, columns: OpenColumns, *, broken: bool
) -> Iterator[tuple[OpenColumn, Table]]:
    """The table where it fits; else its pieces, each further one in a column after the last."""
    first, column = 0, columns.opened[0]
    whole = lay(column.corner, column.box.width)
    rest, height = whole.spec, whole.box.height
    if rest is None:
        column = columns.opened[_first(columns, first, height, height)]
        yield column, lay(column.corner, column.box.width)
    while rest is not None:
        first = _column(columns, first, rest, height, broken=broken)
        column = columns.opened[first]
        piece, rest = rest.cut(column.room)
        yield column, piece.at(column.corner)
        if rest is not None:
            first, height = first + 1, rest.total_height


def _column(
    columns: OpenColumns, first: int, spec: Breakable, height: float, *, broken: bool
) -> int:
    """The column a table or what is left of it goes on in, from the column `first` on."""
    left = list(enumerate(columns.opened))[first:]
    for number, column in left:
        if column.fits(height) or (broken and _begins(spec, column.room)):
            return number
    if all(column.whole for _, column in left):  # going on here beats leaving all of it blank
        for number, column in left:
            if _begins(spec, column.room):
                return number
    least, _ = spec.cut(0.0)
    return _first(columns, first, height, least.total_height)


def _first(columns: OpenColumns, first: int, height: float, least: float) -> int:
    """The first column from `first` on with room for all, else the first empty one for a row."""

    def with_room(room: float, *, empty: bool) -> int | None:
        for number, column in enumerate(columns.opened):
            if number >= first and column.fits(room) and (column.whole or not empty):
                return number
        return None

    for room, empty in ((height, False), (least, True)):
        while (found := with_room(room, empty=empty)) is None and columns.next_holds(room):
            columns.open_page()
        if found is not None:
            return found
    while (found := with_room(0.0, empty=True)) is None:
        columns.open_page()
    return found
