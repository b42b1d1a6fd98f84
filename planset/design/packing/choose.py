"""Which modules to keep when fewer are wanted than fit.

A drafter keeps a compact block of full rows near the ridge: least shaded, and the eave stays
open for ladders (common practice, no source). So, among the boxes of cells that hold enough:
fewest cells that are no place for a module, then the shortest way around, then the fewest
rows, then the highest, then the nearest to the middle, then the leftmost. What is too many
leaves the lowest row, from its ends inward.
"""

from __future__ import annotations

import numpy as np

from planset.design.packing.grids import Cells, Grid
from planset.design.packing.offsets import Whole


def tidy_part(grid: Grid, most: int) -> Grid:
    """The grid with only the given number of modules, at least 1 and fewer than it has."""
    bottom, top, left, right = _block(grid, most)
    keep = np.zeros_like(grid.cells)
    keep[bottom : top + 1, left : right + 1] = grid.cells[bottom : top + 1, left : right + 1]
    rows, columns = np.nonzero(keep)
    off_middle = np.abs(2 * columns - left - right)
    order = np.lexsort((-columns, -off_middle, rows))
    surplus = order[: len(rows) - most]
    keep[rows[surplus], columns[surplus]] = False
    return grid.cut(keep)


def _block(grid: Grid, most: int) -> tuple[int, int, int, int]:
    """Bottom, top, left and right of the box of cells to keep the modules in."""
    below = _summed(grid.cells)
    rows = grid.cells.shape[0]
    ranked = [_best_of_height(grid, below, most, height) for height in range(1, rows + 1)]
    *_, bottom, top, left, right = min(rank for rank in ranked if rank is not None)
    return int(bottom), int(top), int(left), int(right)


def _best_of_height(grid: Grid, below: Whole, most: int, height: int) -> tuple[float, ...] | None:
    """The best box of so many rows: what it is ranked by, then its bottom, top and sides."""
    rows, columns = grid.cells.shape
    bottom = np.arange(rows - height + 1)
    left, right = np.triu_indices(columns, k=-(-most // height) - 1)
    held = _within(below, bottom, bottom + height - 1, left, right)
    lowest = _within(below, bottom, bottom, left, right)
    line, across = np.nonzero((held >= most) & (held - most < lowest))
    if len(line) == 0:
        return None
    left, right, bottom, held = left[across], right[across], bottom[line], held[line, across]
    width = right - left + 1
    around = np.round(height * grid.pitch[1] + width * grid.pitch[0], 6)
    off_middle = np.abs(left + right - columns + 1)
    ranks = np.array([height * width - held, around, -(bottom + height), off_middle, left])
    winner = int(np.lexsort(ranks[::-1])[0])
    holes, length, *others = ranks[:, winner].tolist()
    sides = (bottom[winner], bottom[winner] + height - 1, left[winner], right[winner])
    return (holes, length, height, *others, *sides)


def _summed(cells: Cells) -> Whole:
    """Taken cells below and to the left of each corner of the cells."""
    result: Whole = np.pad(cells.astype(np.int64).cumsum(0).cumsum(1), ((1, 0), (1, 0)))
    return result


def _within(below: Whole, bottom: Whole, top: Whole, left: Whole, right: Whole) -> Whole:
    """Taken cells of boxes, by pair of bottom and top and pair of left and right."""
    upper, lower = below[top + 1], below[bottom]
    result: Whole = (upper - lower)[:, right + 1] - (upper - lower)[:, left]
    return result
