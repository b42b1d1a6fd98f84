"""Which parts of a sheet are taken: rows of bits, so that asking costs next to nothing."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from functools import reduce
from operator import or_

from planset.drawing.geometry import Box, Point

CELL = 0.02  # size of a cell [paper in]
_HAIR = 1e-9  # a line takes the cells it grazes, however its course is rounded [in]


class Occupancy:
    """A grid over an area of a sheet; each cell is free or taken.

    What lies outside the area is neither marked nor found taken.

    Args:
        area: The area covered [paper in].
    """

    def __init__(self, area: Box) -> None:
        self._x0, self._y0 = area.x0, area.y0
        self._columns = max(1, math.ceil(area.width / CELL))
        self._rows = [0] * max(1, math.ceil(area.height / CELL))

    def mark_box(self, box: Box) -> None:
        """Take all cells a box touches."""
        rows, mask = self._span(box)
        for row in rows:
            self._rows[row] |= mask

    def mark_path(self, points: Sequence[Point]) -> None:
        """Take all cells a line touches."""
        self.mark_cells(self.cells_of_path(points))

    def mark_cells(self, cells: Iterable[tuple[int, int]]) -> None:
        """Take cells, given per row as the bits of their columns."""
        for row, mask in cells:
            self._rows[row] |= mask

    def box_is_free(self, box: Box) -> bool:
        """Whether a box touches no taken cell."""
        rows, mask = self._span(box)
        return not reduce(or_, self._rows[rows.start : rows.stop], 0) & mask

    def asker(self, width: float, height: float) -> Callable[[float, float], bool]:
        """A quick `box_is_free` for boxes of one size, asked by their lower left corners [in]."""
        rows, x0, y0, floor = self._rows, self._x0, self._y0, math.floor

        def is_free(x: float, y: float) -> bool:
            row, top = floor((y - y0) / CELL), floor((y + height - y0) / CELL)
            column, end = floor((x - x0) / CELL), floor((x + width - x0) / CELL)
            taken = reduce(or_, rows[max(row, 0) : max(top + 1, 0)], 0)
            bits = (1 << (end - column + 1)) - 1
            return not (taken >> column if column > 0 else taken << -column) & bits

        return is_free

    def path_is_free(self, points: Sequence[Point]) -> bool:
        """Whether a line touches no taken cell."""
        return not any(self._rows[row] & mask for row, mask in self.cells_of_path(points))

    def _span(self, box: Box) -> tuple[range, int]:
        low = max(math.floor((box.y0 - self._y0) / CELL), 0)
        high = min(math.floor((box.y1 - self._y0) / CELL), len(self._rows) - 1)
        return range(low, max(high + 1, low)), self._mask(box.x0, box.x1)

    def _mask(self, x0: float, x1: float) -> int:
        first = max(math.floor((x0 - self._x0) / CELL), 0)
        last = min(math.floor((x1 - self._x0) / CELL), self._columns - 1)
        return ((1 << (last - first + 1)) - 1) << first if last >= first else 0

    def cells_of_path(self, points: Sequence[Point]) -> Iterable[tuple[int, int]]:
        """Per row that a line passes, the bits of the columns it touches there."""
        for pair in zip(points, points[1:], strict=False):
            (ax, ay), (bx, by) = sorted(pair, key=lambda point: point[1])
            low = max(math.floor((ay - self._y0) / CELL), 0)
            high = min(math.floor((by - self._y0) / CELL), len(self._rows) - 1)
            per_row = CELL * (bx - ax) / (by - ay) if high > low else 0.0
            start = ax
            x = ax + (self._y0 + (low + 1) * CELL - ay) / CELL * per_row  # at the top of the row
            for row in range(low, high + 1):
                end = bx if row == high else x
                first, last = (start, end) if start < end else (end, start)
                yield row, self._mask(first - _HAIR, last + _HAIR)
                start, x = end, x + per_row
