"""Equipment grounding conductors by NEC articles 250 and 690."""

from planset.codes import _check
from planset.codes.nec import _tables, conductors, overcurrent

SMALLEST_EXPOSED = "6"
"""Smallest equipment grounding conductor, AWG copper, that may lie exposed without protection.

Source: NEC 2017 and 2020 [from memory] and 2023, 250.120(C).
"""


def equipment_grounding_size(
    device_a: float, material: str = "copper", circuit_size: str | None = None
) -> str:
    """Smallest equipment grounding conductor of a circuit.

    Args:
        device_a: Rating of the overcurrent device ahead of the circuit [A].
        material: "copper" or "aluminum", of both conductors.
        circuit_size: Size of the circuit conductors, which it need not exceed; None: not asked.

    Returns:
        Size of the first line of the table not below the rating, or the circuit's if smaller.

    Raises:
        ValueError: No such material or size, or a rating not above zero or over 2000 A.

    Source: NEC 2017, 2020 and 2023, Table 250.122 and 250.122(A).
    """
    size = _tables.size_for("equipment_grounding", device_a, material)
    return size if circuit_size is None else min(size, circuit_size, key=conductors.area_cmil)


def assumed_dc_device_a(maximum_a: float) -> float:
    """Overcurrent device to take for the grounding conductor of a dc circuit that has none.

    Args:
        maximum_a: Maximum circuit current [A].

    Returns:
        First standard rating from 125 % of it on [A].

    Raises:
        ValueError: Current not above zero, or too large for the table.

    Source: NEC 2020, 690.45; NEC 2017 and 2023, 690.45 [from memory].
    """
    _check.above_zero(maximum_a, "maximum circuit current, A,")
    return overcurrent.next_standard_rating_a(overcurrent.continuous_minimum_a(maximum_a))


def increased_grounding_size(size: str, required: str, installed: str) -> str:
    """Equipment grounding conductor of an ac circuit whose conductors were made larger.

    Increases for heat or bundling do not count, nor do those of dc circuits of arrays.

    Args:
        size: Equipment grounding conductor by the table.
        required: Circuit conductor that the ampacity asks for.
        installed: Circuit conductor installed, of the same material.

    Returns:
        Smallest size whose area grew in the same proportion, no larger than the installed one.

    Raises:
        ValueError: No such size, or the installed conductor smaller than the required one.

    Source: NEC 2017, 2020 and 2023, 250.122(B) and 250.122(A); dc: NEC 2020, 690.45.
    """
    from_cmil, to_cmil = conductors.area_cmil(required), conductors.area_cmil(installed)
    if to_cmil < from_cmil:
        msg = f"installed conductor is {installed}; expected {required} or larger"
        raise ValueError(msg)
    grown_cmil = conductors.area_cmil(size) * to_cmil / from_cmil
    return conductors.smallest_size_of_area(min(grown_cmil, to_cmil))


def needs_protection(size: str) -> bool:
    """Tell whether an exposed equipment grounding conductor needs physical protection.

    Args:
        size: Its size.

    Returns:
        True below 6 AWG.

    Raises:
        ValueError: No such size.

    Source: NEC 2017 and 2020 [from memory] and 2023, 250.120(C).
    """
    return conductors.area_cmil(size) < conductors.area_cmil(SMALLEST_EXPOSED)
