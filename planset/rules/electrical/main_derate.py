"""A smaller main still carries the calculated load."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
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


RULE = Rule(
    id="electrical.main-derate",
    title="Smaller main",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", dict.fromkeys((2017, 2020, 2023), "article 220")),
    check=check,
)
