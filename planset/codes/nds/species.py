"""Specific gravity of framing lumber by NDS 2018."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _table

UNKNOWN_SPECIES = "spruce-pine-fir-south"
"""Species to assume where nobody knows it: none of the table's framing lumber holds less.

Its gravity, 0.36, is also that of western woods; a sheet that rests on it must say so.

Source: NDS 2018, Table 12.3.3A; that it stands for the unknown is an interpretation.
"""


@cache
def _gravities() -> Mapping[str, float]:
    rows = _table.rows(Path(__file__).with_name("species.csv"))
    return MappingProxyType({row["species"]: float(row["specific_gravity"]) for row in rows})


def species_names() -> tuple[str, ...]:
    """Names of the species groups, lower case with hyphens.

    Source: NDS 2018, Table 12.3.3A.
    """
    return tuple(_gravities())


def unknown_species_gravity() -> float:
    """Specific gravity to assume for lumber of unknown species, the least of the table (no unit).

    Source: NDS 2018, Table 12.3.3A; that it stands for the unknown is an interpretation.
    """
    return specific_gravity(UNKNOWN_SPECIES)


def specific_gravity(species: str) -> float:
    """Specific gravity G for the design of connections.

    Args:
        species: A name from `species_names`, such as "hem-fir".

    Returns:
        G on oven-dry weight and volume (no unit).

    Raises:
        ValueError: Species not in the table.

    Source: NDS 2018, Table 12.3.3A.
    """
    if species not in _gravities():
        msg = f"species is {species!r}; expected one of {', '.join(species_names())}"
        raise ValueError(msg)
    return _gravities()[species]
