"""Every device at the service interrupts the fault current that is available there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import nec
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare each marked device with the current at the service, which is no less farther on."""
    service = design.inputs.job.electrical.service
    for item in design.electrical.topology.equipment:
        if item.interrupting_a is None:
            continue
        outcome = at_least_outcome(item.interrupting_a, service.fault_current)
        fact = (
            f"{item.tag} interrupts {item.interrupting_a:g} A; {service.fault_current:g} A is "
            f"available at the service ({service.fault_source})"
        )
        change = "choose devices of a higher rating, or a listed series combination"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=item.interrupting_a,
            limit=service.fault_current,
            unit="A",
            objects=(item.tag,),
            line=design.inputs.line_of("electrical", "service", "fault_current"),
        )


RULE = Rule(
    id="electrical.interrupting-rating",
    title="Interrupting ratings",
    subject="electrical",
    held_by="electrical",
    clauses=nec("interrupting_rating"),
    check=check,
)
