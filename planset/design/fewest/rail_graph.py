"""All ways to hold one rail, as a graph: pairs of neighboring attachments, joined by threes.

What an attachment takes reaches halfway to its neighbors, so that each ratio follows from three
attachments in a row, and at an end from two. Measures are shares of what is allowed: up to 1 a
layout holds. Beyond 1 they tell by how much, so that places can be moved toward one that does.

Continuity is that of equal spans here, the least there is. What the rail as one beam lays on its
attachments is known of whole ways alone, and raised in the graph where that is in the way.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from planset.design.fewest.limits import Limits
from planset.design.fewest.share_uses import ShareUses
from planset.design.fewest.strip import Places, Strip, Values
from planset.design.rail_shares import MORE_SPANS, SIMPLE, TWO_SPANS, end_factor

HOLDS = 1.0 + 1e-9
"""Greatest measure of what holds."""

FACTORS = {2: SIMPLE, 3: TWO_SPANS, 4: MORE_SPANS}
"""Continuity by the number of attachments, of which 4 stands for more too."""


@dataclass(frozen=True, slots=True)
class RailGraph:
    """Pairs and threes of attachments that may follow each other on a rail.

    Attributes:
        places: Where attachments may stand, along the rail [in].
        first: By pair the number of its first place.
        second: By pair the number of its second place.
        before: By three the number of its first pair.
        after: By three the number of its second pair.
        starts: By number of attachments and pair, the measure where it begins the rail.
        ends: The same where it ends the rail.
        middles: By number of attachments and three, the measure of its middle attachment.
    """

    places: Values
    first: Places
    second: Places
    before: Places
    after: Places
    starts: dict[int, Values]
    ends: dict[int, Values]
    middles: dict[int, Values]

    def raised(self, chosen: Sequence[int], measures: Values) -> RailGraph:
        """The graph with what was found of the attachments of one way, where that is more.

        Args:
            chosen: The numbers of the places of the way.
            measures: Its attachments' measures.
        """
        pairs = [self._pair(a, b) for a, b in pairwise(chosen)]
        threes = [self._three(a, b) for a, b in pairwise(pairs)]
        last = [pairs[-1]]
        return replace(
            self,
            starts=_raised(self.starts, pairs[:1], measures[:1]),
            ends=_raised(self.ends, last, measures[-1:]),
            middles=_raised(self.middles, threes, measures[1:-1]),
        )

    def _pair(self, first: int, second: int) -> int:
        return int(np.flatnonzero((self.first == first) & (self.second == second))[0])

    def _three(self, before: int, after: int) -> int:
        return int(np.flatnonzero((self.before == before) & (self.after == after))[0])


def rail_graph(
    strip: Strip,
    places: Values,
    pinned: Collection[int],
    uses: ShareUses,
    limits: Limits,
    most: float = 1.0,
) -> RailGraph:
    """The graph of a rail.

    Args:
        strip: What the rail carries.
        places: Where attachments may stand, from its lower or left end [in].
        pinned: Numbers of the places that must be taken.
        uses: What shares ask of their attachments.
        limits: What they are held against.
        most: Greatest measure that is kept, 1 where only what holds is asked for.
    """
    first, second = _pairs(places, pinned, limits, most)
    spans = places[second] - places[first]
    middle = np.clip((places[first] + places[second]) / 2, strip.low_in, strip.high_in)
    before, after = _threes(first, second, len(places))
    judge = _Judge(strip, uses, limits)
    pins = np.array(sorted(pinned), dtype=np.int64)
    may_start = first <= (pins[0] if len(pins) else len(places))
    may_end = second >= (pins[-1] if len(pins) else 0)
    low, high = np.full(len(first), strip.low_in), np.full(len(first), strip.high_in)
    left = judge.end(low, middle, places[first] - strip.start_in, places[first] - low, spans)
    right = judge.end(middle, high, strip.end_in - places[second], high - places[second], spans)
    inner = judge.inner(middle[before], middle[after], np.maximum(spans[before], spans[after]))
    return RailGraph(
        places=places,
        first=first,
        second=second,
        before=before,
        after=after,
        starts={n: np.where(may_start, _kept(part, most), np.inf) for n, part in left.items()},
        ends={n: np.where(may_end, _kept(part, most), np.inf) for n, part in right.items()},
        middles={n: _kept(part, most) for n, part in inner.items()},
    )


def _raised(known: dict[int, Values], places: list[int], measures: Values) -> dict[int, Values]:
    found = {n: part.copy() for n, part in known.items()}
    for part in found.values():
        part[places] = np.maximum(part[places], measures)
    return found


def _kept(measures: Values, most: float) -> Values:
    return np.where(measures <= most + HOLDS - 1.0, measures, np.inf)


def _pairs(
    places: Values, pinned: Collection[int], limits: Limits, most: float
) -> tuple[Places, Places]:
    """Numbers of places that may follow each other, ordered by the first, then the second."""
    bent = limits.longest_span_in(limits.least_line_load)
    reach = min(limits.span_in, bent) * most + 1e-9
    apart = places[np.newaxis, :] - places[:, np.newaxis]
    first, second = np.nonzero((apart >= limits.least_span_in) & (apart <= reach))
    for pin in pinned:  # no pair may pass over it
        kept = (first >= pin) | (second <= pin)
        first, second = first[kept], second[kept]
    return first.astype(np.int64), second.astype(np.int64)


def _threes(first: Places, second: Places, count: int) -> tuple[Places, Places]:
    """Pairs of pairs of which one ends where the other begins."""
    begins = np.searchsorted(first, np.arange(count + 1))
    following = begins[second + 1] - begins[second]
    before = np.repeat(np.arange(len(first)), following)
    offset = np.arange(len(before)) - np.repeat(np.cumsum(following) - following, following)
    return before, begins[second[before]] + offset


@dataclass(frozen=True, slots=True)
class _Judge:
    """Measures of many attachments at once."""

    strip: Strip
    uses: ShareUses
    limits: Limits

    def inner(self, lows: Values, highs: Values, spans: Values) -> dict[int, Values]:
        """Attachments with neighbors on both sides, by the number of attachments on the rail."""
        areas, ratios, loads = self._asked(lows, highs)
        rail = self.limits.bent_span(spans, self._counted(loads))
        rail = np.maximum(rail, _beyond(spans / self.limits.span_in))
        rail = np.maximum(rail, self._too_loaded(loads))
        return {
            n: np.maximum(rail, attached(self.limits, areas, ratios, np.full(lows.shape, factor)))
            for n, factor in FACTORS.items()
            if n > 2
        }

    def end(
        self, lows: Values, highs: Values, free: Values, loaded: Values, spans: Values
    ) -> dict[int, Values]:
        """Attachments at an end of the rail.

        Args:
            lows: Where their shares begin [in].
            highs: Where those end [in].
            free: The rail beyond them [in].
            loaded: The part of it under modules [in].
            spans: The spans beside [in].
        """
        areas, ratios, loads = self._asked(lows, highs)
        ends, line = np.maximum(free, 0.0), self._counted(loads)
        rail = np.maximum(
            self.limits.bent_end(ends, spans, line), self.limits.bent_span(spans, line)
        )
        for allowed in (self.limits.free_end_share * spans, self.limits.free_end_in):
            over = np.divide(ends, allowed, out=np.where(ends > 0, np.inf, 0.0), where=allowed > 0)
            rail = np.maximum(rail, _beyond(over))
        rail = np.maximum(rail, _beyond(spans / self.limits.span_in))
        rail = np.maximum(rail, self._too_loaded(loads))
        raised = end_factor(loaded, spans)
        return {
            n: np.maximum(rail, attached(self.limits, areas, ratios, np.maximum(factor, raised)))
            for n, factor in FACTORS.items()
        }

    def _asked(self, lows: Values, highs: Values) -> tuple[Values, Values, Values]:
        """Areas, ratios without continuity, line loads along the rail."""
        lengths = np.maximum(highs - lows, 0.0)
        areas = lengths * self.strip.width_in / 144
        ratios, loads = self.uses.of(self.strip.masks(lows, highs), areas)
        along = np.divide(loads, lengths, out=np.zeros(lengths.shape), where=lengths > 0)
        return areas, ratios, along

    def _counted(self, loads: Values) -> Values | float:
        cap = self.limits.line_load_cap
        return np.maximum(loads, self.limits.least_line_load) if np.isinf(cap) else cap

    def _too_loaded(self, loads: Values) -> Values:
        """What exceeds the line load that is counted on does not hold."""
        cap = self.limits.line_load_cap
        return np.where(loads > cap * (1 + 1e-9), np.inf, 0.0)


def attached(limits: Limits, areas: Values, ratios: Values, factors: Values) -> Values:
    """Measures of attachments by themselves.

    Args:
        limits: What they are held against.
        areas: Areas of their shares [sq ft].
        ratios: Their ratios without continuity, unitless.
        factors: Their continuity, unitless.
    """
    dead = areas * factors * limits.dead_psf / limits.point_load_lb
    return np.maximum(ratios * factors / limits.attachment_ceiling, _beyond(dead))


def _beyond(measures: Values) -> Values:
    """A limit that is kept weighs nothing, however near it is."""
    return np.where(measures > HOLDS, measures, 0.0)
