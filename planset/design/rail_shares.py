"""How the load along a rail is shared by what it stands on."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from planset.design.beam import Beam, Loads, reactions_lb

Number = TypeVar("Number", float, NDArray[np.float64])
"""One value, or many at once."""

SIMPLE, TWO_SPANS, MORE_SPANS = 1.0, 1.25, 1.15
"""Greatest support reaction of a uniformly loaded beam of one, two, and three or more equal spans
over its tributary load, rounded up, unitless; any handbook's table of continuous beams."""

_KNOWN = 4096  # rails that differ in spans or ends
_DIGITS = 6  # of their lengths, so that spans that are alike are the same


def shares(lines: Sequence[float], low: float, high: float) -> list[tuple[float, float]]:
    """Each line's share of the way from low to high: up to halfway to its neighbors.

    A line beyond the ends, as a rail runs past the modules, may be left with none.
    """
    middles = [min(max((a + b) / 2, low), high) for a, b in zip(lines, lines[1:], strict=False)]
    bounds = [low, *middles, high]
    return list(zip(bounds, bounds[1:], strict=False)) if lines else []


def continuity(places: Sequence[float], low: float, high: float) -> list[float]:
    """How much more than its tributary load each support of a rail may take.

    One factor is taken for all supports: 1.25 on two spans, 1.15 from three spans on, what equal
    spans ask for at most (any handbook's table); a simple span has none. It is raised where the
    rail, solved as one beam on these places, lays more on a support, as where a long span follows
    a short one; and at an end where a long cantilever on a simple span governs.

    Args:
        places: The supports along the rail [in].
        low: Where the load begins [in].
        high: Where it ends [in].
    """
    spans = len(places) - 1
    if spans < 1:
        return [1.0] * len(places)
    least = {1: SIMPLE, 2: TWO_SPANS}.get(spans, MORE_SPANS)
    factors = [max(least, factor) for factor in reaction_factors(places, low, high)]
    factors[0] = max(factors[0], end_factor(places[0] - low, places[1] - places[0]))
    factors[-1] = max(factors[-1], end_factor(high - places[-1], places[-1] - places[-2]))
    return factors


def reversals(places: Sequence[float], low: float, high: float) -> list[float]:
    """How much of its tributary load each support takes the other way, 0 for most.

    Where a long span beside a short one levers the rail up, its load pulls at what it should press.
    """
    return [max(-factor, 0.0) for factor in reaction_factors(places, low, high)]


def reaction_factors(places: Sequence[float], low: float, high: float) -> tuple[float, ...]:
    """The reaction at each support of a rail that is one beam, over its tributary load.

    Where the load ends before the outer support it is taken to reach that. A rail on one support
    is no beam and has 1.

    Args:
        places: The supports along the rail [in].
        low: Where the load begins [in].
        high: Where it ends [in].
    """
    if len(places) < 2:
        return (1.0,) * len(places)
    spans = tuple(round(b - a, _DIGITS) for a, b in pairwise(places))
    ends = (max(places[0] - low, 0.0), max(high - places[-1], 0.0))
    return _factors(spans, round(ends[0], _DIGITS), round(ends[1], _DIGITS))


@lru_cache(maxsize=_KNOWN)
def _factors(spans: tuple[float, ...], left: float, right: float) -> tuple[float, ...]:
    reactions = reactions_lb(Beam(spans, left, right), Loads(1.0))
    lengths = [a + b for a, b in pairwise((2 * left, *spans, 2 * right))]
    return tuple(2 * at / length for at, length in zip(reactions, lengths, strict=True))


def end_factor(cantilever: Number, span: Number) -> Number:
    """End reaction w (L/2 + a) + w a^2 / (2 L) of a simple span, over the tributary w (L/2 + a)."""
    a = cantilever * (cantilever > 0)
    return 1.0 + a**2 / (span * (span + 2 * a))
