"""Voltage of photovoltaic dc circuits by NEC article 690."""

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
