"""A grounding conductor in the open is thick enough to need no protection."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.grounding import SMALLEST_EXPOSED, needs_protection
from planset.finding import Finding, Outcome
from planset.rules.circuits import ends_of, named, nec, run_line, sized
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the runs without a raceway."""
    for segment, run in sized(design):
        if run.raceway:
            continue
        outcome = Outcome.FAIL if needs_protection(run.grounding) else Outcome.PASS
        fact = (
            f"{named(segment)} has a grounding conductor of {run.grounding} AWG in the open, where "
            f"one smaller than {SMALLEST_EXPOSED} AWG needs protection against damage"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, f"take {SMALLEST_EXPOSED} AWG, or leave it open"),
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.exposed-grounding",
    title="Grounding conductors in the open",
    subject="electrical",
    held_by="electrical",
    clauses=nec("exposed_grounding"),
    check=check,
)
