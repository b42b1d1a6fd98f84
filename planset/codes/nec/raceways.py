"""Fill of raceways by chapter 9 of the NEC."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _check, _table
from planset.codes.nec import _tables

NIPPLE_IN = 24.0
"""Length up to which a raceway is a nipple, which may be filled to 60 % [in].

Source: NEC 2017, 2020 and 2023, Table 1 of chapter 9, note 4 [from memory].
"""

_AREA_COLUMNS = {
    "THHN": "thwn_2",
    "THWN": "thwn_2",
    "THWN-2": "thwn_2",
    "XHHW": "xhhw_2",
    "XHHW-2": "xhhw_2",
    "RHW-2": "rhw_2",
    "USE-2": "rhw_2",
    "bare": "bare",
}


@dataclass(frozen=True, slots=True)
class Raceway:
    """One trade size of one kind of raceway.

    Attributes:
        kind: "emt", "rmc", "pvc40", "pvc80" or "fmc".
        trade_size: Such as "3/4" or "1 1/4".
        diameter_in: Inside diameter [in].
        area_in2: Inside area [sq in].

    Source: NEC 2017, 2020 and 2023, Table 4 of chapter 9 [RMC, PVC 80 and FMC from memory].
    """

    kind: str
    trade_size: str
    diameter_in: float
    area_in2: float


@dataclass(frozen=True, slots=True)
class Fill:
    """How full a raceway is.

    Attributes:
        raceway: The raceway.
        conductors_in2: Sum of the areas of all conductors, grounding ones too [sq in].
        limit: Greatest share that may be filled (no unit).

    Source: NEC 2017, 2020 and 2023, Table 1 of chapter 9.
    """

    raceway: Raceway
    conductors_in2: float
    limit: float

    @property
    def share(self) -> float:
        """Filled share of the inside area (no unit)."""
        return self.conductors_in2 / self.raceway.area_in2

    @property
    def holds(self) -> bool:
        """Whether the conductors fit."""
        return _check.at_most(self.share, self.limit)


@cache
def _raceways() -> Mapping[str, Mapping[str, Raceway]]:
    found: dict[str, dict[str, Raceway]] = {}
    for row in _table.rows(Path(__file__).with_name("raceways.csv")):
        kind, trade_size = row["raceway"], row["trade_size"]
        found.setdefault(kind, {})[trade_size] = Raceway(
            kind, trade_size, float(row["diameter_in"]), float(row["area_in2"])
        )
    return MappingProxyType({kind: MappingProxyType(sizes) for kind, sizes in found.items()})


def kinds() -> tuple[str, ...]:
    """Kinds of raceway whose inside is known.

    Source: NEC 2017, 2020 and 2023, Table 4 of chapter 9.
    """
    return tuple(_raceways())


def trade_sizes(kind: str) -> Mapping[str, Raceway]:
    """Trade sizes of a kind of raceway, rising.

    Args:
        kind: A name from `kinds`.

    Returns:
        Trade size to raceway.

    Raises:
        ValueError: No such kind.

    Source: NEC 2017, 2020 and 2023, Table 4 of chapter 9.
    """
    if kind not in _raceways():
        msg = f"raceway is {kind!r}; expected one of {', '.join(_raceways())}"
        raise ValueError(msg)
    return _raceways()[kind]


def conductor_area_in2(size: str, insulation: str) -> float:
    """Area of a conductor with its insulation.

    Args:
        size: Conductor size.
        insulation: Type, or "bare"; photovoltaic wire has no standard size: `round_area_in2`.

    Returns:
        Area [sq in].

    Raises:
        ValueError: The table has no such insulation or size.

    Source: NEC 2017, 2020 and 2023, Table 5 of chapter 9; bare, Table 8 of chapter 9.
    """
    return _conductor_cell(size, insulation, "")


def conductor_diameter_in(size: str, insulation: str) -> float:
    """Outside diameter of a conductor with its insulation, as to tell whether three may jam.

    Args:
        size: Conductor size.
        insulation: Type; not "bare", and not photovoltaic wire, which has no standard size.

    Returns:
        Diameter [in].

    Raises:
        ValueError: The table has no such insulation or size.

    Source: NEC 2017, 2020 and 2023, Table 5 of chapter 9.
    """
    return _conductor_cell(size, insulation, "_in")


def _conductor_cell(size: str, insulation: str, suffix: str) -> float:
    if insulation not in _AREA_COLUMNS:
        msg = (
            f"insulation is {insulation!r}; expected one of {', '.join(_AREA_COLUMNS)}, "
            "or its outside diameter from the maker"
        )
        raise ValueError(msg)
    column = _AREA_COLUMNS[insulation] + suffix
    cells = _tables.cells("conductor_areas")
    found = {key: row[column] for key, row in cells.items() if column in row}
    return _check.one_of(size, found, f"size of a conductor {insulation}")


def round_area_in2(diameter_in: float) -> float:
    """Area of a round conductor or cable of known outside diameter.

    Args:
        diameter_in: Outside diameter by its maker [in].

    Returns:
        Area [sq in].

    Raises:
        ValueError: Diameter not above zero.

    Source: NEC 2017, 2020 and 2023, Table 1 of chapter 9, note 5 [from memory].
    """
    _check.above_zero(diameter_in, "outside diameter, in,")
    return math.pi / 4.0 * diameter_in**2


def fill_limit(count: int, *, nipple: bool = False) -> float:
    """Greatest share of a raceway's inside area that conductors may fill.

    Args:
        count: Conductors and cables, grounding ones too.
        nipple: Whether the raceway is at most 24 in long.

    Returns:
        0.53 for one, 0.31 for two, 0.40 for more; 0.60 in a nipple (no unit).

    Raises:
        ValueError: No conductor.

    Source: NEC 2017, 2020 and 2023, Table 1 of chapter 9; nipples, its note 4 [from memory].
    """
    _check.above_zero(count, "number of conductors in the raceway")
    if nipple:
        return 0.60
    return {1: 0.53, 2: 0.31}.get(count, 0.40)


def fill(raceway: Raceway, areas_in2: Sequence[float], *, nipple: bool = False) -> Fill:
    """How full a raceway is with given conductors.

    Args:
        raceway: The raceway.
        areas_in2: Area of each conductor or cable [sq in].
        nipple: Whether the raceway is at most 24 in long.

    Returns:
        The fill with its limit.

    Raises:
        ValueError: No conductor, or an area not above zero.

    Source: NEC 2017, 2020 and 2023, Table 1 of chapter 9.
    """
    for area in areas_in2:
        _check.above_zero(area, "area of a conductor, sq in,")
    return Fill(raceway, math.fsum(areas_in2), fill_limit(len(areas_in2), nipple=nipple))


def smallest_raceway(kind: str, areas_in2: Sequence[float], *, nipple: bool = False) -> Fill:
    """Smallest trade size that holds given conductors.

    Args:
        kind: A name from `kinds`.
        areas_in2: Area of each conductor or cable [sq in].
        nipple: Whether the raceway is at most 24 in long.

    Returns:
        The raceway with its fill.

    Raises:
        ValueError: No such kind, no conductor, or more than the largest size holds.

    Source: NEC 2017, 2020 and 2023, Tables 1 and 4 of chapter 9.
    """
    for raceway in trade_sizes(kind).values():
        found = fill(raceway, areas_in2, nipple=nipple)
        if found.holds:
            return found
    msg = (
        f"conductors take {found.conductors_in2:.4f} sq in; expected at most "
        f"{found.limit * found.raceway.area_in2:.4f} sq in, what {kind} "
        f"{found.raceway.trade_size} holds; use a second raceway"
    )
    raise ValueError(msg)


def may_jam(raceway: Raceway, diameter_in: float) -> bool:
    """Tell whether three equal conductors can wedge in a bend.

    Args:
        raceway: The raceway.
        diameter_in: Outside diameter of each conductor [in].

    Returns:
        True where inside over outside diameter is between 2.8 and 3.2.

    Raises:
        ValueError: Diameter not above zero.

    Source: NEC 2017, 2020 and 2023, Table 1 of chapter 9, note 2 [from memory].
    """
    _check.above_zero(diameter_in, "outside diameter, in,")
    return 2.8 <= raceway.diameter_in / diameter_in <= 3.2
