"""Every run has an equipment grounding conductor that is large enough."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.conductors import area_cmil
from planset.finding import Finding, Outcome
from planset.rules.circuits import cite_grounding, ends_of, named, nec, run_line, sized
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare its size with the table's, and with what larger circuit conductors ask."""
    for segment, run in sized(design):
        large = area_cmil(run.grounding) >= area_cmil(run.grounding_least)
        outcome = Outcome.PASS if large else Outcome.FAIL
        fact = (
            f"{named(segment)} has a grounding conductor of {run.grounding} AWG "
            f"{run.grounding_material}; "
            f"{run.grounding_least} AWG is the least, by {run.grounding_reason}"
        )
        yield RULE.found(
            outcome,
            cite_grounding(segment, edition),
            sentence(outcome, fact, f"take {run.grounding_least} AWG, or leave it open"),
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.equipment-grounding",
    title="Equipment grounding conductors",
    subject="electrical",
    held_by="electrical",
    clauses=nec("equipment_grounding"),
    check=check,
)
