"""Which parts of a sheet are taken: rows of bits, so that asking costs next to nothing."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

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
        for row, mask in self._path(points):
            self._rows[row] |= mask

    def box_is_free(self, box: Box) -> bool:
        """Whether a box touches no taken cell."""
        rows, mask = self._span(box)
        return not any(self._rows[row] & mask for row in rows)

    def path_is_free(self, points: Sequence[Point]) -> bool:
        """Whether a line touches no taken cell."""
        return not any(self._rows[row] & mask for row, mask in self._path(points))

    def _span(self, box: Box) -> tuple[range, int]:
        low = max(math.floor((box.y0 - self._y0) / CELL), 0)
        high = min(math.floor((box.y1 - self._y0) / CELL), len(self._rows) - 1)
        return range(low, high + 1), self._mask(box.x0, box.x1)

    def _mask(self, x0: float, x1: float) -> int:
        first = max(math.floor((x0 - self._x0) / CELL), 0)
        last = min(math.floor((x1 - self._x0) / CELL), self._columns - 1)
        return ((1 << (last - first + 1)) - 1) << first if last >= first else 0

    def _path(self, points: Sequence[Point]) -> Iterable[tuple[int, int]]:
        """Per row that a line passes, the cells it touches there."""
        for pair in zip(points, points[1:], strict=False):
            (ax, ay), (bx, by) = sorted(pair, key=lambda point: point[1])
            low = max(math.floor((ay - self._y0) / CELL), 0)
            high = min(math.floor((by - self._y0) / CELL), len(self._rows) - 1)
            for row in range(low, high + 1):
                foot = self._y0 + row * CELL
                start = _x_at(max(foot, ay), (ax, ay), (bx, by)) if by > ay else ax
                end = _x_at(min(foot + CELL, by), (ax, ay), (bx, by)) if by > ay else bx
                yield row, self._mask(min(start, end) - _HAIR, max(start, end) + _HAIR)


def _x_at(y: float, a: Point, b: Point) -> float:
    """Where a line that rises from a to b is at a height; exact at its ends."""
    share = (y - a[1]) / (b[1] - a[1])
    return a[0] * (1 - share) + b[0] * share
