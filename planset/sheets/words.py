"""Words and figures as they are printed on sheets."""

from __future__ import annotations

import math

from planset.units import Rounding, format_feet_inches

_SIXTEENTH_SLACK = 0.02  # of a sixteenth
_FINE_BELOW_IN = 12.0  # shorter lengths are printed to the sixteenth, longer ones to the half


def inches(value_in: float) -> str:
    """A length under a few feet in plain inches: `18 in`, `7 1/2 in`, off sixteenths `1.6 in`."""
    sixteenths = value_in * 16
    if abs(sixteenths - round(sixteenths)) > _SIXTEENTH_SLACK:
        return f"{value_in:.3f}".rstrip("0").rstrip(".") + " in"
    whole, rest = divmod(round(sixteenths), 16)
    if not rest:
        return f"{whole} in"
    denominator = 16
    while rest % 2 == 0:
        rest, denominator = rest // 2, denominator // 2
    return f"{whole} {rest}/{denominator} in" if whole else f"{rest}/{denominator} in"


def required_inches(value_in: float) -> str:
    """A required width in plain inches, up to the next sixteenth: half of a straddling pathway."""
    return inches(math.ceil(value_in * 16 - _SIXTEENTH_SLACK) / 16)


def measured(value: float | None, unit: str, rounding: Rounding = "nearest") -> str:
    """A finding's value as printed: lengths in feet and inches, the rest with its unit."""
    if value is None:
        return "-"
    if unit == "in":
        fine = abs(value) < _FINE_BELOW_IN
        return format_feet_inches(value, denominator=16 if fine else 2, rounding=rounding)
    figure = f"{value:.2f}" if abs(value) < 10 else f"{value:.1f}"
    figure = figure.rstrip("0").rstrip(".") if "." in figure else figure
    return f"{figure} {unit}".strip()
