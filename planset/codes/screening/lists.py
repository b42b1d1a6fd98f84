"""Screening lists, judged item by item: met, not met, or not known."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from planset.codes import _check, _table

_Fact = float | bool | str | None
_Outcome = Literal["met", "not met", "unknown"]

TRUSS_LIST = "truss"
"""The list for roofs on trusses; its first item is the truss designer's letter.

Source: Oregon Solar Installation Specialty Code 2010, 305.4, for the spacing; the letter is common
practice, no source.
"""


@dataclass(frozen=True, slots=True)
class Item:
    """One line of a list.

    Attributes:
        fact: Name of the fact it asks for, its unit at the end.
        test: "yes", the fact must hold; "range", low to high; "one of" the allowed words.
        low: Least value, None without one.
        high: Greatest value, None without one.
        allowed: Words that meet it.
        words: What it asks, for a reader.

    Source: Oregon Solar Installation Specialty Code 2010, 305.4; the table names the other lists.
    """

    fact: str
    test: str
    low: float | None
    high: float | None
    allowed: frozenset[str]
    words: str


@dataclass(frozen=True, slots=True)
class Judged:
    """One line of a list and what became of it.

    Attributes:
        item: The line.
        value: The fact, None where it is not known.
        outcome: "met", "not met" or "unknown".

    Source: Oregon Solar Installation Specialty Code 2010, 305.4; the table names the other lists.
    """

    item: Item
    value: _Fact
    outcome: _Outcome


@cache
def _lists() -> Mapping[str, tuple[Item, ...]]:
    found: dict[str, tuple[Item, ...]] = {}
    for row in _table.rows(Path(__file__).with_name("criteria.csv")):
        item = Item(
            row["fact"],
            row["test"],
            float(row["low"]) if row["low"] else None,
            float(row["high"]) if row["high"] else None,
            frozenset(row["allowed"].split()),
            row["words"],
        )
        found[row["list"]] = (*found.get(row["list"], ()), item)
    return MappingProxyType(found)


def list_names() -> tuple[str, ...]:
    """Names of the lists.

    Source: Oregon Solar Installation Specialty Code 2010, 305.4; the table names the other lists.
    """
    return tuple(_lists())


def items(name: str) -> tuple[Item, ...]:
    """Lines of a list.

    Args:
        name: A name from `list_names`.

    Raises:
        ValueError: No such list.

    Source: Oregon Solar Installation Specialty Code 2010, 305.4; the table names the other lists.
    """
    if name not in _lists():
        msg = f"screening list is {name!r}; expected one of {', '.join(_lists())}"
        raise ValueError(msg)
    return _lists()[name]


def judge(name: str, facts: Mapping[str, _Fact]) -> tuple[Judged, ...]:
    """Judge every line of a list.

    Args:
        name: A name from `list_names`.
        facts: _Fact by name; one that is missing or None is not known.

    Returns:
        The lines in order. Nobody is refused by a line: an engineer takes over what is not met.

    Raises:
        ValueError: No such list, or a fact of the wrong kind.

    Source: Oregon Solar Installation Specialty Code 2010, 305.4; the table names the other lists.
    """
    judged = []
    for item in items(name):
        value = facts.get(item.fact)
        judged.append(Judged(item, value, _outcome(item, value)))
    return tuple(judged)


def overall(judged: tuple[Judged, ...]) -> _Outcome:
    """Sum of a list: not met where a line fails, unknown where one is not known, else met.

    Args:
        judged: The lines of one list.

    Source: Oregon Solar Installation Specialty Code 2010, 305.4; the table names the other lists.
    """
    outcomes = {line.outcome for line in judged}
    if "not met" in outcomes:
        return "not met"
    return "unknown" if "unknown" in outcomes else "met"


def _outcome(item: Item, value: _Fact) -> _Outcome:
    if value is None:
        return "unknown"
    kind = "yes" if isinstance(value, bool) else "one of" if isinstance(value, str) else "range"
    if kind != item.test:
        msg = f"{item.fact} is {value!r}, which does not answer {item.words!r}"
        raise ValueError(msg)
    return "met" if _holds(item, value) else "not met"


def _holds(item: Item, value: float | bool | str) -> bool:
    if isinstance(value, bool):
        return value
    if isinstance(value, str):
        return value in item.allowed
    above = item.low is None or _check.at_most(item.low, value)
    return above and (item.high is None or _check.at_most(value, item.high))
