"""Factors on ampacity for hot places and shared raceways by NEC article 310."""

import math
from collections.abc import Mapping
from types import MappingProxyType

from planset.codes import _check
from planset.codes.nec import _tables

SHORT_RACEWAY_IN = 24.0
"""Length up to which conductors may share a raceway without the bundling factor [in].

Source: NEC 2020 and 2023, 310.15(C)(1); NEC 2017, 310.15(B)(3)(a) [from memory].
"""

ROOFTOP_EXEMPT = ("XHHW-2",)
"""Insulations to whose conductors the rooftop rule does not apply.

Source: NEC 2020 and 2023, 310.15(B)(2); NEC 2017, 310.15(B)(3)(c) [from memory].
"""


CURRENT_CARRYING: Mapping[str, int] = MappingProxyType(
    {"dc": 2, "single_phase": 2, "three_phase": 3}
)
"""Current-carrying conductors of a circuit: a string, two lines with a neutral that carries only
unbalance, three lines.

Source: NEC 2023, 310.15(E) and 310.15(F); NEC 2017, 310.15(B), and NEC 2020, 310.15 [both from
memory].
"""


def ambient_factor(ambient_c: float, rating_c: float) -> float:
    """Correction factor for an ambient other than 30 C, by the table.

    A temperature between two lines takes the hotter line.

    Args:
        ambient_c: Ambient temperature, with any rooftop adder [degrees C].
        rating_c: Temperature rating of the conductor: 60, 75, 90, 105 or 125 [degrees C].

    Returns:
        Factor on the ampacity (no unit); 105 and 125 C have none over 1.

    Raises:
        ValueError: No such column, or an ambient at which it has ended.

    Source: NEC 2017, Table 310.15(B)(2)(a) [from memory]; NEC 2020, Tables 310.15(B)(1) and
    690.31(A)(a); NEC 2023, Tables 310.15(B)(1)(1) and 690.31(A)(3)(2).
    """
    column = f"{rating_c:g}"
    lines = [
        (float(highest), row[column])
        for highest, row in _tables.cells("ambient_factor").items()
        if column in row
    ]
    if not lines:
        msg = f"conductor rating is {rating_c:g} C; expected 60, 75, 90, 105 or 125 C"
        raise ValueError(msg)
    for highest_c, factor in lines:
        if _check.at_most(ambient_c, highest_c):
            return factor
    msg = (
        f"ambient is {ambient_c:g} C; expected at most {lines[-1][0]:g} C for conductors rated "
        f"{rating_c:g} C; choose a higher rating or a cooler place"
    )
    raise ValueError(msg)


def ambient_factor_by_equation(ambient_c: float, rating_c: float) -> float:
    """Correction factor by the equation that may take the place of the table.

    Args:
        ambient_c: Ambient temperature [degrees C].
        rating_c: Temperature rating of the conductor [degrees C].

    Returns:
        sqrt((Tc - Ta') / (Tc - 30)) (no unit).

    Raises:
        ValueError: Rating not over 30 C, or ambient not below it.

    Source: NEC 2023, Equation 310.15(B)(1); NEC 2020, 310.15(B); NEC 2017, 310.15(B)(2)
    [from memory].
    """
    _check.above_zero(rating_c - 30.0, "conductor rating less 30, C,")
    _check.above_zero(rating_c - ambient_c, "conductor rating less ambient, C,")
    return math.sqrt((rating_c - ambient_c) / (rating_c - 30.0))


def bundling_factor(current_carrying: int, length_in: float | None = None) -> float:
    """Adjustment factor for more than three current-carrying conductors together.

    Args:
        current_carrying: Ungrounded and dc conductors, spares too; neither grounding conductors
            nor a neutral that carries only unbalance.
        length_in: Length they run together, None where it is more than 24 in or unknown [in].

    Returns:
        Factor on the ampacity; 1 up to 24 in (no unit).

    Raises:
        ValueError: Fewer than one conductor, or a length not above zero.

    Source: NEC 2017, Table 310.15(B)(3)(a) [from memory]; NEC 2020 and 2023, Table 310.15(C)(1).
    """
    _check.above_zero(current_carrying, "number of current-carrying conductors")
    if length_in is not None:
        _check.above_zero(length_in, "length run together, in,")
        if _check.at_most(length_in, SHORT_RACEWAY_IN):
            return 1.0
    lines = _tables.cells("bundling")
    return next(
        row["factor"] for most, row in lines.items() if not most or current_carrying <= float(most)
    )


def rooftop_adder_c(gap_in: float, insulation: str, edition: int) -> float:
    """What a raceway or cable in the sun, close above a roof, adds to the outdoor temperature.

    Args:
        gap_in: Clear height of its underside above the roof [in].
        insulation: Type of the conductors in it.
        edition: Year of the NEC.

    Returns:
        33, or 0 from the edition's height on and for exempt insulation [degrees C].

    Raises:
        ValueError: Height negative, or edition not in the table.

    Source: NEC 2017, 310.15(B)(3)(c) [from memory]; NEC 2020 and 2023, 310.15(B)(2).
    """
    _check.not_negative(gap_in, "height above the roof, in,")
    free_from_in = float(_tables.of_edition("edition_values", "rooftop_gap_in", edition))
    adder_c = float(_tables.of_edition("edition_values", "rooftop_adder_c", edition))
    exempt = insulation in ROOFTOP_EXEMPT or _check.at_most(free_from_in, gap_in)
    return 0.0 if exempt else adder_c
