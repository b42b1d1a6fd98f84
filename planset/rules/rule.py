"""What a rule is: the clause it states in each edition, and the check that judges a design."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from planset.citation import CodeEdition
from planset.finding import Finding, Outcome

if TYPE_CHECKING:
    from planset.design.design import Design

Subject = Literal["fire access", "structure", "layout", "electrical"]
HeldBy = Literal[
    "dwelling access",
    "fire",
    "residential",
    "building",
    "existing",
    "loads",
    "wood",
    "electrical",
    "",
]
Concerns = Literal["dwellings", "other buildings", ""]
Check = Callable[["Design", str, int], Iterable[Finding]]

COMMON_PRACTICE = "common practice, no source"
"""Citation of a trade rule that no book states."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule.

    Attributes:
        id: folder and file, such as "fire.ridge-setback".
        title: the rule in a few words, for tables.
        subject: heading it is reported under.
        held_by: the adopted code that decides: one of the jurisdiction's, or "dwelling access",
            the residential or the fire code, whichever holds there for access to dwellings; ""
            for a trade rule, a maker's limit or a clause of the jurisdiction, which no edition
            changes.
        clauses: clause in each edition, of any document, that has the rule; empty when no adopted
            code decides.
        check: judges a design; takes the design, the citation and the year of the edition (0 when
            no adopted code decides) and yields findings. It never asks which edition it is:
            numbers that differ come from `codes`.
        not_in: editions that have no such rule.
        concerns: the buildings it is for, "" for all.
        is_idle: tells of a design that nothing in it is subject to the rule in any edition, known
            to this program or not; None where only the check can tell.
        of_mounting: whether every array is subject to it by the way it is mounted, so that it is
            undetermined where another designer answers for the mounting.
        accepts_alternate: whether the authority having jurisdiction may approve something else.
    """

    id: str
    title: str
    subject: Subject
    held_by: HeldBy
    clauses: Mapping[CodeEdition, str]
    check: Check
    not_in: frozenset[CodeEdition] = frozenset()
    concerns: Concerns = ""
    is_idle: Callable[[Design], bool] | None = None
    of_mounting: bool = False
    accepts_alternate: bool = True

    def found(
        self,
        outcome: Outcome,
        citation: str,
        message: str,
        *,
        measured: float | None = None,
        limit: float | None = None,
        unit: str = "",
        demand: float | None = None,
        capacity: float | None = None,
        use_unit: str = "",
        exception: str = "",
        objects: tuple[str, ...] = (),
        line: int | None = None,
    ) -> Finding:
        """Return a finding of this rule; the arguments are those of `Finding`."""
        return Finding(
            rule=self.id,
            title=self.title,
            outcome=outcome,
            citation=citation,
            message=message,
            measured=measured,
            limit=limit,
            unit=unit,
            demand=demand,
            capacity=capacity,
            use_unit=use_unit,
            exception=exception,
            objects=objects,
            line=line,
        )


def cite(document: str, edition: int, clause: str = "") -> str:
    """Return a citation as it is printed: "IRC 2021 R324.6.2", "ASCE 7-16 29.4.4"."""
    return CodeEdition(document, edition).cite(clause)


def sentence(outcome: Outcome, fact: str, change: str) -> str:
    """Return what was found, and what to change unless all is well."""
    return f"{fact}." if outcome is Outcome.PASS else f"{fact}; {change}."
