"""Resistance and reactance of conductors by chapter 9 of the NEC."""

import math
from types import MappingProxyType

from planset.codes import _check
from planset.codes.nec import _tables

TEMPERATURE_COEFFICIENT = MappingProxyType({"copper": 0.00323, "aluminum": 0.00330})
"""Change of resistance with temperature, on its value at 75 C [per degree C].

Source: NEC 2017, 2020 and 2023, Table 8 of chapter 9, note 2 [from memory].
"""

_REACTANCE = {"pvc": "x_nonmagnetic", "aluminum": "x_nonmagnetic", "steel": "x_steel"}


def dc_resistance_ohm_per_kft(
    size: str, material: str, *, solid: bool = False, temperature_c: float = 75.0
) -> float:
    """Resistance to direct current.

    Args:
        size: Conductor size.
        material: "copper", uncoated, or "aluminum".
        solid: Whether the conductor is solid; copper to 8 AWG only.
        temperature_c: Temperature of the conductor [degrees C].

    Returns:
        Resistance [ohm per 1000 ft].

    Raises:
        ValueError: The table has no such conductor, or temperature outside -40 to 150 C.

    Source: NEC 2017, 2020 and 2023, Table 8 of chapter 9 [partly from memory].
    """
    column = f"{material}_{'solid' if solid else 'stranded'}"
    cells = _tables.cells("resistance")
    rows = {key: row[column] for key, row in cells.items() if column in row}
    if not rows:
        msg = f"conductor is {column.replace('_', ', ')}; expected stranded, or solid copper"
        raise ValueError(msg)
    _check.within(temperature_c, -40.0, 150.0, "conductor temperature, C,")
    at_75_c = _check.one_of(size, rows, f"size of a conductor {column}")
    return at_75_c * (1.0 + TEMPERATURE_COEFFICIENT[material] * (temperature_c - 75.0))


def ac_resistance_ohm_per_kft(size: str, material: str, raceway: str) -> float:
    """Resistance to alternating current of three single conductors in a raceway, 75 C.

    Args:
        size: Conductor size.
        material: "copper" or "aluminum".
        raceway: What the raceway is made of: "pvc", "aluminum" or "steel".

    Returns:
        Resistance to neutral [ohm per 1000 ft].

    Raises:
        ValueError: The table has no such conductor or raceway.

    Source: NEC 2017, 2020 and 2023, Table 9 of chapter 9.
    """
    return _ac_cell(size, f"r_{material}_{raceway}")


def reactance_ohm_per_kft(size: str, raceway: str) -> float:
    """Inductive reactance of three single conductors in a raceway at 60 Hz.

    Args:
        size: Conductor size.
        raceway: What the raceway is made of: "pvc", "aluminum" or "steel".

    Returns:
        Reactance to neutral [ohm per 1000 ft].

    Raises:
        ValueError: The table has no such conductor or raceway.

    Source: NEC 2017, 2020 and 2023, Table 9 of chapter 9.
    """
    return _ac_cell(size, _REACTANCE.get(raceway, raceway))


def effective_impedance_ohm_per_kft(
    resistance_ohm: float, reactance_ohm: float, power_factor: float = 1.0
) -> float:
    """Impedance that counts for voltage drop at a power factor.

    Args:
        resistance_ohm: Resistance [ohm per 1000 ft].
        reactance_ohm: Reactance [ohm per 1000 ft].
        power_factor: Of the current, over 0 to 1; 1 for an inverter that is not asked for
            reactive power (no unit).

    Returns:
        R cos(phi) + X sin(phi) [ohm per 1000 ft].

    Raises:
        ValueError: A value is out of range.

    Source: NEC 2017, 2020 and 2023, Table 9 of chapter 9, note 2.
    """
    _check.above_zero(resistance_ohm, "resistance, ohm,")
    _check.not_negative(reactance_ohm, "reactance, ohm,")
    _check.above_zero(power_factor, "power factor")
    _check.within(power_factor, 0.0, 1.0, "power factor")
    return resistance_ohm * power_factor + reactance_ohm * math.sqrt(1.0 - power_factor**2)


def _ac_cell(size: str, column: str) -> float:
    cells = _tables.cells("ac_impedance")
    rows = {key: row[column] for key, row in cells.items() if column in row}
    if not rows:
        columns = dict.fromkeys(name for row in cells.values() for name in row)
        msg = f"impedance column is {column!r}; expected one of {', '.join(columns)}"
        raise ValueError(msg)
    return _check.one_of(size, rows, f"conductor size, column {column},")
