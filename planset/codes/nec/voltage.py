"""Voltage of photovoltaic dc circuits by NEC article 690."""

import math
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from planset.codes import _check, _table

DWELLING_LIMIT_V = 600.0
"""Highest dc voltage on or in a one- or two-family dwelling [V].

Source: NEC 2017, 2020 and 2023, 690.7.
"""

OTHER_BUILDING_LIMIT_V = 1000.0
"""Highest dc voltage on or in any other building [V].

Source: NEC 2017, 2020 and 2023, 690.7.
"""

OFF_BUILDING_LIMIT_V = 1500.0
"""Highest dc voltage of listed equipment that is neither on nor in a building [V].

Source: NEC 2017 [from memory], 2020 and 2023, 690.7.
"""

_RATED_C = 25.0


@cache
def _factors() -> tuple[tuple[float, float], ...]:
    rows = _table.rows(Path(__file__).with_name("voltage_factor.csv"))
    return tuple((float(row["lowest_c"]), float(row["factor"])) for row in rows)


def table_factor(lowest_ambient_c: float) -> float:
    """Voltage correction factor of crystalline silicon modules.

    A temperature between two lines of the table takes the colder line.

    Args:
        lowest_ambient_c: Lowest expected ambient temperature [degrees C].

    Returns:
        Factor on rated open-circuit voltage, 1.0 at 25 C and above (no unit).

    Raises:
        ValueError: Below -40 C, where the table ends.

    Source: NEC 2017, 2020 and 2023, Table 690.7(A).
    """
    if lowest_ambient_c >= _RATED_C:
        return 1.0
    for coldest_of_line_c, factor in _factors():
        if lowest_ambient_c >= coldest_of_line_c:
            return factor
    msg = (
        f"lowest ambient is {lowest_ambient_c:g} C; Table 690.7(A) ends at -40 C; "
        "use the module's temperature coefficient"
    )
    raise ValueError(msg)


def open_circuit_voltage(
    voc_v: float, coefficient_percent_per_c: float, temperature_c: float
) -> float:
    """Open-circuit voltage of a module at the lowest ambient, by its temperature coefficient.

    Args:
        voc_v: Rated open-circuit voltage at 25 C [V].
        coefficient_percent_per_c: Temperature coefficient of Voc, negative [% per degree C].
        temperature_c: Lowest expected ambient temperature [degrees C].

    Returns:
        Voc (1 + coefficient (T - 25)), never below the rated voltage [V].

    Raises:
        ValueError: Voltage not above zero, or a coefficient no silicon module has.

    Source: NEC 2017, 2020 and 2023, 690.7(A)(1).
    """
    return max(_at_temperature(voc_v, coefficient_percent_per_c, temperature_c), voc_v)


def maximum_power_voltage(
    vmp_v: float, coefficient_percent_per_c: float, cell_temperature_c: float
) -> float:
    """Maximum-power voltage of a module at a cell temperature, in full sun.

    Args:
        vmp_v: Rated maximum-power voltage at 25 C [V].
        coefficient_percent_per_c: Temperature coefficient of Vmp, negative [% per degree C].
        cell_temperature_c: Cell temperature [degrees C].

    Returns:
        Vmp (1 + coefficient (T - 25)) [V].

    Raises:
        ValueError: Voltage not above zero, or a coefficient no silicon module has.

    Source: SAND2004-3535 2004, Equation 4 at 1000 W/m2 [from memory].
    """
    return _at_temperature(vmp_v, coefficient_percent_per_c, cell_temperature_c)


def percent_from_volts(coefficient_v_per_c: float, rated_v: float) -> float:
    """Temperature coefficient in percent from one in volts.

    Args:
        coefficient_v_per_c: Coefficient of one module, negative [V per degree C].
        rated_v: Rated voltage the coefficient belongs to [V].

    Returns:
        Coefficient [% per degree C].

    Raises:
        ValueError: Voltage not above zero.

    Source: NEC 2017, 2020 and 2023, 690.7(A)(1).
    """
    _check.above_zero(rated_v, "rated module voltage, V,")
    return 100.0 * coefficient_v_per_c / rated_v


def percent_from_millivolts_per_cell(
    coefficient_mv_per_c: float, cells_in_series: int, rated_v: float
) -> float:
    """Temperature coefficient in percent from one in millivolts for each cell.

    Args:
        coefficient_mv_per_c: Coefficient of one cell, negative [mV per degree C].
        cells_in_series: Cells of a module in series, half of those of a half-cut module.
        rated_v: Rated voltage the coefficient belongs to [V].

    Returns:
        Coefficient [% per degree C].

    Raises:
        ValueError: Voltage or number of cells not above zero.

    Source: NEC 2017, 2020 and 2023, 690.7(A)(1).
    """
    _check.above_zero(cells_in_series, "cells in series")
    return percent_from_volts(coefficient_mv_per_c * cells_in_series / 1000.0, rated_v)


def converter_string_maximum_v(rated_outputs_v: Sequence[float], listed_v: float | None) -> float:
    """Maximum voltage of dc-to-dc converters in series.

    Args:
        rated_outputs_v: Maximum rated output voltage of each converter [V].
        listed_v: Maximum by the method of the listing's instructions, None without one [V].

    Returns:
        What the listing says, else the sum of the ratings; never the nominal voltage [V].

    Raises:
        ValueError: No converter, or a voltage not above zero.

    Source: NEC 2017, 2020 and 2023, 690.7(B).
    """
    if not rated_outputs_v:
        msg = "there is no converter in the string; expected at least one rated output voltage"
        raise ValueError(msg)
    for rated_v in rated_outputs_v:
        _check.above_zero(rated_v, "rated converter output, V,")
    if listed_v is None:
        return math.fsum(rated_outputs_v)
    _check.above_zero(listed_v, "maximum voltage by the listing, V,")
    return listed_v


def _at_temperature(rated_v: float, coefficient: float, temperature_c: float) -> float:
    _check.above_zero(rated_v, "rated module voltage, V,")
    if not -1.0 < coefficient < 0.0:
        msg = (
            f"temperature coefficient is {coefficient:g} % per C; expected a negative number over "
            "-1, such as -0.27; convert V or mV per C to percent of the rated voltage"
        )
        raise ValueError(msg)
    _check.within(temperature_c, -90.0, 150.0, "temperature, C,")
    return rated_v * (1.0 + coefficient / 100.0 * (temperature_c - _RATED_C))
