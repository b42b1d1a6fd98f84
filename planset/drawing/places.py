"""Places for a box around an anchor, tried step by step on the grid of what is taken."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from planset.drawing.geometry import Box, Point
from planset.drawing.occupancy import Occupancy
from planset.drawing.steps import STEP, Steps

CLEAR = 0.03  # kept free around a box [in]


class Places:
    """Places for a box at steps around an anchor.

    Args:
        occupancy: What is taken.
        size: The box, somewhere.
        steps: The steps, the best first.
        room: The box stays inside it [paper in].
        anchor: The middle of the box at no steps [paper in].
        clear: Kept free around the box [in].
    """

    def __init__(
        self,
        occupancy: Occupancy,
        size: Box,
        steps: Steps,
        room: Box,
        anchor: Point,
        clear: float = CLEAR,
    ) -> None:
        self._steps, self._clear = steps, clear
        self._occupancy, self._room, self._anchor = occupancy, room, anchor
        self._size, self._half, self._center = size, (size.width / 2, size.height / 2), size.center
        self._columns: dict[int, int | None] = {}
        self._taken: dict[int, int | None] = {}

    def free(self) -> Iterator[Box]:
        """The boxes that are free and in the room, those at the first steps first."""
        known, taken = self._columns, self._taken
        for across, up in self._steps.first:
            columns = known[across] if across in known else self._columns_at(across)
            rows = taken[up] if up in taken else self._taken_at(up)
            if columns is not None and rows is not None and not columns & rows:
                yield self._box(across, up)
        for step in self._steps.after_first(self._all_free):
            yield self._box(*step)

    @property
    def any_free(self) -> bool:
        """Whether any of them is."""
        return bool(self._all_free.any())

    def _columns_at(self, across: int) -> int | None:
        """The columns of the box so many steps across, None where it is not in the room."""
        x, half, clear = self._anchor[0] + across * STEP, self._half[0], self._clear
        left, right = x - half, x + half
        in_room = left >= self._room.x0 and right <= self._room.x1
        between = self._occupancy.columns_between
        self._columns[across] = between(left - clear, right + clear) if in_room else None
        return self._columns[across]

    def _taken_at(self, up: int) -> int | None:
        """What is taken beside the box so many steps up, None where it is not in the room."""
        y, half, clear = self._anchor[1] + up * STEP, self._half[1], self._clear
        foot, top = y - half, y + half
        in_room = foot >= self._room.y0 and top <= self._room.y1
        between = self._occupancy.taken_between
        self._taken[up] = between(foot - clear, top + clear) if in_room else None
        return self._taken[up]

    @cached_property
    def _all_free(self) -> NDArray[np.bool_]:
        """Whether the box at every step is free and in the room, by steps across and up."""
        across, up = self._steps.across, self._steps.up
        x, y = self._anchor[0] + across * STEP, self._anchor[1] + up * STEP
        half_w, half_h = self._half
        left, right, foot, top = x - half_w, x + half_w, y - half_h, y + half_h
        columns = _run((left >= self._room.x0) & (right <= self._room.x1))
        rows = _run((foot >= self._room.y0) & (top <= self._room.y1))
        free = np.zeros((len(x), len(y)), np.bool_)
        if columns and rows:
            clear = self._clear
            free[columns, rows] = self._occupancy.boxes_are_free(
                left[columns] - clear, right[columns] + clear, foot[rows] - clear, top[rows] + clear
            )
        return free

    def _box(self, across: int, up: int) -> Box:
        (x, y), (center_x, center_y) = self._anchor, self._center
        return self._size.moved(x + across * STEP - center_x, y + up * STEP - center_y)


def _run(inside: NDArray[np.bool_]) -> slice | None:
    """Where a run of steps lies in the room, None when none does."""
    (steps,) = inside.nonzero()
    return slice(steps[0], steps[-1] + 1) if len(steps) else None
