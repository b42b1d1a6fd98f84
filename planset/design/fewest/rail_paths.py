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
    yield from _kept(graph, graph.starts[2], graph.ends[2], ())
    if not len(graph.before):
        return
    by_target = _Targets.of(graph.after)
    three, parents = by_target.least(
        np.maximum(graph.starts[3][graph.before], graph.middles[3]), graph.before, len(graph.first)
    )
    yield from _kept(graph, three, graph.ends[3], (parents,))
    reached = graph.starts[4]
    history: tuple[Places, ...] = ()
    for count in range(3, len(graph.places) + 1):
        through = np.maximum(reached[graph.before], graph.middles[4])
        reached, parents = by_target.least(through, graph.before, len(graph.first))
        if not np.isfinite(reached).any():
            return
        history = (*history, parents)
        if count >= _MANY:
            yield from _kept(graph, reached, graph.ends[4], history)


def _kept(
    graph: RailGraph, reached: Values, ends: Values, history: tuple[Places, ...]
) -> Iterator[Held]:
    whole = np.maximum(reached, ends)
    pair = int(np.argmin(whole))
    if not np.isfinite(whole[pair]):
        return
    worst = float(whole[pair])
    chosen = [int(graph.second[pair]), int(graph.first[pair])]
    for parents in reversed(history):
        pair = int(parents[pair])
        chosen.append(int(graph.first[pair]))
    chosen.reverse()
    yield Held(worst, tuple(graph.places[chosen].tolist()), tuple(chosen))


@dataclass(frozen=True, slots=True)
class _Targets:
    """Threes in the order of the pair they lead to."""

    order: Places
    begins: Places
    pairs: Places

    @classmethod
    def of(cls, after: Places) -> _Targets:
        order = np.argsort(after, kind="stable")
        pairs, begins = np.unique(after[order], return_index=True)
        return cls(order, begins, pairs)

    def least(self, measures: Values, before: Places, count: int) -> tuple[Values, Places]:
        """By pair the least measure of the threes that lead to it, and the pair before."""
        ordered = measures[self.order]
        least = np.minimum.reduceat(ordered, self.begins)
        sizes = np.diff(np.append(self.begins, len(ordered)))
        hits = np.flatnonzero(ordered == np.repeat(least, sizes))
        groups = np.searchsorted(self.begins, hits, side="right") - 1
        _, nearest = np.unique(groups, return_index=True)
        values, parents = np.full(count, np.inf), np.zeros(count, dtype=np.int64)
        values[self.pairs] = least
        parents[self.pairs] = before[self.order[hits[nearest]]]
        return values, parents
