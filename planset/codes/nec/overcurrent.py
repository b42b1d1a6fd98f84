"""Ratings of overcurrent devices by the NEC."""

from functools import cache
from pathlib import Path

from planset.codes import _check, _table


@cache
def standard_ratings_a() -> tuple[float, ...]:
    """Standard ampere ratings of fuses and circuit breakers, 15 to 2000 A, rising [A].

    Source: NEC 2017, 2020 and 2023, 240.6(A).
    """
    rows = _table.rows(Path(__file__).with_name("standard_ratings.csv"))
    return tuple(float(row["rating_a"]) for row in rows)


def next_standard_rating_a(minimum_a: float) -> float:
    """Smallest standard rating that is not below a current.

    Args:
        minimum_a: Least rating allowed [A].

    Returns:
        Standard rating [A].

    Raises:
        ValueError: Current not above zero, or above the table's end of 2000 A.

    Source: NEC 2017, 2020 and 2023, 240.6(A).
    """
    _check.above_zero(minimum_a, "least rating, A,")
    for rating in standard_ratings_a():
        if _check.at_most(minimum_a, rating):
            return rating
    msg = f"least rating is {minimum_a:g} A; the table ends at 2000 A; split the circuit"
    raise ValueError(msg)


def continuous_minimum_a(current_a: float) -> float:
    """Least rating of an overcurrent device for a continuous current, 125 %.

    Args:
        current_a: Maximum circuit current [A].

    Returns:
        1.25 times the current [A].

    Raises:
        ValueError: Current negative.

    Source: NEC 2020, 690.9(B); NEC 2023, 705.30(B).
    """
    _check.not_negative(current_a, "maximum circuit current, A,")
    return 1.25 * current_a
