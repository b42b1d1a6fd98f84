"""The fewest attachments under rails up the slope: which lines carry rails, and where those stand.

What a rail carries reaches halfway to its neighbors, so that its attachments follow from three
lines in a row. The lines are a path from the left end of the array to its right one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import product, takewhile

import numpy as np

from planset.design.fewest.rail_paths import Held
from planset.design.fewest.rail_search import RailSearch
from planset.design.fewest.strip import Marks, Strip, Touch
from planset.design.fewest.up_edges import EdgeRules
from planset.design.layout import PlacedArray
from planset.design.rails_up import UpRun, blocks_of, runs_over
from planset.design.support_lines import SupportLine
from planset.design.tile_courses import Laps
from planset.drawing.geometry import Box

_FROM_END_IN = 1.0  # an attachment from the end of its rail (common practice, no source)
_IN_LAP_IN = 0.5  # from place to place within a lap
_PER_IN = 16  # what a tape reads

Three = tuple[SupportLine | None, SupportLine, SupportLine | None]
Cost = tuple[int, float]


@dataclass(frozen=True, slots=True)
class UpRails:
    """Rails of an array and how each is held, in step."""

    runs: tuple[UpRun, ...]
    ways: tuple[Held, ...]


@dataclass(slots=True)
class UpSearch:
    """Finds the rails up the slope of one array.

    Attributes:
        array: The array.
        search: What finds the attachments of one rail.
        marks: What the bits of strips stand for.
        rules: Which lines may follow each other.
        laps: Where hooks may leave the tile, None with other attachments.
        pins: By number of a line the heights that the drafter set there [in].
    """

    array: PlacedArray
    search: RailSearch
    marks: Marks
    rules: EdgeRules
    laps: Laps | None
    pins: dict[int, tuple[float, ...]]
    _runs: dict[int, list[UpRun]] = field(default_factory=dict)
    _touches: dict[tuple[float, ...], tuple[Touch, ...]] = field(default_factory=dict)
    _blocks: list[tuple[float, float, float, float]] = field(default_factory=list)

    def found(self, lines: Sequence[SupportLine], *, held: bool = True) -> UpRails | None:
        """The rails on the fewest attachments, None where no choice of lines holds.

        Args:
            lines: Lines that may carry a rail, from the left.
            held: Whether to look at the rails too, not at the lines alone.
        """
        self._blocks = blocks_of(self.array)
        self._runs = {line.number: runs_over(self.array, line) for line in lines}
        threes = list(self._threes(lines))
        if held:
            self._touch(threes)
        path = self._path(threes, held=held)
        if path is None:
            return None
        beside = zip((None, *path), path, (*path[1:], None), strict=False)
        pairs = [pair for three in beside for pair in (self.ways(three) or ())] if held else []
        return UpRails(
            tuple(run for run, _ in pairs) if held else self._all_runs(path),
            tuple(way for _, way in pairs),
        )

    def ways(self, three: Three) -> list[tuple[UpRun, Held]] | None:
        """How every rail over a line is held between its neighbors, None where one is not."""
        found = []
        for run in self._runs[three[1].number]:
            way = self._way(run, self.strip(run, three))
            if way is None:
                return None
            found.append((run, way))
        return found

    def strip(self, run: UpRun, three: Three) -> Strip:
        """What a rail carries between the rails on its neighboring lines."""
        left, right = self._sides(run, three)
        past = self.array.past_in
        key = (run.low_in, run.high_in, left, right)
        if key not in self._touches:
            box = Box(left, run.low_in, right, run.high_in)
            (self._touches[key],) = self.marks.touches([box], self.array.modules, up=True)
        ends = (run.low_in - past, run.high_in + past, run.low_in, run.high_in)
        return Strip(*ends, round(right - left, 9), self._touches[key])

    def _all_runs(self, path: Sequence[SupportLine]) -> tuple[UpRun, ...]:
        return tuple(run for line in path for run in self._runs[line.number])

    def _sides(self, run: UpRun, three: Three) -> tuple[float, float]:
        """As `rails_up.strips_of`: the widest share of all rows that the rail crosses."""
        before, line, after = three
        lefts, rights = [], []
        for low, high, x0, x1 in self._blocks:
            if run.low_in < (low + high) / 2 < run.high_in and x0 <= line.u_in <= x1:
                inside = before is not None and x0 <= before.u_in
                lefts.append((before.u_in + line.u_in) / 2 if before and inside else x0)
                inside = after is not None and after.u_in <= x1
                rights.append((line.u_in + after.u_in) / 2 if after and inside else x1)
        return min(lefts), max(rights)

    def _threes(self, lines: Sequence[SupportLine]) -> Iterator[Three]:
        """Lines that may follow each other, ordered by the second and then the first."""
        for place, line in enumerate(lines):
            earlier, later = reversed(lines[:place]), lines[place + 1 :]
            befores = [*takewhile(partial(self._follow, other=line), earlier), None]
            afters = [*takewhile(partial(self._follow, line), later), None]
            for before, after in product(befores, afters):
                if not (self._follow(before, line) and self._follow(line, after)):
                    continue
                left, right = (beside.u_in if beside else None for beside in (before, after))
                if self.rules.surround(left, line.u_in, right):
                    yield before, line, after

    def _follow(self, one: SupportLine | None, other: SupportLine | None) -> bool:
        return self.rules.follow(one.u_in if one else None, other.u_in if other else None)

    def _touch(self, threes: Sequence[Three]) -> None:
        """Look all strips up at once."""
        boxes: dict[tuple[float, ...], Box] = {}
        for three in threes:
            for run in self._runs[three[1].number]:
                left, right = self._sides(run, three)
                boxes[run.low_in, run.high_in, left, right] = Box(
                    left, run.low_in, right, run.high_in
                )
        found = self.marks.touches(list(boxes.values()), self.array.modules, up=True)
        self._touches = dict(zip(boxes, found, strict=True))

    def _path(self, threes: Sequence[Three], *, held: bool) -> list[SupportLine] | None:
        """The lines of the least cost: fewest attachments, then the least used ones."""
        best: dict[tuple[int, int], tuple[Cost, list[SupportLine]]] = {}
        for before, line, after in threes:
            key = (before.number if before else -1, line.number)
            reached = best.get(key) if before else ((0, 0.0), [])
            if reached is None:
                continue
            cost = self._cost((before, line, after)) if held else (1, 0.0)
            if cost is None:
                continue
            (count, worst), path = reached
            total = (count + cost[0], round(max(worst, cost[1]), 9))
            to = (line.number, after.number if after else -1)
            if to not in best or total < best[to][0]:
                best[to] = (total, [*path, line])
        ends = [found for (_, after), found in best.items() if after == -1]
        return min(ends, key=lambda end: end[0])[1] if ends else None

    def _cost(self, three: Three) -> Cost | None:
        ways = self.ways(three)
        if ways is None:
            return None
        return (
            sum(len(way.places) for _, way in ways),
            max((way.worst for _, way in ways), default=0.0),
        )

    def _way(self, run: UpRun, strip: Strip) -> Held | None:
        low, high = strip.start_in + _FROM_END_IN, strip.end_in - _FROM_END_IN
        pinned = tuple(
            v for v in self.pins.get(run.line.number, ()) if strip.start_in <= v <= strip.end_in
        )
        if self.laps is None:
            low, high = min((low, *pinned)), max((high, *pinned))
            return self.search.anywhere(strip, low, high, pinned)
        places = np.array(sorted({*lap_places(self.laps, low, high), *pinned}))
        numbers = tuple(int(np.flatnonzero(places == v)[0]) for v in pinned)
        return self.search.at_places(strip, places, numbers)


def lap_places(laps: Laps, low_in: float, high_in: float) -> list[float]:
    """Where hooks may stand between two heights, as a tape reads them [in]."""
    found: list[float] = []
    first = max(math.floor((low_in - laps.first_in) / laps.exposure_in), 0)
    last = math.ceil((high_in - laps.first_in) / laps.exposure_in) + 1
    for number in range(first, last + 1):
        low, high = laps.places(number)
        low, high = math.ceil(low * _PER_IN - 1e-6), math.floor(high * _PER_IN + 1e-6)
        if low > high:
            continue
        step = round(_IN_LAP_IN * _PER_IN)
        found += [n / _PER_IN for n in (*range(low, high, step), high)]
    return [v for v in found if low_in <= v <= high_in]
