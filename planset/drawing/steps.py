"""Steps around an anchor, ranked by how near to it they bring a box."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

STEP = 0.06  # between places tried [in]
FIRST = 400  # so many of the steps are listed: a box has its place among them, as a rule
_HALF = 1e-6  # so near to halves, floating point numbers decide how it is rounded


class Steps:
    """Steps across and up, in some order.

    Attributes:
        across: All steps across.
        up: All steps up.
        first: The first of them in order.

    Args:
        across: All steps across.
        up: All steps up.
        order: Each pair of them by its number, counted up first; the best first.
    """

    def __init__(
        self, across: NDArray[np.int64], up: NDArray[np.int64], order: NDArray[np.int64]
    ) -> None:
        self.across, self.up, self._order = across, up, order
        self.first = list(self._pairs(order[:FIRST]))

    def __len__(self) -> int:
        return len(self._order)

    def after_first(self, chosen: NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
        """The chosen steps in order, those past the first; chosen by steps across and up."""
        order = self._order[FIRST:]
        return self._pairs(order[chosen.ravel()[order]])

    def _pairs(self, numbers: NDArray[np.int64]) -> Iterator[tuple[int, int]]:
        across, up = np.divmod(numbers, len(self.up))
        return zip(self.across[across].tolist(), self.up[up].tolist(), strict=True)


@lru_cache(maxsize=256)
def steps_around(width: float, height: float, reach: float, stride: int) -> Steps:
    """Steps across and up from an anchor, those first that bring a box nearest to it.

    Args:
        width: Width of the box [in].
        height: Height of the box [in].
        reach: How far from the anchor the box may stand [in].
        stride: Every so many steps are taken.
    """
    halves = (width / 2, height / 2)
    columns, rows = (np.arange(int((reach + half) / STEP) // stride + 1) for half in halves)
    beside, over = (
        np.maximum(steps * stride * STEP - half, 0.0)
        for steps, half in zip((columns, rows), halves, strict=True)
    )
    across, up = (np.concatenate((-steps[:0:-1], steps)) for steps in (columns, rows))
    far = _thousandths(beside, over)[np.ix_(np.abs(across), np.abs(up))].ravel()
    all_across, all_up = np.repeat(across, len(up)), np.tile(up, len(across))
    rank, many = far, 2 * (len(across) + len(up))
    for digit in (np.abs(all_across) + np.abs(all_up), all_across, -all_up):
        rank = rank * many + digit  # one number sorts faster than four
    return Steps(across * stride, up * stride, np.argsort(rank))


def _thousandths(beside: NDArray[np.float64], over: NDArray[np.float64]) -> NDArray[np.int64]:
    """Distances so far beside and over an anchor, rounded as `round` does [1/1000 in]."""
    exact = np.hypot(beside[:, None], over[None, :]) * 1000
    rounded: NDArray[np.int64] = np.rint(exact).astype(np.int64)
    halves = np.nonzero(np.abs(exact - np.floor(exact) - 0.5) < _HALF)
    for column, row in zip(*halves, strict=True):
        rounded[column, row] = round(round(math.hypot(beside[column], over[row]), 3) * 1000)
    return rounded
