"""Sizes, areas and insulations of conductors by the NEC.

A size is written as the trade does: AWG without its letters ("14", "1/0"), over 4/0 in kcmil
without its letters ("250").
"""

from planset.codes import _check
from planset.codes.nec import _tables

MATERIALS = ("copper", "aluminum")
"""Materials of the tables; aluminum stands for copper-clad aluminum, too.

Source: NEC 2017, Table 310.15(B)(16) [from memory]; NEC 2020 and 2023, Table 310.16.
"""


def sizes() -> tuple[str, ...]:
    """Conductor sizes from 18 AWG to 2000 kcmil, rising.

    Source: NEC 2017, 2020 and 2023, Table 8 of chapter 9 [from memory].
    """
    return tuple(_tables.cells("sizes"))


def area_cmil(size: str) -> float:
    """Area of a conductor's metal.

    Args:
        size: Size such as "10", "1/0" or "250".

    Returns:
        Area [circular mils].

    Raises:
        ValueError: No such size.

    Source: NEC 2017, 2020 and 2023, Table 8 of chapter 9 [from memory].
    """
    known = _tables.cells("sizes")
    if size not in known:
        msg = f"conductor size is {size!r}; expected one of {', '.join(known)}"
        raise ValueError(msg)
    return known[size]["area_cmil"]


def smallest_size_of_area(minimum_cmil: float) -> str:
    """Smallest size whose area is not below a minimum.

    Args:
        minimum_cmil: Least area [circular mils].

    Returns:
        Size.

    Raises:
        ValueError: Area not above zero, or above 2000 kcmil.

    Source: NEC 2017, 2020 and 2023, Table 8 of chapter 9 [from memory].
    """
    _check.above_zero(minimum_cmil, "least conductor area, cmil,")
    for size, row in _tables.cells("sizes").items():
        if _check.at_most(minimum_cmil, row["area_cmil"]):
            return size
    msg = f"least conductor area is {minimum_cmil:g} cmil; expected at most 2000 kcmil"
    raise ValueError(msg)


def insulations() -> tuple[str, ...]:
    """Types of insulation whose temperature rating is known.

    Source: NEC 2017, Table 310.104(A); NEC 2020, Table 310.4(A); NEC 2023, Table 310.4(1)
    [all from memory].
    """
    return tuple(_tables.cells("insulation"))


def insulation_rating_c(insulation: str, *, wet: bool) -> float:
    """Temperature rating of an insulation.

    Args:
        insulation: Type such as "THWN-2"; "PV wire" without another marking.
        wet: Whether the place is wet, as is the inside of any raceway outdoors.

    Returns:
        Rating [degrees C].

    Raises:
        ValueError: Type not in the table, or not made for wet places.

    Source: NEC 2017, Table 310.104(A); NEC 2020, Table 310.4(A); NEC 2023, Table 310.4(1)
    [all from memory].
    """
    ratings = _tables.cells("insulation")
    if insulation not in ratings:
        msg = f"insulation is {insulation!r}; expected one of {', '.join(ratings)}"
        raise ValueError(msg)
    place = "wet_c" if wet else "dry_c"
    if place not in ratings[insulation]:
        msg = f"insulation is {insulation} in a wet place; expected a type rated wet, as THWN-2"
        raise ValueError(msg)
    return ratings[insulation][place]
