"""Direct current is watched for faults to ground."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import inverter_line, inverter_of, nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at every inverter that strings feed."""
    for placed in design.inputs.job.electrical.inverters:
        inverter = inverter_of(design, placed.id)
        outcome = Outcome.PASS if inverter.ground_fault == "integral" else Outcome.FAIL
        words = "has" if outcome is Outcome.PASS else "has no"
        yield RULE.found(
            outcome,
            citation,
            sentence(
                outcome,
                f"{placed.id}, {inverter.model}, {words} ground-fault protection",
                "choose an inverter listed with it",
            ),
            objects=(placed.id,),
            line=inverter_line(design, placed.id, "model"),
        )


RULE = Rule(
    id="electrical.ground-fault",
    title="Ground-fault protection",
    subject="electrical",
    held_by="electrical",
    clauses=nec("ground_fault"),
    check=check,
)
