"""Tables of numbers keyed by one column, and what editions changed."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _check, _table

EDITIONS = (2017, 2020, 2023, 2026)


@cache
def cells(name: str) -> Mapping[str, Mapping[str, float]]:
    """Read a table of numbers: first column to the others by name; a blank cell is left out."""
    table = {}
    for row in _table.rows(Path(__file__).with_name(f"{name}.csv")):
        (_, key), *others = row.items()
        table[key] = MappingProxyType({column: float(text) for column, text in others if text})
    return MappingProxyType(table)


@cache
def by_topic(name: str) -> Mapping[str, Mapping[int, str]]:
    """Read a table with a column per edition: topic to year to text; a blank cell is left out."""
    return MappingProxyType(
        {
            row["topic"]: MappingProxyType(
                {year: row[str(year)] for year in EDITIONS if row.get(str(year))}
            )
            for row in _table.rows(Path(__file__).with_name(f"{name}.csv"))
        }
    )


@cache
def remembered(name: str) -> Mapping[str, frozenset[int]]:
    """Read which cells of such a table are from memory: topic to years."""
    return MappingProxyType(
        {
            row["topic"]: frozenset(int(year) for year in row["from_memory"].split("+") if year)
            for row in _table.rows(Path(__file__).with_name(f"{name}.csv"))
        }
    )


def of_edition(name: str, topic: str, edition: int) -> str:
    """Return the text of a topic in an edition, or raise ValueError naming the ones there are."""
    known = by_topic(name)
    if topic not in known:
        msg = f"topic is {topic!r}; expected one of {', '.join(known)}"
        raise ValueError(msg)
    if edition not in known[topic]:
        years = ", ".join(str(year) for year in known[topic])
        msg = f"NEC edition is {edition}; expected one of {years} for {topic}"
        raise ValueError(msg)
    return known[topic][edition]


@cache
def _size_rows(name: str) -> tuple[Mapping[str, str], ...]:
    return tuple(_table.rows(Path(__file__).with_name(f"{name}.csv")))


def size_for(name: str, rating_a: float, material: str) -> str:
    """Return the size of the first line whose rating, in the first column, is not exceeded."""
    rows = _size_rows(name)
    ratings, *materials = rows[0]
    if material not in materials:
        msg = f"material is {material!r}; expected one of {', '.join(materials)}"
        raise ValueError(msg)
    _check.above_zero(rating_a, "rating of the overcurrent device, A,")
    for row in rows:
        if _check.at_most(rating_a, float(row[ratings])):
            return row[material]
    msg = f"rating is {rating_a:g} A; expected at most {rows[-1][ratings]} A, where the table ends"
    raise ValueError(msg)


def size_for_supply(name: str, supply_cmil: float, supply: str, material: str) -> str | None:
    """Return the size of the first line that covers a supply conductor, None past the last."""
    for row in _size_rows(name):
        largest = row[f"supply_{supply}"]
        if not largest or supply_cmil <= cells("sizes")[largest]["area_cmil"]:
            return row[material]
    return None
