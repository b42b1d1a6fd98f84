"""Attachments of one rail under what the whole rail, as one beam, lays on each of them.

The graph of a rail knows three neighbors at a time and the continuity of equal spans. A way found
there is looked at as a whole; where that asks more of an attachment than it holds, the graph learns
so, and the next best way is looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from planset.design.fewest.limits import Limits
from planset.design.fewest.rail_graph import HOLDS, RailGraph, attached
from planset.design.fewest.rail_paths import Held, best_ways
from planset.design.fewest.share_uses import ShareUses
from planset.design.fewest.strip import Strip, Values
from planset.design.rail_shares import continuity, reversals, shares

_ROUNDS = 40  # ways that are looked at; few need more than three

Measure = Callable[[Sequence[float]], Values]
"""By the places of a rail's attachments [in] the measures of those, as `whole_measures`."""


def whole_measures(
    strip: Strip, places: Sequence[float], uses: ShareUses, limits: Limits
) -> Values:
    """Of every attachment of a rail the share of what is allowed that the whole rail asks of it.

    Args:
        strip: What the rail carries.
        places: Where its attachments stand, along it [in].
        uses: What shares ask of their attachments.
        limits: What they are held against.
    """
    loaded = (strip.low_in, strip.high_in)
    lows, highs = np.array(shares(places, *loaded)).T
    areas = np.maximum(highs - lows, 0.0) * strip.width_in / 144
    masks = strip.masks(lows, highs)
    ratios, _ = uses.of(masks, areas)
    measures = attached(limits, areas, ratios, np.array(continuity(places, *loaded)))
    back = np.array(reversals(places, *loaded))
    if back.any():
        turned = uses.turned(masks, areas) * back / limits.attachment_ceiling
        measures = np.maximum(measures, turned)
    return measures


def first_that_holds(graph: RailGraph, measure: Measure) -> Held | None:
    """The way on the fewest attachments that holds as a whole, None where none is found."""
    for _ in range(_ROUNDS):
        way = next((way for way in best_ways(graph) if way.holds), None)
        if way is None:
            return None
        measures = measure(way.places)
        if measures.max() <= HOLDS:
            return replace(way, worst=max(way.worst, float(measures.max())))
        graph = graph.raised(way.chosen, measures)
    return None
