"""Thresholds for wiring and fault protection of photovoltaic circuits by NEC article 690."""

from planset.codes.nec import _tables

ARC_FAULT_V = 80.0
"""Voltage between conductors from which dc circuits need arc-fault protection [V].

Source: NEC 2017 [from memory], 2020 and 2023, 690.11.
"""

GUARDED_V = 30.0
"""Voltage over which readily accessible circuits are guarded or in raceway or cable [V].

Source: NEC 2020 and 2023, 690.31(A); NEC 2017, 690.31(A) [from memory].
"""

SMALL_SYSTEM_V = 30.0
"""Voltage up to which, with the current below, the rules for dc in buildings do not apply [V].

Source: NEC 2020, 690.31(D) and 690.41(B); NEC 2017 and 2023 [from memory].
"""

SMALL_SYSTEM_A = 8.0
"""Current up to which, with the voltage above, the rules for dc in buildings do not apply [A].

Source: NEC 2020, 690.31(D) and 690.41(B); NEC 2017 and 2023 [from memory].
"""

GROUPING_FT = 6.0
"""Greatest distance between ties that group conductors of several systems in a box [ft].

Source: NEC 2020, 690.31(B).
"""


def longest_support_in(edition: int) -> float | None:
    """Greatest distance between supports of exposed single conductors in an array.

    Args:
        edition: Year of the NEC: 2017, 2020 or 2023.

    Returns:
        Distance; in 2023 for 8 AWG and smaller [in]; None where the edition fixes none.

    Raises:
        ValueError: Edition not covered.

    Source: NEC 2020, 690.31(C)(1); NEC 2023, 690.31(C)(1) [from memory]; NEC 2017 fixes none.
    """
    known = _tables.by_topic("clauses")["array_wire"]
    if edition not in known:
        years = ", ".join(str(year) for year in known)
        msg = f"NEC edition is {edition}; expected one of {years}"
        raise ValueError(msg)
    text = _tables.by_topic("edition_values")["wire_support_in"].get(edition)
    return None if text is None else float(text)


def needs_arc_fault_protection(voltage_v: float) -> bool:
    """Tell whether a dc circuit on or in a building needs arc-fault protection.

    Args:
        voltage_v: Maximum voltage between its conductors [V].

    Returns:
        True from 80 V on.

    Source: NEC 2017 [from memory], 2020 and 2023, 690.11.
    """
    return voltage_v >= ARC_FAULT_V


def needs_metal_raceway(voltage_v: float, current_a: float) -> bool:
    """Tell whether a dc circuit inside a building runs in metal raceway, listed MC or metal boxes.

    The same threshold asks for ground-fault protection.

    Args:
        voltage_v: Maximum voltage [V].
        current_a: Maximum current [A].

    Returns:
        True over 30 V or over 8 A.

    Source: NEC 2020, 690.31(D) and 690.41(B); NEC 2017 and 2023 [from memory].
    """
    return voltage_v > SMALL_SYSTEM_V or current_a > SMALL_SYSTEM_A
