"""The one type in which rules and reviews report, and its outcomes."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Outcome(StrEnum):
    """How a rule came out, from the gravest to the one that asks nothing of anybody."""

    FAIL = "fail"
    OPEN = "open"
    ASK = "ask"
    ALTERNATE = "alternate"
    TIGHT = "tight"
    PASS = "pass"
    NOT_APPLICABLE = "n/a"


_GRAVITY = {outcome: place for place, outcome in enumerate(Outcome)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What one rule found about one thing.

    Attributes:
        rule: id of the rule.
        title: the rule in a few words, for tables.
        outcome: how it came out.
        measured: the value found, in `unit`; None when there is no number.
        limit: the value it was compared with, in `unit`.
        unit: unit of both numbers as printed, such as "in", "psf" or "A".
        demand: what is asked of a part, in `use_unit`, where `measured` is demand over capacity.
        capacity: what the part allows, alike.
        use_unit: unit of demand and capacity, such as "lb" or "psi".
        exception: by which exception of its clause a value beyond its limit passes, "" without one.
        citation: document, edition and clause, or "common practice, no source".
        objects: ids of the design objects concerned.
        line: line of the job file that decides the matter.
        message: one sentence; unless all is well it ends with what to change.

    Raises:
        ValueError: when a number is infinite or not a number, which JSON cannot carry.
    """

    rule: str
    title: str
    outcome: Outcome
    citation: str
    message: str
    measured: float | None = None
    limit: float | None = None
    unit: str = ""
    demand: float | None = None
    capacity: float | None = None
    use_unit: str = ""
    exception: str = ""
    objects: tuple[str, ...] = ()
    line: int | None = None

    def __post_init__(self) -> None:
        """Refuse numbers that JSON cannot carry."""
        for name in ("measured", "limit", "demand", "capacity"):
            number = getattr(self, name)
            if number is not None and not math.isfinite(number):
                msg = f"{self.rule}: {name} is {number}; use None where there is no number"
                raise ValueError(msg)

    def as_record(self) -> dict[str, object]:
        """Return the finding as plain data for JSON."""
        return {
            "rule": self.rule,
            "outcome": self.outcome.value,
            "measured": self.measured,
            "limit": self.limit,
            "unit": self.unit,
            "demand": self.demand,
            "capacity": self.capacity,
            "use_unit": self.use_unit,
            "exception": self.exception,
            "citation": self.citation,
            "objects": list(self.objects),
            "line": self.line,
            "message": self.message,
        }


def worst(findings: Iterable[Finding]) -> Outcome:
    """Return the gravest outcome among findings; `n/a` when there are none."""
    outcomes = (finding.outcome for finding in findings)
    return min(outcomes, key=_GRAVITY.__getitem__, default=Outcome.NOT_APPLICABLE)


def report_order(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings for a report: gravest first, then by rule, then by object."""
    return sorted(findings, key=lambda f: (_GRAVITY[f.outcome], f.rule, f.objects, f.message))
