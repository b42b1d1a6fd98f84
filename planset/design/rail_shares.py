"""How the load along a rail is shared by what it stands on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Number = TypeVar("Number", float, NDArray[np.float64])
"""One value, or many at once."""

SIMPLE, TWO_SPANS, MORE_SPANS = 1.0, 1.25, 1.15
"""Greatest support reaction of a uniformly loaded beam of one, two, and three or more spans over
its tributary load, unitless; any handbook's table of continuous beams."""


def shares(lines: Sequence[float], low: float, high: float) -> list[tuple[float, float]]:
    """Each line's share of the way from low to high: up to halfway to its neighbors.

    A line beyond the ends, as a rail runs past the modules, may be left with none.
    """
    middles = [min(max((a + b) / 2, low), high) for a, b in zip(lines, lines[1:], strict=False)]
    bounds = [low, *middles, high]
    return list(zip(bounds, bounds[1:], strict=False)) if lines else []


def continuity(places: Sequence[float], low: float, high: float) -> list[float]:
    """How much more than its tributary load each support of a rail may take.

    Reactions of uniformly loaded continuous beams (any handbook table): 1.25 wL at the middle
    of two spans, at most 1.15 wL from three spans on; a simple span has none. One factor is
    taken for all supports, raised at an end where a long cantilever governs.

    Args:
        places: The supports along the rail [in].
        low: Where the load begins [in].
        high: Where it ends [in].
    """
    spans = len(places) - 1
    if spans < 1:
        return [1.0] * len(places)
    factor = {1: SIMPLE, 2: TWO_SPANS}.get(spans, MORE_SPANS)
    factors = [factor] * len(places)
    factors[0] = max(factor, end_factor(places[0] - low, places[1] - places[0]))
    factors[-1] = max(factor, end_factor(high - places[-1], places[-1] - places[-2]))
    return factors


def end_factor(cantilever: Number, span: Number) -> Number:
    """End reaction w (L/2 + a) + w a^2 / (2 L) of a simple span, over the tributary w (L/2 + a)."""
    a = cantilever * (cantilever > 0)
    return 1.0 + a**2 / (span * (span + 2 * a))
