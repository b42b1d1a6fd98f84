"""Grids of modules: which cells are taken, how tidy they are, and how far they can slide."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planset.design.packing.offsets import Folded
from planset.design.packing.positions import TOUCH_IN, Numbers, Positions, Size
from planset.drawing.geometry import Point

Cells = NDArray[np.bool_]

SIXTEENTHS = 16
"""A corner is stated in whole sixteenths of an inch, the finest a tape shows."""

_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Grid:
    """Modules in rows and columns, some cells left out.

    Attributes:
        corner: Lower left corner of the first row's first cell (u, v) [in].
        cells: Taken cells, by row from the lowest and column from the left; the outer rows and
            columns have some.
        pitch: Column and row pitch [in].
    """

    corner: Point
    cells: Cells
    pitch: Size

    @property
    def count(self) -> int:
        """Modules on the grid."""
        return int(self.cells.sum())

    @property
    def turned(self) -> Grid:
        """The same grid with u and v exchanged."""
        return Grid(self.corner[::-1], self.cells.T, self.pitch[::-1])

    def cut(self, keep: Cells) -> Grid:
        """The grid with only the cells to keep, without empty outer rows and columns."""
        rows, columns = np.flatnonzero(keep.any(axis=1)), np.flatnonzero(keep.any(axis=0))
        u = self.corner[0] + columns[0] * self.pitch[0]
        v = self.corner[1] + rows[0] * self.pitch[1]
        cells = keep[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
        return Grid((u, v), cells, self.pitch)

    def at(self, corner: Point) -> Grid:
        """The grid moved to another corner."""
        return Grid(corner, self.cells, self.pitch)


def writable(length_in: Numbers | float) -> NDArray[np.bool_]:
    """Whether lengths are whole sixteenths of an inch."""
    scaled = np.asarray(length_in) * SIXTEENTHS
    result: NDArray[np.bool_] = np.abs(scaled - np.round(scaled)) < TOUCH_IN
    return result


def to_sixteenths(point: Point) -> Point:
    """A point that is writable but for noise, without the noise."""
    return (round(point[0] * SIXTEENTHS) / SIXTEENTHS, round(point[1] * SIXTEENTHS) / SIXTEENTHS)


def taken_cells(folded: Folded, x: Numbers, y: Numbers) -> tuple[NDArray[np.bool_], Numbers]:
    """The free cells of each of several grids.

    Args:
        folded: The free positions.
        x: A point of each grid along the eave, from the left of the region [in].
        y: The same up the slope, within the first row pitch [in].

    Returns:
        Taken cells by grid, row and column, and where each grid's first column lies, from the
        left of the region [in].
    """
    across = folded.pitch[0]
    base = x % across - across  # a column early: noise may have pushed a contact just below 0
    columns = int(folded.reach_in // across) + 3
    grid, piece = np.nonzero(folded.met(y))
    steps = (folded.on(piece, y[grid]) - base[grid]) / across
    begins = folded.side[piece] > 0
    column = np.where(begins, np.ceil(steps - _SLACK), np.floor(steps + _SLACK) + 1)
    changes = np.zeros((len(x), folded.rows, columns + 1), np.int8)
    place = (grid, folded.row[piece], np.clip(column.astype(np.int64), 0, columns))
    np.add.at(changes, place, np.where(begins, 1, -1))
    return changes.cumsum(axis=2, dtype=np.int8)[:, :, :-1] > 0, base


def room(positions: Positions, grid: Grid) -> tuple[float, float]:
    """How far the grid can slide left and right along its rows and keep its modules [in]."""
    left = right = np.inf
    columns = np.arange(grid.cells.shape[1])
    for row, taken in enumerate(grid.cells):
        free = positions.intervals(grid.corner[1] + row * grid.pitch[1])
        u = grid.corner[0] + columns[taken] * grid.pitch[0]
        within = np.searchsorted(free[:, 0], u, side="right") - 1
        if (within < 0).any():  # a module that just touches, on the last of the tolerance
            return 0.0, 0.0
        left = np.min(u - free[within, 0], initial=left)
        right = np.min(free[within, 1] - u, initial=right)
    return max(float(left), 0.0), max(float(right), 0.0)


def slid(positions: Positions, grid: Grid, share: float) -> Grid:
    """The grid slid along its rows, to a whole sixteenth of an inch.

    Args:
        positions: The free positions.
        grid: A grid whose corner is a whole sixteenth.
        share: Where in its room the grid is put: 0 is leftmost, 1/2 the middle, 1 rightmost.
    """
    left, right = room(positions, grid)
    u = grid.corner[0]
    least = np.ceil((u - left) * SIXTEENTHS)
    most = np.floor((u + right) * SIXTEENTHS)
    wanted = np.round((u - left + share * (left + right)) * SIXTEENTHS)
    return grid.at((float(np.clip(wanted, least, most)) / SIXTEENTHS, grid.corner[1]))
