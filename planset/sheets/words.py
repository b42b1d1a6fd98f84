"""Words and figures as they are printed on sheets."""

from __future__ import annotations

import math
import re

from planset.codes.nec.raceways import Raceway
from planset.units import (
    SIXTEENTH_SLACK,
    Rounding,
    format_feet_inches,
    format_inches,
    judged_denominator,
)

_PLURALS = frozenset({"clips", "modules", "rails", "units"})

inches = format_inches
"""A length under a few feet, as units print it."""


def raceway_name(raceway: Raceway) -> str:
    """Trade size and kind of a raceway, as 1/2 in EMT."""
    return f"{raceway.trade_size} in {raceway.kind.upper()}"


def required_inches(value_in: float) -> str:
    """A required width in plain inches, up to the next sixteenth: half of a straddling pathway."""
    return inches(math.ceil(value_in * 16 - SIXTEENTH_SLACK) / 16)


def measured(
    value: float | None, unit: str, rounding: Rounding = "nearest", *, fine: bool = False
) -> str:
    """A finding's value as printed: lengths in feet and inches, the rest with its unit.

    Args:
        value: The value, None where there is none.
        unit: Its unit.
        rounding: Toward which side lengths are rounded.
        fine: Whether long lengths are printed to the sixteenth too.
    """
    if value is None:
        return "-"
    if unit == "in":
        parts = 16 if fine else judged_denominator(value)
        return format_feet_inches(value, denominator=parts, rounding=rounding)
    figure = f"{value:.2f}" if abs(value) < 10 else f"{value:.1f}"
    figure = figure.rstrip("0").rstrip(".") if "." in figure else figure
    return f"{figure} {counted(unit) if figure == '1' else unit}".strip()


def counted(unit: str) -> str:
    """The unit of one thing: of one module, where that of several is modules."""
    return unit.removesuffix("s") if unit in _PLURALS else unit


def capitals(words: str) -> str:
    """In capitals but for the units of lengths and ratings, as everywhere on the sheets."""
    words = re.sub(r"(?<=[0-9]) IN\b", " in", words.upper())
    words = re.sub(r"(?<=[0-9n]) X (?=[0-9])", " x ", words)
    return re.sub(r"(?<=[0-9]) KAIC\b", " kAIC", words)
