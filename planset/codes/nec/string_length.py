"""How many modules make a string, from its voltages."""

import math

from planset.codes import _check

_NOISE = 1e-9


def largest_string(limit_v: float, module_v: float) -> int:
    """Most modules in series whose voltage keeps a limit.

    Args:
        limit_v: Limit of the code or the weakest component, with the voltage at the lowest
            ambient; or the top of the tracking range, with Vmp in the cold, past which the
            inverter only clips [V].
        module_v: Voltage of one module at that temperature [V].

    Returns:
        Number of modules; 0 where not even one keeps the limit.

    Raises:
        ValueError: A voltage is not above zero.

    Source: NEC 2017, 2020 and 2023, 690.7.
    """
    _check.above_zero(limit_v, "voltage limit, V,")
    _check.above_zero(module_v, "module voltage, V,")
    return math.floor(limit_v / module_v * (1.0 + _NOISE))


def smallest_string(least_v: float, module_v: float) -> int:
    """Fewest modules in series that reach a voltage.

    Args:
        least_v: The larger of the low end of the tracking range and the start voltage [V].
        module_v: Vmp of one module with hot cells [V].

    Returns:
        Number of modules.

    Raises:
        ValueError: A voltage is not above zero.

    Source: SAND2004-3535 2004, Equation 4, for the voltage; the NEC asks for no least length.
    """
    _check.above_zero(least_v, "least voltage, V,")
    _check.above_zero(module_v, "module voltage, V,")
    return math.ceil(least_v / module_v * (1.0 - _NOISE))
