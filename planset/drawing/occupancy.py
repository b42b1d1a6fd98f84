"""Which parts of a sheet are taken: rows of bits, so that asking costs next to nothing."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import cache, reduce
from itertools import pairwise
from operator import or_
from typing import Any

import numpy as np
from numpy.typing import NDArray

from planset.drawing.geometry import Box, Point

CELL = 0.02  # size of a cell [paper in]
_Floats = NDArray[np.floating[Any]]
_HAIR = 1e-7  # a line takes the cells it grazes, however its course is rounded [cells]


@cache
def _ones(most: int) -> tuple[int, ...]:
    """Numbers of one bit and more, all set."""
    return tuple((2 << count) - 1 for count in range(most))


class Occupancy:
    """A grid over an area of a sheet; each cell is free or taken.

    What lies outside the area is neither marked nor found taken.

    Args:
        area: The area covered [paper in].
    """

    def __init__(self, area: Box) -> None:
        self._x0, self._y0 = area.x0, area.y0
        self._columns = max(1, math.ceil(area.width / CELL))
        self._ones = _ones(self._columns)
        self._rows = [0] * max(1, math.ceil(area.height / CELL))
        self._all_rows = range(len(self._rows))

    def mark_box(self, box: Box) -> None:
        """Take all cells a box touches."""
        self.mark_cells(self.cells_of_box(box))

    def mark_path(self, points: Sequence[Point]) -> None:
        """Take all cells a line touches."""
        self.mark_cells(self.cells_of_path(points))

    def mark_cells(self, cells: Iterable[tuple[int, int]]) -> None:
        """Take cells, given per row as the bits of their columns."""
        rows = self._rows
        for row, mask in cells:
            rows[row] |= mask

    def mark_all_of(self, other: Occupancy) -> None:
        """Take what is taken in another grid over the same area."""
        self._rows = [mine | theirs for mine, theirs in zip(self._rows, other._rows, strict=True)]

    def box_is_free(self, box: Box) -> bool:
        """Whether a box touches no taken cell."""
        return not self.taken_between(box.y0, box.y1) & self.columns_between(box.x0, box.x1)

    def any_taken_about(self, a: Point, b: Point) -> bool:
        """Whether any cell is taken in the box around a segment, a quick first question."""
        (x0, y0), (x1, y1) = a, b
        left, right = (x0, x1) if x0 < x1 else (x1, x0)
        foot, top = (y0, y1) if y0 < y1 else (y1, y0)
        hair = _HAIR * CELL
        taken = self.taken_between(foot - hair, top + hair)
        return bool(taken and taken & self.columns_between(left - hair, right + hair))

    def boxes_are_free(
        self, lefts: _Floats, rights: _Floats, feet: _Floats, tops: _Floats
    ) -> NDArray[np.bool_]:
        """What `box_is_free` tells of boxes, by their columns and rows.

        Args:
            lefts: Left edge of each column of boxes, ascending [paper in].
            rights: Right edges.
            feet: Lower edge of each row of boxes, ascending [paper in].
            tops: Upper edges.
        """
        firsts, lasts = (_cells(xs, self._x0, self._columns) for xs in (lefts, rights))
        lows, highs = (_cells(ys, self._y0, len(self._rows)) for ys in (feet, tops))
        low, left = lows[0], firsts[0] // 8 * 8  # a byte has eight columns
        bytes_of_rows = self._bytes(low, highs[-1] + 1)[:, left // 8 : lasts[-1] // 8 + 1]
        taken = _united(bytes_of_rows, lows - low, highs - low)
        by_columns = np.unpackbits(taken.T, axis=0, bitorder="little")
        free: NDArray[np.bool_] = _united(by_columns, firsts - left, lasts - left) == 0
        return free

    def _bytes(self, start: int, stop: int) -> NDArray[np.uint8]:
        """Some of the rows in bytes, the first column in the lowest bit of the first."""
        size = self._columns // 8 + 1
        joined = b"".join([row.to_bytes(size, "little") for row in self._rows[start:stop]])
        return np.frombuffer(joined, np.uint8).reshape(-1, size)

    def path_is_free(self, points: Sequence[Point]) -> bool:
        """Whether a line touches no taken cell."""
        return all(
            self.cells_are_free(self._cells_between(a, b))
            for a, b in pairwise(self._in_cells(points))
        )

    def cells_are_free(self, cells: Iterable[tuple[int, int]]) -> bool:
        """Whether none of these cells is taken, given per row as the bits of their columns."""
        rows = self._rows
        for row, mask in cells:  # noqa: SIM110 - asked so often that a generator costs
            if rows[row] & mask:
                return False
        return True

    def taken_between(self, y0: float, y1: float) -> int:
        """The bits of the columns taken anywhere from one level to another [in]."""
        rows = self._rows_between(y0, y1)
        return reduce(or_, self._rows[rows.start : rows.stop], 0)

    def columns_between(self, x0: float, x1: float) -> int:
        """The bits of the columns from one position to another [in]."""
        return self._mask((x0 - self._x0) / CELL, (x1 - self._x0) / CELL)

    def _mask(self, left: float, right: float) -> int:
        first = max(math.floor(left), 0)
        last = min(math.floor(right), self._columns - 1)
        return self._ones[last - first] << first if last >= first else 0

    def _rows_between(self, y0: float, y1: float) -> range:
        low, high = math.floor((y0 - self._y0) / CELL), math.floor((y1 - self._y0) / CELL)
        return self._all_rows[low if low > 0 else 0 : high + 1 if high >= 0 else 0]

    def cells_of_box(self, box: Box) -> list[tuple[int, int]]:
        """Per row of a box, the bits of its columns."""
        mask = self.columns_between(box.x0, box.x1)
        return [(row, mask) for row in self._rows_between(box.y0, box.y1)]

    def cells_of_path(self, points: Sequence[Point]) -> list[tuple[int, int]]:
        """Per row that a line passes, the bits of the columns it touches there."""
        cells: list[tuple[int, int]] = []
        for a, b in pairwise(self._in_cells(points)):
            cells += self._cells_between(a, b)
        return cells

    def _in_cells(self, points: Sequence[Point]) -> list[Point]:
        """Points in columns and rows of the grid."""
        x0, y0 = self._x0, self._y0
        return [((x - x0) / CELL, (y - y0) / CELL) for x, y in points]

    def _cells_between(self, a: Point, b: Point) -> list[tuple[int, int]]:
        """The cells of a segment, row by row from its lower end [columns and rows]."""
        if a[1] > b[1]:
            a, b = b, a
        (start, foot), (end, top) = a, b
        low, high = math.floor(foot), math.floor(top)
        rows = self._all_rows[low if low > 0 else 0 : high + 1 if high >= 0 else 0]
        left, right = (start, end) if start < end else (end, start)
        if len(rows) > 1 and right - left >= _HAIR and top - foot >= _HAIR:
            return self._cells_of_slope(a, b, rows)
        mask = self._mask(left - _HAIR, right + _HAIR)
        return [(row, mask) for row in rows] if mask else []

    def cells_of_ring(self, corners: Sequence[Point]) -> list[tuple[int, int]]:
        """Per row of a convex polygon, the bits of the columns it covers there."""
        rows: dict[int, int] = {}
        for row, mask in self.cells_of_path((*corners, corners[0])):
            rows[row] = rows.get(row, 0) | mask
        return [(row, self._filled(mask)) for row, mask in rows.items()]

    def _filled(self, mask: int) -> int:
        """All columns from the first that is set to the last."""
        if not mask:
            return 0
        first = (mask & -mask).bit_length() - 1
        return self._ones[mask.bit_length() - 1 - first] << first

    def _cells_of_slope(self, a: Point, b: Point, rows: range) -> list[tuple[int, int]]:
        """The cells of a segment that is neither level nor upright, in these rows."""
        (start, foot), (end, top) = a, b
        per_row, floor = (end - start) / (top - foot), math.floor
        origin = start - foot * per_row + math.copysign(_HAIR, per_row)
        passed = [floor(origin + row * per_row) for row in range(rows.start, rows.stop + 1)]
        if foot > rows.start:
            passed[0] = floor(start)
        if top < rows.stop:
            passed[-1] = floor(end + math.copysign(_HAIR, per_row))
        firsts, lasts = (passed, passed[1:]) if start < end else (passed[1:], passed)
        spans = zip(rows, firsts, lasts, strict=False)
        if min(passed[0], passed[-1]) < 0 or max(passed[0], passed[-1]) >= self._columns:
            return [(row, self._mask(first, last)) for row, first, last in spans]
        ones = self._ones
        return [(row, ones[last - first] << first) for row, first, last in spans]


def _cells(positions: _Floats, origin: float, count: int) -> NDArray[np.int64]:
    """The cells that positions lie in, those outside of the grid in the nearest [in]."""
    cells: NDArray[np.int64] = np.floor((positions - origin) / CELL).astype(np.int64)
    return cells.clip(0, count - 1)


def _united(
    rows: NDArray[np.uint8], firsts: NDArray[np.int64], lasts: NDArray[np.int64]
) -> NDArray[np.uint8]:
    """The bits set anywhere from each first row to its last.

    Rows are put together two by two, then four by four, and so on: two or three of these cover
    what lies between.
    """
    counts = lasts - firsts + 1
    most, size = counts.max(), 1
    while 2 * size <= counts.min():
        rows, size = rows[:-size] | rows[size:], 2 * size
    united = rows[lasts - size + 1]
    for start in range(0, most - size, size):
        united |= rows[np.minimum(firsts + start, lasts - size + 1)]
    return united
