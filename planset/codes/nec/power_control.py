"""Power control systems by NEC 705.13: the outline, for a listed system only."""

import math
from collections.abc import Sequence

from planset.codes import _check
from planset.codes.nec import clauses


def controlled_demand_a(setting_a: float, uncontrolled_a: Sequence[float]) -> float:
    """Current that a busbar or conductor sees under a power control system.

    Args:
        setting_a: Setting of the system for all sources it controls [A].
        uncontrolled_a: Monitored currents of sources it does not control [A].

    Returns:
        Their sum, to compare with the rating of every busbar and conductor it protects [A].

    Raises:
        ValueError: Setting not above zero, or a current negative.

    Source: NEC 2020, 705.13 [from memory]; NEC 2023, 705.13 with 750.30.
    """
    _check.above_zero(setting_a, "setting of the power control system, A,")
    for current_a in uncontrolled_a:
        _check.not_negative(current_a, "current of an uncontrolled source, A,")
    return math.fsum((setting_a, *uncontrolled_a))


def permitted(edition: int) -> bool:
    """Tell whether an edition knows power control systems.

    Args:
        edition: Year of the NEC.

    Returns:
        True from 2020 on.

    Source: NEC 2020 [from memory] and 2023, 705.13.
    """
    return edition in clauses.editions("power_control")
