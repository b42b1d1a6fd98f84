"""Numbers for disconnecting means of photovoltaic systems by NEC article 690."""

MOST_DISCONNECTS = 6
"""Most switches or breakers that together are the disconnect of one system.

Source: NEC 2020, 690.13; NEC 2017 and 2023, 690.13 [from memory].
"""

MOST_INITIATION_DEVICES = 6
"""Most initiation devices for rapid shutdown on one service.

Source: NEC 2020, 690.12(C); NEC 2017 and 2023, 690.12(C) [from memory].
"""

LOCKED_DOOR_V = 30.0
"""Voltage over which a door to live parts is locked or opens with a tool only [V].

Source: NEC 2020, 690.13; NEC 2017 and 2023, 690.13 [from memory].
"""

WITHIN_REACH_FT = 10.0
"""Distance in sight within which a disconnect is at its equipment, or its remote control [ft].

Source: NEC 2020 and 2023, 690.15; NEC 2017, 690.15 [from memory].
"""

LOAD_BREAK_A = 30.0
"""Current over which a dc circuit needs a load-break disconnect, not an isolating device [A].

Source: NEC 2020 and 2023, 690.15; NEC 2017, 690.15 [from memory].
"""


def needs_load_break(maximum_a: float) -> bool:
    """Tell whether a dc circuit needs a load-break equipment disconnect.

    Args:
        maximum_a: Maximum circuit current [A].

    Returns:
        True over 30 A; up to it an isolating device is enough.

    Source: NEC 2020 and 2023, 690.15; NEC 2017, 690.15 [from memory].
    """
    return maximum_a > LOAD_BREAK_A
