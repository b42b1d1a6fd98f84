"""Wind speed: from the nominal of older codes and listings to the ultimate of maps since 2010."""

import math

from planset.codes import _check


def ultimate_speed_mph(nominal_mph: float) -> float:
    """The ultimate design wind speed V a nominal one Vasd stands for, Vasd / sqrt(0.6) [mph].

    Args:
        nominal_mph: Nominal design wind speed Vasd [mph].

    Raises:
        ValueError: Speed not above zero.

    Source: IBC 2021, 1609.3.1 [from memory].
    """
    _check.above_zero(nominal_mph, "nominal wind speed, mph,")
    return nominal_mph / math.sqrt(0.6)
