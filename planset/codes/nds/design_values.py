"""Reference design values of visually graded dimension lumber, by the NDS Supplement 2018."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _table
from planset.codes.nds.lumber import dressed_size_in

_SIZE_IN_ITS_VALUES = "southern-pine"


@dataclass(frozen=True, slots=True)
class DesignValues:
    """Reference design values of one size, species and grade, before any adjustment.

    Attributes:
        fb_psi: Bending Fb; that of southern pine holds for its size [psi].
        fv_psi: Shear along the grain Fv [psi].
        fc_perp_psi: Bearing across the grain Fc_perp [psi].
        e_psi: Modulus of elasticity E, for deflection [psi].
        e_min_psi: Modulus of elasticity Emin, for stability [psi].

    Source: NDS Supplement 2018, Tables 4A and 4B.
    """

    fb_psi: float
    fv_psi: float
    fc_perp_psi: float
    e_psi: float
    e_min_psi: float


@cache
def _graded() -> Mapping[tuple[str, str], Mapping[str, DesignValues]]:
    """Per species and grade, nominal size to values; size "" stands for every size."""
    found: dict[tuple[str, str], dict[str, DesignValues]] = {}
    for row in _table.rows(Path(__file__).with_name("lumber_grades.csv")):
        key = row.pop("species"), row.pop("grade")
        size = row.pop("nominal")
        values = DesignValues(**{name: float(text) for name, text in row.items()})
        found.setdefault(key, {})[size] = values
    return MappingProxyType(found)


def grades(species: str) -> tuple[str, ...]:
    """Grades of a species group that the table holds, empty for a species without any.

    Args:
        species: A species group, such as "hem-fir".

    Returns:
        Grades such as "No. 2", best first.

    Source: NDS Supplement 2018, Tables 4A and 4B.
    """
    return tuple(grade for name, grade in _graded() if name == species)


def design_values(species: str, grade: str, nominal: str) -> DesignValues:
    """Reference design values of a piece of dimension lumber.

    Args:
        species: A species group, such as "hem-fir".
        grade: "select structural", "No. 1", "No. 2" or "No. 3"; case and blanks do not matter.
        nominal: Nominal size from "2x4" to "2x12".

    Returns:
        The table's line.

    Raises:
        ValueError: Size, or species and grade, not in the table.

    Source: NDS Supplement 2018, Tables 4A and 4B.
    """
    dressed_size_in(nominal)
    wanted = "".join(grade.split()).lower()
    for known in grades(species):
        if "".join(known.split()).lower() == wanted:
            sizes = _graded()[species, known]
            return sizes[nominal if nominal in sizes else ""]
    listed = ", ".join(f"{name} {known}" for name, known in _graded())
    msg = f"species and grade are {species!r} {grade!r}; expected one of {listed}"
    raise ValueError(msg)


@cache
def _factors() -> Mapping[str, tuple[float, float]]:
    rows = _table.rows(Path(__file__).with_name("lumber_factors.csv"))
    return MappingProxyType(
        {row["nominal"]: (float(row["size"]), float(row["flat_use"])) for row in rows}
    )


def size_factor(species: str, nominal: str) -> float:
    """Size factor CF of the bending value Fb.

    Args:
        species: A species group; southern pine has its size in its values.
        nominal: Nominal size from "2x4" to "2x12".

    Returns:
        1.5 to 1.0; 1.0 for southern pine (no unit).

    Raises:
        ValueError: Size not in the table.

    Source: NDS Supplement 2018, Tables 4A and 4B, adjustment factors.
    """
    dressed_size_in(nominal)
    return 1.0 if species == _SIZE_IN_ITS_VALUES else _factors()[nominal][0]


def flat_use_factor(nominal: str) -> float:
    """Flat use factor Cfu of Fb, for a piece loaded on its wide face.

    Args:
        nominal: Nominal size from "2x4" to "2x12".

    Returns:
        1.1 to 1.2 (no unit).

    Raises:
        ValueError: Size not in the table.

    Source: NDS Supplement 2018, Table 4A, adjustment factors [from memory].
    """
    dressed_size_in(nominal)
    return _factors()[nominal][1]
