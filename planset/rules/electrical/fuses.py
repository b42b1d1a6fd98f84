"""Fuses suit the voltage and the fault current of the service."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare what is marked on them; ask where that is not stated."""
    electrical = design.inputs.job.electrical
    if not electrical.disconnect.fused:
        return
    marked, service = electrical.disconnect.fuses, electrical.service
    outcome, change = Outcome.ASK, "state them in disconnect.fuses, as type, voltage, interrupting"
    if marked is None:
        fact = "Class, voltage and interrupting rating of the fuses in DISC1 are not stated"
    else:
        enough = marked.interrupting >= service.fault_current and marked.voltage >= service.voltage
        outcome = Outcome.PASS if enough else Outcome.FAIL
        change = "choose fuses of a higher rating"
        fact = (
            f"The class {marked.type} fuses in DISC1 are for {marked.voltage:g} V and interrupt "
            f"{marked.interrupting:g} A, where the service has {service.voltage:g} V and "
            f"{service.fault_current:g} A is available"
        )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=("DISC1",),
        line=design.inputs.line_of("electrical", "disconnect"),
    )


RULE = Rule(
    id="electrical.fuses",
    title="Fuses of the disconnect",
    subject="electrical",
    held_by="electrical",
    clauses=nec("interrupting_rating"),
    check=check,
)
