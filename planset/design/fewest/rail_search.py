"""The fewest attachments that hold one rail, at given places or anywhere along it."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import partial

import numpy as np

from planset.design.attachment_loads import OnShares
from planset.design.fewest.limits import Limits, with_table
from planset.design.fewest.line_loads import Find, under_line_loads
from planset.design.fewest.rail_graph import HOLDS, RailGraph, rail_graph
from planset.design.fewest.rail_paths import Held, best_ways
from planset.design.fewest.share_uses import ShareUses
from planset.design.fewest.strip import Strip, Values
from planset.design.fewest.whole_rail import first_that_holds, whole_measures
from planset.design.rail_shares import shares

_COARSE_IN = 4.0  # or this share of the longest span, if that is more
_COARSE_SHARE = 1 / 16
_FINER_IN = (1.0, 0.25, 0.0625)  # down to what a tape reads
_AROUND = np.arange(-4, 5)
_NEARLY = 1.25  # how far beyond its limits a layout may be that is moved until it holds
_MORE_TRIED = 4  # numbers of attachments beyond the first that nearly holds


@dataclass(slots=True)
class RailSearch:
    """Finds attachments rail by rail, each strip and its places once.

    Attributes:
        on_shares: The load on any share of the array.
        uses: What shares ask of their attachments.
        limits: What they are held against, before the maker's table.
        any_zone: Whether the table is read for every zone that a strip touches.
    """

    on_shares: OnShares
    uses: ShareUses
    limits: Limits
    any_zone: bool = False
    _known: dict[tuple[object, ...], Held | None] = field(default_factory=dict)

    def limits_for(self, strip: Strip) -> Limits | None:
        """The limits of a rail, None where its strip is too wide for the maker's table."""
        read = self.uses.every_zone if self.any_zone else self.uses.zones
        limits = with_table(self.limits, self.on_shares, read(strip.whole), strip.width_in)
        if limits is None:
            return None
        least = self.uses.least_line_load(strip, limits.attachment_ceiling)
        return replace(limits, least_line_load=least)

    def at_places(self, strip: Strip, places: Values, pinned: Collection[int] = ()) -> Held | None:
        """The fewest attachments at given places, and of those the least used; None without any.

        Args:
            strip: What the rail carries.
            places: Where attachments may stand, ascending, along the rail [in].
            pinned: Numbers of the places that must be taken.
        """
        key = (strip, places.tobytes(), tuple(pinned))
        if key not in self._known:
            limits = self.limits_for(strip)
            self._known[key] = (
                None
                if limits is None
                else self._bending(strip, limits, partial(self._at_places, strip, places, pinned))
            )
        return self._known[key]

    def anywhere(
        self, strip: Strip, low_in: float, high_in: float, pinned: tuple[float, ...] = ()
    ) -> Held | None:
        """The fewest attachments anywhere along a rail; None where none hold it.

        Args:
            strip: What the rail carries.
            low_in: The lowest place of an attachment, along the rail [in].
            high_in: The highest one [in].
            pinned: Places that must be taken [in].
        """
        key = (strip, low_in, high_in, pinned)
        if key not in self._known:
            limits = self.limits_for(strip)
            ends = (low_in, high_in)
            self._known[key] = (
                None
                if limits is None
                else self._bending(strip, limits, partial(self._anywhere, strip, ends, pinned))
            )
        return self._known[key]

    def graph(self, strip: Strip, places: Values, pinned: Collection[int] = ()) -> RailGraph | None:
        """All ways to hold a rail within its limits, None where its strip is too wide."""
        limits = self.limits_for(strip)
        if limits is None:
            return None
        return rail_graph(strip, places, pinned, self.uses, limits)

    def bends(self, strip: Strip, places: tuple[float, ...]) -> bool:
        """Whether the whole rail bends within its limits, under its own greatest line load."""
        limits = self.limits_for(strip)
        return limits is not None and self._bent(strip, places, limits) <= HOLDS

    def judged(self, graph: RailGraph, strip: Strip, chosen: Sequence[int]) -> RailGraph | None:
        """What the graph is to learn of a way held as a whole; None where all of it holds."""
        places = tuple(graph.places[list(chosen)].tolist())
        limits = self.limits_for(strip)
        measures = None if limits is None else self._measures(strip, limits, places)
        if measures is None or measures.max() <= HOLDS:
            return None
        return graph.raised(chosen, measures)

    def _at_places(
        self, strip: Strip, places: Values, pinned: Collection[int], limits: Limits
    ) -> Held | None:
        graph = rail_graph(strip, places, pinned, self.uses, limits)
        return first_that_holds(graph, partial(self._measures, strip, limits))

    def _bending(self, strip: Strip, limits: Limits, find: Find) -> Held | None:
        """What is found, where the greatest line load of a rail bends all of its spans.

        Each span is looked at under its own attachments' loads first, on which no rail can do
        with fewer.
        """
        alone = find(limits)
        if alone is None or self._bent(strip, alone.places, limits) <= HOLDS:
            return alone

        def whole(capped: Limits) -> Held | None:
            way = find(capped)
            holds = way is not None and self._bent(strip, way.places, limits) <= HOLDS
            return way if holds else None

        load = self._line_load(strip, alone.places)
        return under_line_loads(strip, limits, whole, alone, load)

    def _anywhere(
        self, strip: Strip, ends: tuple[float, float], pinned: tuple[float, ...], limits: Limits
    ) -> Held | None:
        """Few coarse places first; what nearly holds is moved until it does, or is given up."""
        span = min(limits.span_in, limits.longest_span_in(limits.least_line_load))
        step = min(max(_COARSE_IN, span * _COARSE_SHARE), 2 * _COARSE_IN)
        coarse = _with(np.arange(math.ceil(ends[0]), ends[1] + 1e-9, step), ends, pinned)
        nearly: list[Held] = []
        graph = rail_graph(strip, coarse, _at(coarse, pinned), self.uses, limits, _NEARLY)
        for way in best_ways(graph):
            if nearly and len(way.places) > len(nearly[0].places) + _MORE_TRIED:
                break
            nearly.append(way)
            if way.holds:
                break
        moved = (self._moved(way, strip, ends, pinned, limits) for way in nearly)
        return next((way for way in moved if way is not None), None)

    def _moved(
        self,
        way: Held,
        strip: Strip,
        ends: tuple[float, float],
        pinned: tuple[float, ...],
        limits: Limits,
    ) -> Held | None:
        """The way with its places moved until it holds, by ever finer steps."""
        for step in _FINER_IN:
            around = (np.round(p / step) * step + _AROUND * step for p in way.places)
            places = _with(np.concatenate(list(around)), ends, (*pinned, *way.places))
            most = 1.0 if way.holds else _NEARLY
            graph = rail_graph(strip, places, _at(places, pinned), self.uses, limits, most)
            found = _numbering(best_ways(graph), len(way.places))
            way = found if found is not None and found.worst < way.worst - 1e-6 else way
            if way.holds:
                asked = float(self._measures(strip, limits, way.places).max())
                if asked <= HOLDS:
                    return replace(way, worst=max(way.worst, asked))
                # spans that differ ask for more: look for what holds with that much to spare
                limits = replace(limits, attachment_ceiling=limits.attachment_ceiling / asked)
                way = replace(way, worst=asked)
        return None

    def _measures(self, strip: Strip, limits: Limits, places: Sequence[float]) -> Values:
        return whole_measures(strip, places, self.uses, limits)

    def _bent(self, strip: Strip, places: tuple[float, ...], limits: Limits) -> float:
        """The rail as a beam under the greatest of its attachments' line loads."""
        return limits.bent_rail(strip, places, self._line_load(strip, places))

    def _line_load(self, strip: Strip, places: tuple[float, ...]) -> float:
        lows, highs = np.array(shares(places, strip.low_in, strip.high_in)).T
        return float(self._loads(strip, lows, highs).max())

    def _loads(self, strip: Strip, lows: Values, highs: Values) -> Values:
        lengths = highs - lows
        kept = lengths > 0
        lows, highs, lengths = lows[kept], highs[kept], lengths[kept]
        areas = lengths * strip.width_in / 144
        _, loads = self.uses.of(strip.masks(lows, highs), areas)
        along: Values = loads / lengths
        return along


def _numbering(ways: Iterable[Held], count: int) -> Held | None:
    return next((way for way in ways if len(way.places) >= count), None)


def _with(places: Values, ends: tuple[float, float], pinned: Iterable[float]) -> Values:
    kept = places[(places >= ends[0]) & (places <= ends[1])]
    return np.unique(np.concatenate([kept, np.array(tuple(pinned), dtype=float)]))


def _at(places: Values, pinned: Iterable[float]) -> tuple[int, ...]:
    return tuple(int(np.flatnonzero(places == place)[0]) for place in sorted(set(pinned)))
