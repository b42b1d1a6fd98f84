"""How much gravity load an alteration may add before an element must meet the code for new ones."""

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from planset.codes import _check

_Basis = Literal["total", "each", "demand-capacity"]

GREATEST_INCREASE = 0.05
"""Increase up to which an element may stay as it is, share of what was there (no unit).

Source: IEBC 2018, 503.3.
"""

CLAUSES = MappingProxyType(
    {2012: "403.3", 2015: "403.3", 2018: "503.3", 2021: "503.3", 2024: "503.3"}
)
"""Clause of the prescriptive method by edition; the work-area method has its like, 805.2 in 2018.

Source: IEBC 2018, 503.3 and 805.2; those of 2012, 2015, 2021 and 2024 from memory.
"""

MOST_DWELLING_UNITS = 5
"""Dwelling or sleeping units up to which the exception for Group R holds.

Source: IEBC 2018, 503.3, exception 1.
"""

DWELLING_EXCEPTION = "Exception 1"
"""The exception of small dwellings, as it is cited.

Source: IEBC 2018, 503.3; that other editions have it under this number: from memory, and of 2012
and 2015 doubtful.
"""

SECOND_COVERING_PSF = 3.0
"""Weight of a second roof covering up to which its exception holds [psf].

Source: IEBC 2018, 503.3, exception 2.
"""


@dataclass(frozen=True, slots=True)
class GravityLoads:
    """Design loads on one element, in any one unit.

    Attributes:
        dead: Dead load.
        live: Roof live load.
        snow: Snow load, drift included.

    Source: IEBC 2018, 503.3.
    """

    dead: float
    live: float = 0.0
    snow: float = 0.0

    @property
    def total(self) -> float:
        """Dead load and the greater of live load and snow, which do not act together."""
        return self.dead + max(self.live, self.snow)


@dataclass(frozen=True, slots=True)
class Increase:
    """How much an alteration adds, on a stated basis.

    Attributes:
        basis: "total" of all loads, "each" kind by itself, or the "demand-capacity" ratio.
        share: Increase over what was there, 0 where nothing grows; infinite where a kind of load
            is new (no unit).
        of: What grows most: "total", "dead", "live", "snow" or "demand-capacity ratio".

    Source: IEBC 2018, 503.3; which basis is meant is disputed.
    """

    basis: _Basis
    share: float
    of: str

    @property
    def exceeds(self) -> bool:
        """Whether the element must be shown to meet the code for new buildings."""
        return not _check.at_most(self.share, GREATEST_INCREASE)


def load_increase(
    existing: GravityLoads, altered: GravityLoads, basis: Literal["total", "each"] = "each"
) -> Increase:
    """Increase of the design loads of an element, counted from its original construction.

    Args:
        existing: Loads it was designed for.
        altered: Loads it has with the panels; a live load left out beneath them is left out here.
        basis: "each" kind of load by itself, the words of the text; or the "total".

    Returns:
        The increase.

    Raises:
        ValueError: A load is negative, or nothing was there in total.

    Source: IEBC 2018, 503.3; both bases are in use, a jurisdiction says which.
    """
    for loads in (existing, altered):
        for value in (loads.dead, loads.live, loads.snow):
            _check.not_negative(value, "gravity load")
    if basis == "total":
        _check.above_zero(existing.total, "existing gravity load")
        return Increase(basis, _growth(existing.total, altered.total), "total")
    kinds = ("dead", "live", "snow")
    grown = {kind: _growth(getattr(existing, kind), getattr(altered, kind)) for kind in kinds}
    most = max(kinds, key=lambda kind: grown[kind])
    return Increase(basis, grown[most], most)


def demand_capacity_increase(existing_ratio: float, altered_ratio: float) -> Increase:
    """Increase of the demand-capacity ratio of an element under gravity.

    Args:
        existing_ratio: Demand over capacity with the alteration ignored (no unit).
        altered_ratio: Demand over capacity with the alteration considered (no unit).

    Returns:
        The increase.

    Raises:
        ValueError: A ratio is negative or the existing one not above zero.

    Source: IEBC 2018, 503.3 as Minnesota Rules 1311.0806 reads it.
    """
    _check.above_zero(existing_ratio, "existing demand-capacity ratio")
    _check.not_negative(altered_ratio, "demand-capacity ratio with the alteration")
    share = _growth(existing_ratio, altered_ratio)
    return Increase("demand-capacity", share, "demand-capacity ratio")


def dwelling_exception(
    *, group_r: bool | None, units: int | None, light_frame_or_irc: bool | None
) -> bool | None:
    """Tell whether the exception for small dwellings holds.

    Args:
        group_r: Whether the building is of Group R and used solely for living.
        units: Its dwelling or sleeping units.
        light_frame_or_irc: Whether the altered building meets the conventional light-frame
            provisions of the IBC or the IRC, the added load included.

    Returns:
        True where all three hold, False where one fails, None where one is not known.

    Source: IEBC 2018, 503.3, exception 1.
    """
    few = None if units is None else units <= MOST_DWELLING_UNITS
    conditions = (group_r, few, light_frame_or_irc)
    if False in conditions:
        return False
    return None if None in conditions else True


def second_covering_exception(added_psf: float, *, second_roof_covering: bool) -> bool:
    """Tell whether the added load is a second roof covering of 3 psf or less; panels are none.

    Args:
        added_psf: Added dead load [psf].
        second_roof_covering: Whether it all comes from a second layer over a single one.

    Raises:
        ValueError: Load negative.

    Source: IEBC 2018, 503.3, exception 2.
    """
    _check.not_negative(added_psf, "added dead load, psf,")
    return second_roof_covering and _check.at_most(added_psf, SECOND_COVERING_PSF)


def _growth(before: float, after: float) -> float:
    if after <= before:
        return 0.0
    return after / before - 1.0 if before > 0 else math.inf
