"""Rails across the slope of which no two neighbors stand on the same rafter or seam.

Each rail on its own gives a count that no staggered layout can beat. Rails are held one after the
other on lines that their neighbor left; where that takes more than those counts, two and then all
are solved as one problem in whole numbers, as far as that is small enough.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from planset.design.fewest.rail_paths import Held
from planset.design.fewest.rail_search import RailSearch

if TYPE_CHECKING:
    from planset.design.fewest.across import AcrossRail
    from planset.design.support_lines import SupportLine

Layout = list["tuple[SupportLine, ...] | None"]


def staggered(search: RailSearch, rails: Sequence[AcrossRail], alone: Sequence[Held]) -> Layout:
    """The lines of every rail, None for those that nothing holds beside their neighbors.

    Args:
        search: What finds the attachments of one rail.
        rails: The rails from the eave.
        alone: How each would be held without its neighbors.
    """
    least = sum(len(way.places) for way in alone)
    tried = [_one_by_one(search, rails, alone, first) for first in (0, 1)]
    best = min(tried, key=_count)
    if _count(best) > least:
        # it takes a tenth of a second to import, and few jobs need it
        from planset.design.fewest.stagger_program import solved_together  # noqa: PLC0415

        best = min(best, _two_by_two(search, rails), key=_count)
        together = solved_together(search, rails) if _count(best) > least else None
        if together is not None and _count(together) < _count(best):
            best = together
    return best


def _two_by_two(search: RailSearch, rails: Sequence[AcrossRail]) -> Layout:
    """Pairs of rails solved together, each on lines that the pair before it left.

    Pairs that are alike stand on the same lines, so that of rails which all are alike none could
    do with fewer.
    """
    from planset.design.fewest.stagger_program import solved_together  # noqa: PLC0415

    found: Layout = []
    known: dict[object, Layout] = {}
    for place in range(0, len(rails), 2):
        pair = list(rails[place : place + 2])
        key = tuple((rail.strip, rail.lines, rail.pinned) for rail in pair)
        before = {line.number for line in (found[-1] if found else None) or ()}
        ways = known.get(key)
        if ways is None or before & {line.number for line in ways[0] or ()}:
            pair[0] = pair[0].without(before)
            ways = solved_together(search, pair) or [None] * len(pair)
            known[key] = ways
        found += ways
    return found


def _one_by_one(
    search: RailSearch, rails: Sequence[AcrossRail], alone: Sequence[Held], first: int
) -> Layout:
    """Every second rail as if alone, or on what its neighbors left; then those between."""
    found: Layout = [None] * len(rails)
    order = [*range(first, len(rails), 2), *range(1 - first, len(rails), 2)]
    for place in order:
        beside = [n for n in (place - 1, place + 1) if 0 <= n < len(rails)]
        beside = [n for n in beside if are_neighbors(rails[place], rails[n])]
        taken = {line.number for n in beside for line in found[n] or ()}
        taken |= {number for n in beside for number in rails[n].pinned}
        if taken & rails[place].pinned:
            continue
        rail = rails[place].without(taken) if taken else rails[place]
        way = search.at_places(rail.strip, rail.places, rail.pins) if taken else alone[place]
        found[place] = None if way is None else rail.chosen(way)
    return found


def are_neighbors(one: AcrossRail, other: AcrossRail) -> bool:
    """Whether two rails that follow each other lie side by side."""
    return max(one.strip.start_in, other.strip.start_in) < min(one.strip.end_in, other.strip.end_in)


def _count(layout: Layout) -> float:
    return float("inf") if None in layout else sum(len(lines or ()) for lines in layout)
