"""Largest overcurrent device on a conductor by NEC 240.4."""

from planset.codes import _check
from planset.codes.nec import _tables, overcurrent

NEXT_SIZE_LIMIT_A = 800.0
"""Rating up to which the next standard size above the ampacity may be taken [A].

Source: NEC 2017, 2020 and 2023, 240.4(B).
"""


def small_conductor_limit_a(size: str, material: str) -> float | None:
    """Largest device on a small conductor, whatever its ampacity.

    Args:
        size: Conductor size.
        material: "copper" or "aluminum".

    Returns:
        Rating [A]; None for sizes over 10 AWG, which have no such limit.

    Raises:
        ValueError: No such material, or one not made in that size.

    Source: NEC 2017, 2020 and 2023, 240.4(D).
    """
    row = _tables.cells("small_conductors").get(size)
    if row is None:
        return None
    return _check.one_of(material, row, f"material of a {size} AWG conductor")


def largest_device_a(size: str, material: str, ampacity_a: float, *, fuse: bool = False) -> float:
    """Largest standard overcurrent device that protects a conductor.

    Args:
        size: Conductor size.
        material: "copper" or "aluminum".
        ampacity_a: Its ampacity with all factors, and no more than its terminals allow [A].
        fuse: Whether the device is a fuse, which has small ratings of its own.

    Returns:
        Standard rating: the next at or above the ampacity up to 800 A, else the next at or
        below it; never over the limit of small conductors [A].

    Raises:
        ValueError: Ampacity not above zero, or no such conductor.

    Source: NEC 2017, 2020 and 2023, 240.4(B), 240.4(C) and 240.4(D).
    """
    if _check.at_most(ampacity_a, NEXT_SIZE_LIMIT_A):
        rating = overcurrent.next_standard_rating_a(ampacity_a, fuse=fuse)
    else:
        rating = overcurrent.largest_standard_rating_a(ampacity_a, fuse=fuse)
    limit = small_conductor_limit_a(size, material)
    return rating if limit is None else min(rating, limit)
