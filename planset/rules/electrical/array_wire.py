"""Single conductors in the open array are made for it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import ends_of, named, nec, run_line, sized
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


_MADE_FOR_IT = ("PV wire", "USE-2", "RHW-2")


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the runs without a raceway on the dc side."""
    for segment, run in sized(design):
        if segment.ac or run.raceway:
            continue
        outcome = Outcome.PASS if run.insulation in _MADE_FOR_IT else Outcome.FAIL
        fact = f"{named(segment)} is of single conductors {run.insulation} in the open"
        change = "take PV wire, or USE-2 or RHW-2 that is sunlight resistant"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            objects=ends_of(segment),
            line=run_line(design, segment, "insulation"),
        )


RULE = Rule(
    id="electrical.array-wire",
    title="Conductors in the array",
    subject="electrical",
    held_by="electrical",
    clauses=nec("array_wire"),
    check=check,
)
