"""Conductors carry 125 % of the current in the column of their weakest terminal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import cite_conductors, ends_of, named, nec, run_line, sized
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the ampacity before any factor with 125 % of the maximum current."""
    for segment, run in sized(design):
        test = run.check
        outcome = at_least_outcome(test.terminal_ampacity_a, test.terminal_demand_a)
        fact = (
            f"{named(segment)} needs {test.terminal_demand_a:.2f} A at its terminals, 125 % of "
            f"{test.demand_a:.2f} A; {run.size} AWG {run.material} has "
            f"{test.terminal_ampacity_a:g} A in their column"
        )
        yield RULE.found(
            outcome,
            cite_conductors(segment, edition),
            sentence(outcome, fact, "take a larger size, or leave it open"),
            measured=test.terminal_ampacity_a,
            limit=test.terminal_demand_a,
            unit="A",
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.conductor-terminals",
    title="Conductors at their terminals",
    subject="electrical",
    held_by="electrical",
    clauses=nec("dc_conductor"),
    check=check,
)
