"""Direct current on a building is watched for arcs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.wiring import needs_arc_fault_protection
from planset.finding import Finding, Outcome
from planset.rules.circuits import inverter_line, inverter_of, nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the inverters whose strings reach the voltage."""
    for placed in design.inputs.job.electrical.inverters:
        strings = [s for s in design.electrical.strings if s.inverter == placed.id]
        highest = max((s.cold_voc_v for s in strings), default=0.0)
        if not needs_arc_fault_protection(highest):
            continue
        inverter = inverter_of(design, placed.id)
        outcome = Outcome.PASS if inverter.arc_fault == "integral" else Outcome.FAIL
        words = "has" if outcome is Outcome.PASS else "has no"
        fact = f"Strings of {highest:.0f} V feed {placed.id}, which {words} arc-fault protection"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "choose an inverter listed with it"),
            objects=(placed.id,),
            line=inverter_line(design, placed.id, "model"),
        )


RULE = Rule(
    id="electrical.arc-fault",
    title="Arc-fault protection",
    subject="electrical",
    held_by="electrical",
    clauses=nec("arc_fault"),
    check=check,
)
