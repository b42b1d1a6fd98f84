"""Places for a box around an anchor, tried step by step on the grid of what is taken."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from itertools import groupby
from operator import itemgetter

from planset.drawing.geometry import Box, Point
from planset.drawing.occupancy import Occupancy

CLEAR = 0.03  # kept free around a box [in]
STEP = 0.06  # between places tried [in]
_EVERY_BIT = -1  # as a number that has them all set


class _Known(dict[int, int]):
    """What was worked out for a number of steps before; a `cache` that costs less to set up."""

    def __init__(self, work_out: Callable[[int], int]) -> None:
        super().__init__()
        self._work_out = work_out

    def __missing__(self, steps: int) -> int:
        found = self[steps] = self._work_out(steps)
        return found


class Places:
    """Places for a box on a grid of steps around an anchor.

    What is taken in the rows of a step is put together once for all columns.

    Args:
        occupancy: What is taken.
        size: The box, somewhere.
        room: The box stays inside it [paper in].
        anchor: The middle of the box at no steps [paper in].
        clear: Kept free around the box [in].
    """

    def __init__(
        self, occupancy: Occupancy, size: Box, room: Box, anchor: Point, clear: float = CLEAR
    ) -> None:
        self._clear = clear
        self._occupancy, self._room, self._anchor = occupancy, room, anchor
        self._size, self._half, self._center = size, (size.width / 2, size.height / 2), size.center

    def free(self, steps: Iterable[tuple[int, int]]) -> Iterator[Box]:
        """The boxes at these steps, across and up, that are free and in the room."""
        columns, taken = _Known(self._columns), _Known(self._taken)
        (x, y), (center_x, center_y), moved = self._anchor, self._center, self._size.moved
        for across, up in steps:
            wanted = columns[across]
            if wanted and not wanted & taken[up]:
                yield moved(x + across * STEP - center_x, y + up * STEP - center_y)

    def _columns(self, across: int) -> int:
        """The columns a box takes, none when it leaves the room."""
        x = self._anchor[0] + across * STEP
        left, right = x - self._half[0], x + self._half[0]
        if left < self._room.x0 or right > self._room.x1:
            return 0
        return self._occupancy.columns_between(left - self._clear, right + self._clear)

    def _taken(self, up: int) -> int:
        """The columns taken in the rows of a box, all when it leaves the room."""
        y = self._anchor[1] + up * STEP
        foot, top = y - self._half[1], y + self._half[1]
        if foot < self._room.y0 or top > self._room.y1:
            return _EVERY_BIT
        return self._occupancy.taken_between(foot - self._clear, top + self._clear)


@lru_cache(maxsize=64)
def steps_around(
    width: float, height: float, reach: float, stride: int
) -> tuple[tuple[int, int], ...]:
    """Steps across and up from an anchor, those first that bring a box nearest to it.

    Args:
        width: Width of the box [in].
        height: Height of the box [in].
        reach: How far from the anchor the box may stand [in].
        stride: Every so many steps are taken.
    """
    half_w, half_h = width / 2, height / 2
    columns, rows = (int((reach + half) / STEP) // stride for half in (half_w, half_h))
    above = [(up, max(up * STEP - half_h, 0.0)) for up in range(0, rows * stride + 1, stride)]
    ranked: list[tuple[float, int, int, int]] = []  # a quarter, which the others mirror
    for across in range(0, columns * stride + 1, stride):
        beside = max(across * STEP - half_w, 0.0)
        ranked += [
            (round(math.hypot(beside, over), 3), across + up, across, up) for up, over in above
        ]
    ranked.sort()
    made: list[tuple[int, int]] = []
    for _, alike in groupby(ranked, key=itemgetter(0, 1)):
        left: list[tuple[int, int]] = []
        right: list[tuple[int, int]] = []
        for _, _, across, up in alike:
            ways = ((across, up), (across, -up)) if up else ((across, 0),)
            right += ways
            if across:
                left[:0] = [(-across, y) for _, y in ways]
        made += left + right
    return tuple(made)
