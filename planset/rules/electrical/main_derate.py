"""A smaller main still carries the calculated load, with all that a hybrid inverter takes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.design.electrical.storage import hybrid_id
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for the load calculation, and compare its load with the main."""
    derate = design.electrical.derate
    if derate is None:
        return
    line = design.inputs.line_of("electrical", "main_derate")
    if derate.load_a is None:
        fact = f"The main goes from {derate.old_a:g} A to {derate.new_a:g} A without its load known"
        change = "add main_derate.calculation, worked out by article 220"
        yield RULE.found(
            Outcome.FAIL,
            citation,
            sentence(Outcome.FAIL, fact, change),
            objects=("MSP-MAIN",),
            line=line,
        )
        return
    outcome = at_most_outcome(derate.load_a, derate.new_a)
    fact = f"The new main of {derate.new_a:g} A carries {derate.load_a:g} A by the load calculation"
    yield RULE.found(
        outcome,
        citation,
        sentence(
            outcome, fact, "keep the larger main, and connect ahead of it or control the power"
        ),
        measured=derate.load_a,
        limit=derate.new_a,
        unit="A",
        objects=("MSP-MAIN",),
        line=line,
    )
    yield from _import(design, citation)


def _import(design: Design, citation: str) -> Iterator[Finding]:
    """Ask whether backup loads and charging are in the load, unless it is said that they are."""
    change = design.inputs.job.electrical.main_derate
    hybrid = hybrid_id(design.inputs)
    if hybrid is None or change is None or change.calculation is None:
        return
    covered = change.calculation.covers_backup
    outcome = Outcome.PASS if covered else Outcome.ASK
    words = "counts" if covered else "is not said to count"
    fact = f"The load calculation {words} what {hybrid} takes for backup loads and charging"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "ask who made it, and write covers_backup: true once they are in"),
        objects=("MSP-MAIN", hybrid),
        line=design.inputs.line_of("electrical", "main_derate", "calculation"),
    )


RULE = Rule(
    id="electrical.main-derate",
    title="Smaller main",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", dict.fromkeys((2017, 2020, 2023), "article 220")),
    check=check,
)
