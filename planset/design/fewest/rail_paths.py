"""The best way to hold a rail on each number of attachments: a path through its graph."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from planset.design.fewest.rail_graph import HOLDS, RailGraph
from planset.design.fewest.strip import Places, Values

_MANY = 4  # from so many attachments on all numbers are alike


@dataclass(frozen=True, slots=True)
class Held:
    """One way to hold a rail.

    Attributes:
        worst: The greatest of its measures; it holds up to 1, unitless.
        places: Where its attachments stand, along the rail [in].
        chosen: The numbers of those places.
    """

    worst: float
    places: tuple[float, ...]
    chosen: tuple[int, ...]

    @property
    def holds(self) -> bool:
        """Whether it is within every limit that was looked at."""
        return self.worst <= HOLDS


def best_ways(graph: RailGraph) -> Iterator[Held]:
    """The way of least measure on two attachments, on three and so on, where there is one.

    Stops when more attachments than the last are not possible.
    """
    if not len(graph.first):
        return
    yield from _kept(graph, graph.ends[2], [graph.starts[2]], None)
    if not len(graph.before):
        return
    steps = _Steps.of(graph, 3)
    yield from _kept(graph, graph.ends[3], [graph.starts[3], steps.next(graph.starts[3])], steps)
    steps = _Steps.of(graph, _MANY)
    reached = [graph.starts[_MANY]]
    seen = np.isfinite(reached[0])
    may_end = np.isfinite(graph.ends[_MANY])
    while len(reached) < len(graph.places):
        reached.append(steps.next(reached[-1]))
        here = np.isfinite(reached[-1])
        if not here.any():
            return
        if len(reached) >= _MANY - 1:
            yield from _kept(graph, graph.ends[_MANY], reached, steps)
        if not (here & ~seen).any() and not (seen & may_end).any():
            return  # what is not reached by now never is
        seen |= here


def _kept(
    graph: RailGraph, ends: Values, reached: list[Values], steps: _Steps | None
) -> Iterator[Held]:
    """The best way whose last pair ends the rail, by what each pair was reached with."""
    whole = np.maximum(reached[-1], ends)
    pair = int(np.argmin(whole))
    worst = float(whole[pair])
    if not np.isfinite(worst):
        return
    chosen = [int(graph.second[pair]), int(graph.first[pair])]
    for before in reversed(reached[:-1]):
        if steps is None:  # two attachments are one pair
            break
        pair = steps.came_from(pair, before)
        chosen.append(int(graph.first[pair]))
    chosen.reverse()
    yield Held(worst, tuple(graph.places[chosen].tolist()), tuple(chosen))


@dataclass(frozen=True, slots=True)
class _Steps:
    """Threes in the order of the pair they lead to."""

    middles: Values
    before: Places
    begins: Places
    pairs: Places
    count: int

    @classmethod
    def of(cls, graph: RailGraph, number: int) -> _Steps:
        order = np.argsort(graph.after, kind="stable")
        pairs, begins = np.unique(graph.after[order], return_index=True)
        middles = graph.middles[number][order]
        return cls(middles, graph.before[order], begins, pairs, len(graph.first))

    def next(self, reached: Values) -> Values:
        """What each pair is reached with, by one attachment more."""
        through = np.maximum(reached[self.before], self.middles)
        found = np.full(self.count, np.inf)
        found[self.pairs] = np.minimum.reduceat(through, self.begins)
        return found

    def came_from(self, pair: int, reached: Values) -> int:
        """The pair before a pair on its best way, by what that was reached with."""
        place = int(np.searchsorted(self.pairs, pair))
        low = self.begins[place]
        high = self.begins[place + 1] if place + 1 < len(self.begins) else len(self.before)
        before = self.before[low:high]
        through = np.maximum(reached[before], self.middles[low:high])
        return int(before[np.argmin(through)])
