"""The meter of what the system makes is there where the utility asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import tags_of
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for the meter that the utility's rules name."""
    electrical = design.inputs.job.electrical
    if electrical.utility_rules.production_meter == "not_required":
        return
    there = electrical.production_meter is not None
    outcome = Outcome.PASS if there else Outcome.FAIL
    fact = f"The utility asks for a production meter, and the job has {'one' if there else 'none'}"
    yield RULE.found(
        outcome,
        electrical.utility_rules.source,
        sentence(outcome, fact, "add electrical.production_meter"),
        objects=tags_of(design, Kind.METER),
        line=design.inputs.line_of("electrical"),
    )


RULE = Rule(
    id="electrical.production-meter",
    title="Production meter",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
