"""Rapid shutdown of photovoltaic systems on buildings by NEC 690.12."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from planset.codes import _table


@dataclass(frozen=True, slots=True)
class RapidShutdown:
    """The numbers of one edition's rapid shutdown rule.

    The limit inside the boundary is one of the rule's choices: an array listed for the purpose
    meets the rule without it.

    Attributes:
        edition: Year of the code.
        boundary_in: Distance of the boundary from the array, in all directions [in].
        outside_limit_v: Highest voltage left outside the boundary [V].
        outside_time_s: Time from initiation to that voltage [s].
        inside_limit_v: Highest voltage left inside the boundary [V].
        inside_time_s: Time from initiation to that voltage [s].
        label_clause: Where the edition asks for the label.

    Source: NEC 2017, 2020 and 2023, 690.12(B)(1) and (B)(2).
    """

    edition: int
    boundary_in: float
    outside_limit_v: float
    outside_time_s: float
    inside_limit_v: float
    inside_time_s: float
    label_clause: str


@cache
def _requirements() -> Mapping[int, RapidShutdown]:
    rows = _table.rows(Path(__file__).with_name("rapid_shutdown.csv"))
    return MappingProxyType({int(row["edition"]): _requirement(row) for row in rows})


def _requirement(row: Mapping[str, str]) -> RapidShutdown:
    return RapidShutdown(
        edition=int(row["edition"]),
        boundary_in=float(row["boundary_in"]),
        outside_limit_v=float(row["outside_limit_v"]),
        outside_time_s=float(row["outside_time_s"]),
        inside_limit_v=float(row["inside_limit_v"]),
        inside_time_s=float(row["inside_time_s"]),
        label_clause=row["label_clause"],
    )


def editions() -> tuple[int, ...]:
    """Years of the editions in the table.

    Source: NEC 2017, 2020 and 2023, 690.12(B).
    """
    return tuple(_requirements())


def requirement(edition: int) -> RapidShutdown:
    """The rapid shutdown numbers of an edition.

    Args:
        edition: Year of the NEC: 2017, 2020 or 2023.

    Returns:
        The numbers of that edition.

    Raises:
        ValueError: Edition not in the table.

    Source: NEC 2017, 2020 and 2023, 690.12(B)(1) and (B)(2).
    """
    if edition not in _requirements():
        known = ", ".join(str(year) for year in _requirements())
        msg = f"NEC edition is {edition}; expected one of {known}; no other is covered yet"
        raise ValueError(msg)
    return _requirements()[edition]
