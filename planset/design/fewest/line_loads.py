"""Rails whose bending is in the way: the line load that they are counted on, chosen well.

A rail bends under the greatest line load of its attachments, all along. The lower that load, the
farther apart attachments may stand; but small shares load a rail the most, so that a low one asks
for large shares at its ends and where the wind is strongest.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from planset.design.fewest.limits import Limits
from planset.design.fewest.rail_paths import Held
from planset.design.fewest.strip import Strip

_HIGHER, _MOST = 1.25, 4.0  # step and greatest multiple of the line load that is tried
_HALVINGS = 5
_TRIED = 3  # line loads for every number of attachments

Find = Callable[[Limits], Held | None]


def under_line_loads(
    strip: Strip, limits: Limits, find: Find, alone: Held, found_lb_per_in: float
) -> Held | None:
    """The fewest attachments of a rail that bends under one line load, None where none are found.

    Args:
        strip: What the rail carries.
        limits: What it is held against.
        find: The fewest attachments under a cap of the line load, as long as the rail holds.
        alone: The fewest where every span bends under its own attachments' loads: a bound.
        found_lb_per_in: The greatest line load of those [lb/in].
    """

    def at(load: float) -> Held | None:
        return find(replace(limits, line_load_cap=load))

    high, best = found_lb_per_in, at(found_lb_per_in)
    while best is None and high < _MOST * found_lb_per_in:
        high *= _HIGHER
        best = at(high)
    if best is None:
        return None
    low = max(limits.least_line_load, high / _MOST)
    for _ in range(_HALVINGS):
        if len(best.places) == len(alone.places):
            return best
        middle = math.sqrt(low * high)
        way = at(middle)
        if way is None:
            low = middle
        else:
            high, best = middle, min(best, way, key=_size)
    for count in range(len(alone.places), len(best.places)):
        most = _most_load(strip, limits, count, high)
        for load in np.linspace(high, most, _TRIED).tolist() if most >= high else ():
            way = at(load)
            if way is not None and len(way.places) <= count:
                return way
    return best


def _most_load(strip: Strip, limits: Limits, count: int, low: float) -> float:
    """The greatest line load under which so many attachments may do, 0 where it is below low."""
    if limits.least_count(strip, low) > count:
        return 0.0
    high = 2 * low
    while limits.least_count(strip, high) <= count and high < low * 2**_MOST:
        high *= 2
    for _ in range(30):
        middle = (low + high) / 2
        if limits.least_count(strip, middle) > count:
            high = middle
        else:
            low = middle
    return low


def _size(way: Held) -> tuple[int, float]:
    return len(way.places), way.worst
