"""Ampacities of conductors as the NEC prints them, before any factor."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from planset.codes import _check
from planset.codes.nec import _tables

AMPACITY_RATINGS_C = (60.0, 75.0, 90.0)
"""Temperature columns of the ampacity table [degrees C].

Source: NEC 2017, Table 310.15(B)(16) [from memory]; NEC 2020 and 2023, Table 310.16.
"""

HIGH_RATINGS_C = (105.0, 125.0)
"""Temperature columns of photovoltaic wire that is marked for more than 90 C [degrees C].

Source: NEC 2020, Table 690.31(A)(b); NEC 2023, Table 690.31(A)(3)(1).
"""


@cache
def _column(table: str, column: str) -> Mapping[str, float]:
    cells = _tables.cells(table).items()
    return MappingProxyType({key: row[column] for key, row in cells if column in row})


def _cell(table: str, size: str, material: str, rating_c: float) -> float:
    column = f"{material}_{rating_c:g}"
    rows = _column(table, column)
    what = f"conductor size with {material} at {rating_c:g} C"
    if not rows:
        columns = dict.fromkeys(name for row in _tables.cells(table).values() for name in row)
        msg = f"ampacity column is {column!r}; expected one of {', '.join(columns)}"
        raise ValueError(msg)
    return _check.one_of(size, rows, what)


def ampacity_a(size: str, material: str, rating_c: float) -> float:
    """Ampacity in raceway or cable at 30 C with at most three current-carrying conductors.

    Args:
        size: Conductor size, "14" to "500"; aluminum from "12".
        material: "copper" or "aluminum".
        rating_c: Temperature column: 60, 75 or 90 [degrees C].

    Returns:
        Ampacity [A].

    Raises:
        ValueError: The table has no such size or column.

    Source: NEC 2017, Table 310.15(B)(16) [from memory]; NEC 2020 and 2023, Table 310.16;
    sizes over 4/0 [from memory].
    """
    return _cell("ampacity", size, material, rating_c)


def free_air_ampacity_a(size: str, material: str, rating_c: float) -> float:
    """Ampacity of a single conductor in free air at 30 C.

    Args:
        size: Conductor size, "14" to "4/0" without "3" and "1".
        material: "copper"; the copies of the aluminum columns disagree.
        rating_c: Temperature column: 75 or 90 [degrees C].

    Returns:
        Ampacity [A].

    Raises:
        ValueError: The table has no such size or column.

    Source: NEC 2017, Table 310.15(B)(17) [from memory]; NEC 2020 and 2023, Table 310.17.
    """
    return _cell("ampacity_free_air", size, material, rating_c)


def high_temperature_ampacity_a(size: str, rating_c: float, edition: int) -> float:
    """Ampacity of copper photovoltaic wire that is itself marked 105 or 125 C, at 30 C.

    Args:
        size: Conductor size, "18" to "4/0".
        rating_c: Temperature column: 105 or 125 [degrees C].
        edition: Year of the NEC, from 2020 on.

    Returns:
        Ampacity [A].

    Raises:
        ValueError: The table has no such size or column, or the edition no such table.

    Source: NEC 2020, Table 690.31(A)(b); NEC 2023, Table 690.31(A)(3)(1).
    """
    _tables.of_edition("clauses", "high_temperature_ampacity", edition)
    return _cell("ampacity_high_temperature", size, "copper", rating_c)


def table_sizes(material: str, rating_c: float, *, free_air: bool = False) -> tuple[str, ...]:
    """Sizes for which there is an ampacity, rising.

    Args:
        material: "copper" or "aluminum".
        rating_c: Temperature column: 60, 75, 90, 105 or 125 [degrees C].
        free_air: Whether single conductors in free air are meant.

    Returns:
        Sizes; none where no table has such a column.

    Source: NEC 2017, Table 310.15(B)(16) [from memory]; NEC 2020 and 2023, Table 310.16.
    """
    table = "ampacity_free_air" if free_air else "ampacity"
    if rating_c in HIGH_RATINGS_C:
        table = "ampacity_high_temperature"
    column = f"{material}_{rating_c:g}"
    return tuple(size for size, row in _tables.cells(table).items() if column in row)


def dwelling_service_size(rating_a: float, material: str) -> str:
    """Smallest service or main feeder conductor of one dwelling, without any factor.

    Args:
        rating_a: Rating of the service or feeder, 100 to 400 A [A].
        material: "copper" or "aluminum".

    Returns:
        Size of the first line not below the rating; never for an inverter output circuit.

    Raises:
        ValueError: No such material, or a rating over 400 A.

    Source: NEC 2017, 310.15(B)(7) [from memory]; NEC 2020 and 2023, Table 310.12(A).
    """
    return _tables.size_for("dwelling_service", rating_a, material)
