"""Several fasteners in a row share their load unevenly, by NDS 2018."""

import math

from planset.codes import _check


def group_action_factor(
    count: int, spacing_in: float, diameter_in: float, member_lb: float, plate_lb: float
) -> float:
    """Group action factor Cg of lag screws in a row through a metal plate.

    Args:
        count: Screws in the row, along the load.
        spacing_in: Screw to screw [in].
        diameter_in: Nominal diameter D [in].
        member_lb: E A of the wood member, gross section [lb].
        plate_lb: E A of the plate, gross section [lb].

    Returns:
        Cg; 1.0 for one screw and for screws under 1/4 in (no unit).

    Raises:
        ValueError: A value is not above zero, or there is no screw.

    Source: NDS 2018, Equation 11.3-1, load/slip modulus of wood to metal [from memory; it
    reproduces the first line of Table 11.3.6C].
    """
    if count < 1:
        msg = f"number of screws in a row is {count}; expected 1 or more"
        raise ValueError(msg)
    for value in (spacing_in, diameter_in, member_lb, plate_lb):
        _check.above_zero(value, "spacing, diameter or stiffness of a row of screws")
    if count == 1 or diameter_in < 0.25:
        return 1.0
    slip = 270_000.0 * math.pow(diameter_in, 1.5)
    u = 1.0 + slip * spacing_in / 2.0 * (1.0 / member_lb + 1.0 / plate_lb)
    m = u - math.sqrt(u**2 - 1.0)
    ratio = min(member_lb / plate_lb, plate_lb / member_lb)
    below = count * ((1.0 + ratio * m**count) * (1.0 + m) - 1.0 + m ** (2 * count))
    return m * (1.0 - m ** (2 * count)) / below * (1.0 + ratio) / (1.0 - m)
