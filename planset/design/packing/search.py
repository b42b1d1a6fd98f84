"""The fullest grid whose corner a job can state: whole sixteenths of an inch.

Heights are tried at every sixteenth of one row pitch; at each height the grid is pushed left
until a module touches, which is exact, and then moved right to the next sixteenth. Heights and
contacts that cannot beat what is known are dropped by their count before rounding.
"""

from __future__ import annotations

import math

import numpy as np

from planset.design.packing.grids import (
    SIXTEENTHS,
    Cells,
    Grid,
    taken_cells,
    to_sixteenths,
    writable,
)
from planset.design.packing.offsets import Folded, left_contacts
from planset.design.packing.positions import Numbers
from planset.drawing.geometry import Box

_SLACK = 1e-6  # sixteenths
_MOST_LINES = 1000  # rows or columns over which a pitch may add up its noise
_CHUNK = 4_000_000


def fullest_grid(folded: Folded, box: Box, bound: int | None) -> Grid | None:
    """The fullest grid with a writable corner; of equals the one with the fewest cells left out.

    Then the one nearest the middle of the free region, the lowest, the leftmost.

    Args:
        folded: The free positions, folded into one pitch.
        box: The box around the free positions [in].
        bound: A count no grid exceeds: the search ends when it is reached. Without it, only
            corners in the lowest row pitch are tried.

    Returns:
        None when no module fits at a writable corner.
    """
    best: Grid | None = None
    rows = folded.rows if _off_sixteenths(folded.pitch[1]) and bound is not None else 1
    for row in range(rows):
        missing = (bound or 0) - (best.count if best else 0)
        if row > 0 and missing == 0:
            break
        best = _fuller(folded, box, row, _heights(folded, box, row, missing), best)
    return best


def _off_sixteenths(pitch_in: float) -> bool:
    """Whether going from row to row, or column to column, leaves the sixteenths."""
    scaled = pitch_in * SIXTEENTHS
    return abs(scaled - round(scaled)) > _SLACK / _MOST_LINES


def _heights(folded: Folded, box: Box, row: int, missing: int) -> Numbers:
    """Heights above a row at which the corner can be written and may yet win.

    A stretch as wide as the pitch has a module wherever the grid lies. Of the rows below the
    corner, those with one stay empty, and cost a module each: fewer may than are missing to
    the bound.
    """
    base = box.y0 + row * folded.pitch[1]
    first, last = math.ceil(base * SIXTEENTHS), math.ceil((base + folded.pitch[1]) * SIXTEENTHS)
    above = np.arange(first, last) / SIXTEENTHS - base
    lost = np.zeros(len(above))
    for below in range(row):
        lost += folded.widest(below, above) >= folded.pitch[0]
    return above[lost < missing] if row else above


def _fuller(folded: Folded, box: Box, row: int, above: Numbers, best: Grid | None) -> Grid | None:
    """The fullest grid with its corner at some heights above a row, if it beats the best so far."""
    x, y = left_contacts(folded, above)
    counts = folded.count(x, y)
    for level in range(int(counts.max(initial=0)), 0, -1):
        if best is not None and best.count >= level:
            break
        at_level = counts == level
        found = _best_near(folded, box, row, x[at_level], y[at_level])
        if found is not None and (best is None or found.count > best.count):
            best = found
    return best


def _best_near(folded: Folded, box: Box, row: int, x: Numbers, y: Numbers) -> Grid | None:
    """The best grid a sixteenth or less to the right of the given contacts."""
    columns = int(folded.reach_in // folded.pitch[0]) + 1 if _off_sixteenths(folded.pitch[0]) else 1
    u = box.x0 + x[:, None] + np.arange(columns) * folded.pitch[0]
    rounded = (np.ceil(u * SIXTEENTHS - _SLACK) / SIXTEENTHS - box.x0).ravel()
    heights = np.repeat(y, columns)
    counts = folded.count(rounded, heights)
    best: Grid | None = None
    for level in range(int(counts.max(initial=0)), 0, -1):
        if best is not None and best.count >= level:
            break
        these = counts == level
        found = _tidiest(folded, box, row, rounded[these], heights[these])
        if found is not None and (best is None or found.count > best.count):
            best = found
    return best


def _tidiest(folded: Folded, box: Box, row: int, x: Numbers, y: Numbers) -> Grid | None:
    """The fullest and then the tidiest of some grids, each from its corner up and right."""
    cells = folded.rows * (int(folded.reach_in / folded.pitch[0]) + 3)
    size = max(1, _CHUNK // max(cells, len(folded.low)))
    chunks = [slice(start, start + size) for start in range(0, len(x), size)]
    ranked = [_first_in_order(folded, box, row, x[chunk], y[chunk]) for chunk in chunks]
    found = [entry for entry in ranked if entry is not None]
    return min(found, key=lambda entry: entry[0])[1] if found else None


def _first_in_order(
    folded: Folded, box: Box, row: int, x: Numbers, y: Numbers
) -> tuple[tuple[float, ...], Grid] | None:
    """The first of some grids, with what it is ranked by."""
    cells, base = taken_cells(folded, x, y)
    across, up = folded.pitch
    if _off_sixteenths(across):
        place = base[:, None] + np.arange(cells.shape[2]) * across
        cells &= (place >= x[:, None] - _SLACK)[:, None, :]
    if _off_sixteenths(up):
        cells[:, :row] = False
    bottom, rows = _extent(np.any(cells, axis=2))
    first, columns = _extent(np.any(cells, axis=1))
    u, v = box.x0 + base + first * across, box.y0 + y + bottom * up
    off_middle = (2 * u + (columns - 1) * across - box.x0 - box.x1) ** 2
    off_middle += (2 * v + (rows - 1) * up - box.y0 - box.y1) ** 2
    count = cells.sum(axis=(1, 2))
    ranks = np.array([-count, rows * columns, np.round(off_middle, 6), v, u])
    ranks[:, ~(writable(u) & writable(v)) | (count == 0)] = np.inf
    winner = int(np.lexsort(ranks[::-1])[0])
    if np.isinf(ranks[0, winner]):
        return None
    start = (float(box.x0 + base[winner]), float(box.y0 + y[winner]))
    grid = Grid(start, cells[winner], folded.pitch).cut(cells[winner])
    return tuple(ranks[:, winner].tolist()), grid.at(to_sixteenths(grid.corner))


def _extent(used: Cells) -> tuple[Numbers, Numbers]:
    """The first used line of each grid, and the number of lines from it to the last."""
    first = used.argmax(axis=1)
    last = used.shape[1] - 1 - used[:, ::-1].argmax(axis=1)
    return first, last - first + 1
