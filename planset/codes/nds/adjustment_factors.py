"""Adjustment factors of connections by NDS 2018; load duration lies in `lag_screws`."""

from types import MappingProxyType

from planset.codes import _check

WET_SERVICE = 0.7
"""Wet service factor CM of a lag screw in wood over 19 % moisture in service (no unit).

Source: NDS 2018, Table 11.3.3 [from memory].
"""

END_GRAIN = MappingProxyType({"withdrawal": 0.75, "lateral": 0.67})
"""End grain factor Ceg of a lag screw by the direction of its load (no unit).

Source: NDS 2018, 12.5.2 [that of lateral loads from memory].
"""


def temperature_factor(temperature_f: float, *, wet: bool = False) -> float:
    """Temperature factor Ct of a connection whose wood stays hot for long.

    Args:
        temperature_f: Greatest sustained temperature of the wood, to 150 [F].
        wet: Whether the wood is over 19 % moisture in service.

    Returns:
        1.0 to 100 F; 0.8, wet 0.7, to 125 F; 0.7, wet 0.5, to 150 F (no unit).

    Raises:
        ValueError: Temperature below -60 or over 150 F.

    Source: NDS 2018, Table 11.3.4 [from memory].
    """
    _check.within(temperature_f, -60.0, 150.0, "temperature of the wood, F,")
    if temperature_f <= 100.0:
        return 1.0
    if temperature_f <= 125.0:
        return 0.7 if wet else 0.8
    return 0.5 if wet else 0.7
