"""Places that a run leads through: how hot it is there, and how long it is."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from planset.codes.nec.adjusted_ampacity import Conditions
from planset.job.electrical.wiring import ArrayPlace, AtticPlace, RoofPlace

if TYPE_CHECKING:
    from planset.job.electrical.wiring import Place, Run

_WET = ("roof", "wall", "underground", "array")


class RunPlace(NamedTuple):
    """One place of a run.

    Attributes:
        words: The place in words, as "roof, 1 in above it".
        conditions: Where the conductors lie.
    """

    words: str
    conditions: Conditions


def place_length_ft(place: Place) -> float:
    """Length of one place of a run; of a route the way on the roof surface [ft]."""
    if isinstance(place, RoofPlace) and place.length is None:
        route = place.route
        inches = sum(math.hypot(b.along - a.along, b.up - a.up) for a, b in pairwise(route))
    else:
        inches = place.length or 0.0
    return inches / 12.0


def run_length_ft(run: Run) -> float:
    """Length of a run one way [ft]."""
    return math.fsum(place_length_ft(place) for place in run.places)


def is_wet(run: Run) -> bool:
    """Whether any of a run is outdoors, where the inside of a raceway is a wet place."""
    return any(place.place in _WET for place in run.places)


def places_of(run: Run, high_ambient_c: float, current_carrying: int) -> tuple[RunPlace, ...]:
    """Every place of a run with its conditions.

    A raceway is one from end to end, so that its whole length tells whether conductors in it count
    as bundled.
    """
    length_in = 12.0 * run_length_ft(run)
    return tuple(
        RunPlace(
            _words(place),
            Conditions(
                ambient_c=place.ambient if isinstance(place, AtticPlace) else high_ambient_c,
                current_carrying=current_carrying,
                length_in=length_in,
                gap_above_roof_in=place.gap if isinstance(place, RoofPlace) else None,
                free_air=run.raceway == "none",
            ),
        )
        for place in run.places
    )


def _words(place: Place) -> str:
    if isinstance(place, RoofPlace):
        return f"roof, {place.gap:g} in above it"
    if isinstance(place, AtticPlace):
        return f"attic at {place.ambient:.0f} C"
    return "under the array" if isinstance(place, ArrayPlace) else place.place
