"""How a measured value is held against its limit, alike in every rule.

A limit missed by any amount fails. A clearance met by less than the build tolerance, or a
structural ratio within 5 % of its limit, is tight: the crew may not build it that closely.
"""

from planset.finding import Outcome

BUILD_TOLERANCE_IN = 1.0
"""How closely a crew sets out a roof [in] (common practice, no source)."""

TIGHT_RATIO = 0.95
"""Demand over capacity above which a part is called tight (common practice, no source)."""

NOISE = 1e-9
"""What arithmetic alone may leave of an exact equality."""


def clearance_outcome(measured_in: float, least_in: float) -> Outcome:
    """Judge a distance that must be kept [in]."""
    if measured_in < least_in - NOISE:
        return Outcome.FAIL
    roomy = measured_in >= least_in + BUILD_TOLERANCE_IN - NOISE
    return Outcome.PASS if roomy else Outcome.TIGHT


def ratio_outcome(ratio: float) -> Outcome:
    """Judge demand over capacity, unitless."""
    if ratio > 1.0 + NOISE:
        return Outcome.FAIL
    return Outcome.TIGHT if ratio > TIGHT_RATIO + NOISE else Outcome.PASS


def at_most_outcome(value: float, limit: float) -> Outcome:
    """Judge a value that a limit without build tolerance bounds from above."""
    return Outcome.PASS if value <= limit + NOISE else Outcome.FAIL


def at_least_outcome(value: float, limit: float) -> Outcome:
    """Judge a value that a limit without build tolerance bounds from below."""
    return Outcome.PASS if value >= limit - NOISE else Outcome.FAIL
