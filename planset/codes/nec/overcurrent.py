"""Ratings of overcurrent devices by the NEC."""

from functools import cache
from pathlib import Path

from planset.codes import _check, _table

CONTINUOUS = 1.25
"""Share of a continuous current that a device and its conductors are rated for (no unit).

Source: NEC 2017 and 2020, 690.9(B); NEC 2023, 690.9(B) and 705.30(B).
"""


@cache
def _ratings_a() -> tuple[tuple[float, str], ...]:
    rows = _table.rows(Path(__file__).with_name("standard_ratings.csv"))
    return tuple((float(row["rating_a"]), row["device"]) for row in rows)


@cache
def standard_ratings_a() -> tuple[float, ...]:
    """Standard ampere ratings of fuses and circuit breakers alike, 15 to 2000 A, rising [A].

    NEC 2023 lists breakers of 10 A, too; they are left out in every edition.

    Source: NEC 2017, 2020 and 2023, 240.6(A).
    """
    return tuple(rating for rating, device in _ratings_a() if device == "any")


@cache
def fuse_ratings_a() -> tuple[float, ...]:
    """Standard ampere ratings of fuses, 1 to 2000 A, rising [A].

    Source: NEC 2017, 2020 and 2023, 240.6(A).
    """
    return tuple(rating for rating, _ in _ratings_a())


def next_standard_rating_a(minimum_a: float, *, fuse: bool = False) -> float:
    """Smallest standard rating that is not below a current.

    Args:
        minimum_a: Least rating allowed [A].
        fuse: Whether the device is a fuse, which has small ratings of its own.

    Returns:
        Standard rating [A].

    Raises:
        ValueError: Current not above zero, or above the table's end of 2000 A.

    Source: NEC 2017, 2020 and 2023, 240.6(A).
    """
    _check.above_zero(minimum_a, "least rating, A,")
    for rating in fuse_ratings_a() if fuse else standard_ratings_a():
        if _check.at_most(minimum_a, rating):
            return rating
    msg = f"least rating is {minimum_a:g} A; the table ends at 2000 A; split the circuit"
    raise ValueError(msg)


def largest_standard_rating_a(limit_a: float, *, fuse: bool = False) -> float:
    """Largest standard rating that is not above a limit.

    Args:
        limit_a: Greatest rating allowed [A].
        fuse: Whether the device is a fuse, which has small ratings of its own.

    Returns:
        Standard rating [A].

    Raises:
        ValueError: No standard rating is as small as the limit.

    Source: NEC 2017, 2020 and 2023, 240.6(A).
    """
    ratings = fuse_ratings_a() if fuse else standard_ratings_a()
    fitting = [rating for rating in ratings if _check.at_most(rating, limit_a)]
    if not fitting:
        msg = f"greatest rating is {limit_a:g} A; expected at least {ratings[0]:g} A"
        raise ValueError(msg)
    return fitting[-1]


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
    return CONTINUOUS * current_a


def interrupts(rating_a: float, available_a: float) -> bool:
    """Tell whether a device may stand where a fault current is available.

    Args:
        rating_a: Interrupting rating of the device [A].
        available_a: Available fault current at its line terminals, as stated by the utility or
            computed; it is never assumed [A].

    Returns:
        True when the rating is not below the fault current.

    Raises:
        ValueError: A current is not above zero.

    Source: NEC 2017, 2020 and 2023, 110.9 [from memory].
    """
    _check.above_zero(rating_a, "interrupting rating, A,")
    _check.above_zero(available_a, "available fault current, A,")
    return _check.at_most(available_a, rating_a)
