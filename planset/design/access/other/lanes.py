"""Straight clear lanes that part the arrays of a roof plane into sections.

A lane runs parallel to an axis of the plane, from one perimeter to the other, or between two lanes
that cross it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from planset.drawing.geometry import Box, united

Axis = Literal["along", "up"]
Interval = tuple[float, float]

_NOISE = 1e-6


@dataclass(frozen=True, slots=True)
class Lane:
    """A strip without modules between two groups of them.

    Attributes:
        axis: Where it runs: "along" the eave, or "up" from it.
        box: The strip on the plane, (u, v) [in].
    """

    axis: Axis
    box: Box

    @property
    def width_in(self) -> float:
        """Clear width between modules [in]."""
        return self.box.height if self.axis == "along" else self.box.width

    @property
    def length_in(self) -> float:
        """Length [in]."""
        return self.box.width if self.axis == "along" else self.box.height


@dataclass(frozen=True, slots=True)
class Parting:
    """Arrays parted by lanes.

    Attributes:
        sections: Box around the modules of each section, (u, v) [in].
        lanes: What parts them.
    """

    sections: tuple[Box, ...]
    lanes: tuple[Lane, ...]


def part(frames: tuple[Box, ...], region: Box, parts: Callable[[Lane], bool]) -> Parting:
    """Part modules into sections, lane by lane.

    Args:
        frames: Modules with their rails, (u, v), at least one [in].
        region: From perimeter to perimeter, (u, v) [in].
        parts: Tells whether a lane parts what lies on its sides.
    """
    up = [gap for gap in gaps(spans(frames, "up")) if parts(_lane("up", gap, region))]
    along = [gap for gap in gaps(spans(frames, "along")) if parts(_lane("along", gap, region))]
    lanes = [_lane("up", gap, region) for gap in up]
    lanes += [_lane("along", gap, region) for gap in along]
    if not lanes:
        return Parting((united(frames),), ())
    sections: list[Box] = []
    for v0, v1 in _between(along):
        for u0, u1 in _between(up):
            cell = Box(u0, v0, u1, v1)
            held = tuple(frame for frame in frames if cell.holds(frame.center))
            if held:
                inner = part(held, cell.shared(region), parts)
                sections += inner.sections
                lanes += inner.lanes
    return Parting(tuple(sections), tuple(lanes))


def spans(boxes: Iterable[Box], axis: Axis) -> list[Interval]:
    """What boxes take of the width across an axis, merged and in order [in]."""
    taken = sorted((b.y0, b.y1) if axis == "along" else (b.x0, b.x1) for b in boxes)
    merged: list[Interval] = []
    for start, end in taken:
        if merged and start <= merged[-1][1] + _NOISE:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged


def gaps(taken: list[Interval]) -> list[Interval]:
    """What lies between spans that are merged and in order [in]."""
    return [(a[1], b[0]) for a, b in pairwise(taken)]


def free_within(whole: Interval, taken: list[Interval]) -> list[Interval]:
    """What spans, merged and in order, leave of an interval [in]."""
    low, high = whole
    clipped = [(max(a, low), min(b, high)) for a, b in taken if b > low and a < high]
    return [(a, b) for a, b in gaps([(low, low), *clipped, (high, high)]) if b > a]


def walkway(lane: Lane, standing: Iterable[Box]) -> Interval:
    """Across a lane, the widest straight way past what stands in it [in]."""
    box = lane.box
    in_it = [item for item in standing if item.overlaps(box)]
    whole = (box.y0, box.y1) if lane.axis == "along" else (box.x0, box.x1)
    ways = free_within(whole, spans(in_it, lane.axis))
    return max(ways, key=lambda way: way[1] - way[0], default=(whole[0], whole[0]))


def walkable_in(lane: Lane, standing: Iterable[Box]) -> float:
    """Width of that way [in]."""
    low, high = walkway(lane, standing)
    return high - low


def _lane(axis: Axis, gap: Interval, region: Box) -> Lane:
    if axis == "along":
        return Lane(axis, Box(region.x0, gap[0], region.x1, gap[1]))
    return Lane(axis, Box(gap[0], region.y0, gap[1], region.y1))


def _between(cuts: list[Interval]) -> list[Interval]:
    ends = [-math.inf, *(end for cut in cuts for end in cut), math.inf]
    return list(zip(ends[::2], ends[1::2], strict=True))
