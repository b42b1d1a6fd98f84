"""How much lateral demand an alteration may add to an existing element."""

from types import MappingProxyType

from planset.codes import _check

GREATEST_INCREASE = 0.10
"""Increase of the demand-capacity ratio up to which an element may stay (no unit).

Source: IEBC 2018, 503.4, exception.
"""

CLAUSES = MappingProxyType(
    {2012: "403.4", 2015: "403.4", 2018: "503.4", 2021: "503.4", 2024: "503.4"}
)
"""Clause of the prescriptive method by edition; the work-area method has its like, 805.3 in 2018.

Source: IEBC 2018, 503.4 and 805.3; those of 2012, 2015, 2021 and 2024 from memory.
"""


def lateral_increase(existing_ratio: float, altered_ratio: float) -> float:
    """Increase of the demand-capacity ratio of a lateral element, since original construction.

    Args:
        existing_ratio: Demand over capacity with the alteration ignored (no unit).
        altered_ratio: Demand over capacity with the alteration considered (no unit).

    Returns:
        The increase as a share, 0 where it falls (no unit).

    Raises:
        ValueError: A ratio is negative or the existing one not above zero.

    Source: IEBC 2018, 503.4, exception.
    """
    _check.above_zero(existing_ratio, "existing demand-capacity ratio")
    _check.not_negative(altered_ratio, "demand-capacity ratio with the alteration")
    return max(altered_ratio / existing_ratio - 1.0, 0.0)


def may_stay(existing_ratio: float, altered_ratio: float) -> bool:
    """Tell whether a lateral element may stay unaltered.

    Args:
        existing_ratio: Demand over capacity with the alteration ignored (no unit).
        altered_ratio: Demand over capacity with the alteration considered (no unit).

    Raises:
        ValueError: A ratio is negative or the existing one not above zero.

    Source: IEBC 2018, 503.4, exception.
    """
    return _check.at_most(lateral_increase(existing_ratio, altered_ratio), GREATEST_INCREASE)
