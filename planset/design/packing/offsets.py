"""How many modules a grid holds, as a function of where the grid lies.

Moving a grid by a whole pitch changes nothing, so the region of free positions is folded into
one pitch: its edges are cut at the rows and laid over one another. The modules on a grid are
then the folded layers over one point, and the number changes only where edges cross.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planset.design.packing.positions import Numbers, Positions, Size

Whole = NDArray[np.int64]

_JUST_ABOVE_IN = 1e-9
_SLACK = 1e-9  # pitches by which noise may push an exact contact apart
_MOST_PIECES = 10_000
_CHUNK = 256  # points counted together, neighbors in height


@dataclass(frozen=True, slots=True)
class Folded:
    """The sloped edges of the free positions, cut at the rows and laid into one row pitch.

    Attributes:
        low: Lower end of each piece above its row [in].
        high: Upper end of each piece above its row [in].
        at: Position along the eave at the lower end, from the left of the region [in].
        lean: Inches along the eave per inch up the slope.
        side: 1 where the region lies to the right of the piece, -1 where to its left.
        row: Row it was cut from, 0 at the lowest position.
        pitch: Column and row pitch [in].
        reach_in: Extent of the region along the eave [in].
    """

    low: Numbers
    high: Numbers
    at: Numbers
    lean: Numbers
    side: Numbers
    row: Whole
    pitch: Size
    reach_in: float

    @property
    def rows(self) -> int:
        """Rows the region reaches over."""
        return int(self.row.max()) + 1

    def on(self, piece: Whole, y: Numbers) -> Numbers:
        """Where pieces lie along the eave, each at a height above its row [in]."""
        result: Numbers = self.at[piece] + self.lean[piece] * (y - self.low[piece])
        return result

    def along(self, y: Numbers) -> Numbers:
        """Where every piece, or its line, lies at every height, by height and piece [in]."""
        result: Numbers = self.at + self.lean * (y[:, None] - self.low)
        return result

    def met(self, y: Numbers) -> NDArray[np.bool_]:
        """Which pieces heights y above the row meet, by height and piece."""
        result: NDArray[np.bool_] = (self.low <= y[:, None]) & (y[:, None] < self.high)
        return result

    def count(self, x: Numbers, y: Numbers) -> Whole:
        """Modules on the grids through the points (x, y) from the lower left of the region.

        From the left end of a free stretch to x there are so many whole pitches, from x to its
        right end so many, and both together with x itself are the modules on the stretch.
        """
        order = np.argsort(y, kind="stable")
        counts = np.zeros(len(x), np.int64)
        for start in range(0, len(x), _CHUNK):
            some = order[start : start + _CHUNK]
            counts[some] = self._between(y[some[0]], y[some[-1]])._count(x[some], y[some])
        return counts

    def widest(self, row: int, y: Numbers) -> Numbers:
        """The widest free stretch of a row at heights y above it [in]."""
        here = self._only(self.row == row)
        ends = np.where(here.met(y), here.along(y), np.finfo(np.float64).max)
        ends.sort(axis=1)
        widths = ends[:, 1::2] - ends[:, : ends.shape[1] // 2 * 2 : 2]
        result: Numbers = widths.max(axis=1, initial=0.0)
        return result

    def _between(self, lowest: float, highest: float) -> Folded:
        return self._only((self.low <= highest) & (lowest < self.high))

    def _only(self, these: NDArray[np.bool_]) -> Folded:
        low, high, at = self.low[these], self.high[these], self.at[these]
        lean, side, row = self.lean[these], self.side[these], self.row[these]
        return Folded(low, high, at, lean, side, row, self.pitch, self.reach_in)

    def _count(self, x: Numbers, y: Numbers) -> Whole:
        reach = self.side * (x[:, None] - self.along(y)) / self.pitch[0]
        steps = np.floor(reach + _SLACK) + (self.side > 0)
        result: Whole = (steps * self.met(y)).sum(axis=1).astype(np.int64)
        return result


def fold(positions: Positions, pitch: Size) -> Folded:
    """Cut the edges at the rows, counted from the lowest position, and lay them together."""
    box = positions.box
    pieces = []
    for u0, v0, u1, v1 in (positions.edges - [box.x0, box.y0, box.x0, box.y0]).tolist():
        if v0 == v1:
            continue
        side = 1.0 if v1 < v0 else -1.0
        bottom, top = min(v0, v1), max(v0, v1)
        lean = (u1 - u0) / (v1 - v0)
        for row in range(int(bottom // pitch[1]), int(top // pitch[1]) + 1):
            base = row * pitch[1]
            start, end = max(bottom - base, 0.0), min(top - base, pitch[1])
            if start < end:
                pieces.append((start, end, u0 + lean * (base + start - v0), lean, side, row))
    low, high, at, lean, side, rows = np.array(pieces).T
    return Folded(low, high, at, lean, side, rows.astype(np.int64), pitch, box.width)


def most_on_any_grid(folded: Folded) -> int | None:
    """No grid of this pitch holds more modules than this, wherever it lies.

    None for a region of so many edges that the count would take minutes.

    The grids that hold a given set of modules are an area of the folded region. Its lowest
    point is where an edge begins or ends, on a level edge, or where an edge on the left crosses
    one on the right. Just above each such point, the count at every left edge is taken; no
    area is missed, so the largest of these counts bounds them all.
    """
    counts = [
        folded.count(x, y).max(initial=0) for x, y in (_at_ends(folded), _at_crossings(folded))
    ]
    return int(max(counts))


def left_contacts(folded: Folded, y: Numbers) -> tuple[Numbers, Numbers]:
    """For each height above the row, where a module just touches a free stretch's left end.

    A grid that holds a set of modules can slide left until one of them touches, and holds them
    still: the best grid at a height is among these.

    Returns:
        Places along the eave and heights, from the lower left of the region [in].
    """
    level, piece = np.nonzero(folded.met(y) & (folded.side > 0))
    x = np.round(folded.on(piece, y[level]) % folded.pitch[0], 10)
    order = np.lexsort((x, level))
    x, level = x[order], level[order]
    new = np.ones(len(x), np.bool_)
    new[1:] = (x[1:] != x[:-1]) | (level[1:] != level[:-1])
    return x[new], y[level[new]]


def _at_ends(folded: Folded) -> tuple[Numbers, Numbers]:
    ends = np.concatenate([[0.0], folded.low, folded.high[folded.high < folded.pitch[1]]])
    return left_contacts(folded, np.unique(ends) + _JUST_ABOVE_IN)


def _at_crossings(folded: Folded) -> tuple[Numbers, Numbers]:
    """Where a left edge meets a right edge of the same or another column, by chunks of edges."""
    found = [(np.empty(0), np.empty(0))]
    (lefts,), (rights,) = np.nonzero(folded.side > 0), np.nonzero(folded.side < 0)
    for start in range(0, len(lefts), _CHUNK):
        some = lefts[start : start + _CHUNK]
        overlap = folded.low[some, None] < folded.high[rights]
        overlap &= folded.low[rights] < folded.high[some, None]
        overlap &= folded.lean[rights] != folded.lean[some, None]
        one, other = np.nonzero(overlap)
        found.append(_crossings(folded, some[one], rights[other]))
    x, y = zip(*found, strict=True)
    return np.concatenate(x), np.concatenate(y)


def _crossings(folded: Folded, left: Whole, right: Whole) -> tuple[Numbers, Numbers]:
    """Points just above the crossings of pairs of pieces, where they are whole pitches apart."""
    low = np.maximum(folded.low[left], folded.low[right])
    high = np.minimum(folded.high[left], folded.high[right])
    at_low = folded.on(left, low) - folded.on(right, low)
    at_high = folded.on(left, high) - folded.on(right, high)
    first = np.ceil(np.minimum(at_low, at_high) / folded.pitch[0])
    last = np.floor(np.maximum(at_low, at_high) / folded.pitch[0])
    number = np.maximum(last - first + 1, 0).astype(np.int64)
    which = np.repeat(np.arange(len(left)), number)
    nth = np.arange(len(which)) - np.repeat(np.cumsum(number) - number, number)
    apart = (first[which] + nth) * folded.pitch[0]
    lean = folded.lean[left[which]] - folded.lean[right[which]]
    y = low[which] + (apart - at_low[which]) / lean + _JUST_ABOVE_IN
    return folded.on(left[which], y), y
