"""Working space about electrical equipment by NEC 110.26."""

from planset.codes import _check
from planset.codes.nec import _tables

HIGHEST_V = 1000.0
"""Voltage to ground where the table of depths ends; beyond it section 110.34 holds [V].

Source: NEC 2023, Table 110.26(A)(1); NEC 2017 and 2020, Table 110.26(A)(1) [from memory].
"""

LEAST_WIDTH_IN = 30.0
"""Width of the working space, or that of the equipment where it is wider [in].

Source: NEC 2017, 2020 and 2023, 110.26(A)(2) [from memory].
"""

LEAST_HEIGHT_IN = 78.0
"""Height of the working space, or that of the equipment where it is taller [in].

Source: NEC 2017, 2020 and 2023, 110.26(A)(3) [from memory].
"""

HIGHEST_HANDLE_IN = 79.0
"""Center of a handle of a switch or breaker in its highest position, over the floor [in].

Source: NEC 2017, 2020 and 2023, 404.8(A) [from memory].
"""


def depth_in(volts_to_ground: float, condition: int) -> float:
    """Depth of the working space in front of equipment.

    Args:
        volts_to_ground: Nominal voltage to ground; of an ungrounded circuit between its lines [V].
        condition: 1: nothing live or grounded opposite; 2: grounded parts opposite, as concrete,
            brick or tile; 3: live parts opposite.

    Returns:
        Depth [in].

    Raises:
        ValueError: Voltage negative or over 1000 V, or no such condition.

    Source: NEC 2023, Table 110.26(A)(1); NEC 2017 and 2020, Table 110.26(A)(1) [from memory].
    """
    _check.within(volts_to_ground, 0.0, HIGHEST_V, "voltage to ground, V,")
    if condition not in (1, 2, 3):
        msg = f"condition is {condition}; expected 1, 2 or 3"
        raise ValueError(msg)
    lines = _tables.cells("working_space").items()
    return next(row[str(condition)] for highest, row in lines if volts_to_ground <= float(highest))


def width_in(equipment_in: float) -> float:
    """Width of the working space in front of equipment.

    Args:
        equipment_in: Width of the equipment [in].

    Returns:
        Width, which need not be centered on the equipment [in].

    Raises:
        ValueError: Width not above zero.

    Source: NEC 2017, 2020 and 2023, 110.26(A)(2) [from memory].
    """
    _check.above_zero(equipment_in, "width of the equipment, in,")
    return max(equipment_in, LEAST_WIDTH_IN)


def height_in(equipment_top_in: float) -> float:
    """Height of the working space in front of equipment.

    Args:
        equipment_top_in: Top of the equipment over the floor or ground [in].

    Returns:
        Height over the floor or ground [in].

    Raises:
        ValueError: Height not above zero.

    Source: NEC 2017, 2020 and 2023, 110.26(A)(3) [from memory].
    """
    _check.above_zero(equipment_top_in, "top of the equipment, in,")
    return max(equipment_top_in, LEAST_HEIGHT_IN)
