"""Places for a box around an anchor, tried step by step on the grid of what is taken."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from planset.drawing.geometry import Box, Point
from planset.drawing.occupancy import Occupancy
from planset.drawing.steps import STEP, Steps

CLEAR = 0.03  # kept free around a box [in]
_ONE_BY_ONE = 8  # so many steps are tried by themselves, as most boxes find a place at once


class Places:
    """Places for a box on a grid of steps around an anchor.

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

    def free(self, steps: Steps) -> Iterator[Box]:
        """The boxes at these steps that are free and in the room, those at the first ones first."""
        for step in steps.ranked(0, _ONE_BY_ONE):
            if self.is_free(*step):
                yield self._box(*step)
        if len(steps) > _ONE_BY_ONE:
            for step in steps.ranked_of(self._all_free(steps), _ONE_BY_ONE):
                yield self._box(*step)

    def is_free(self, across: int, up: int) -> bool:
        """Whether the box at a step is free and in the room."""
        x, y = self._anchor[0] + across * STEP, self._anchor[1] + up * STEP
        half_w, half_h = self._half
        box = Box(x - half_w, y - half_h, x + half_w, y + half_h)
        in_room = self._room.contains(box, tolerance=0.0)
        return in_room and self._occupancy.box_is_free(box.grown(self._clear))

    def _all_free(self, steps: Steps) -> NDArray[np.bool_]:
        """What `is_free` tells of every step, by steps across and up."""
        x, y = self._anchor[0] + steps.across * STEP, self._anchor[1] + steps.up * STEP
        half_w, half_h = self._half
        left, right, foot, top = x - half_w, x + half_w, y - half_h, y + half_h
        columns = (left >= self._room.x0) & (right <= self._room.x1)
        rows = (foot >= self._room.y0) & (top <= self._room.y1)
        free = np.zeros((len(x), len(y)), np.bool_)
        if columns.any() and rows.any():
            clear = self._clear
            free[np.ix_(columns, rows)] = self._occupancy.boxes_are_free(
                left[columns] - clear, right[columns] + clear, foot[rows] - clear, top[rows] + clear
            )
        return free

    def _box(self, across: int, up: int) -> Box:
        (x, y), (center_x, center_y) = self._anchor, self._center
        return self._size.moved(x + across * STEP - center_x, y + up * STEP - center_y)
