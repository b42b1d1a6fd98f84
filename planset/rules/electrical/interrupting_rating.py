"""Every device interrupts the fault current that is available at it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.fault_current import fault_current_at
from planset.design.electrical.topology import Equipment, Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


_DEVICES = (Kind.BREAKER, Kind.MAIN, Kind.BATTERY)


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare each device with the current at the service, batteries with what they feed."""
    for item in design.electrical.topology.equipment:
        if item.interrupting_a is None:
            if item.kind in _DEVICES and not item.existing:
                yield _unknown(design, citation, item)
            continue
        available = fault_current_at(design.inputs, item)
        outcome = at_least_outcome(item.interrupting_a, available.current_a)
        fact = (
            f"{item.tag} interrupts {item.interrupting_a:g} A; {available.current_a:g} A is "
            f"available {available.where} ({available.source})"
        )
        change = "choose devices of a higher rating, or a listed series combination"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=item.interrupting_a,
            limit=available.current_a,
            unit="A",
            objects=(item.tag,),
            line=design.inputs.line_of("electrical", "service", "fault_current"),
        )


def _unknown(design: Design, citation: str, item: Equipment) -> Finding:
    fact = f"What {item.tag} interrupts is not stated"
    change = (
        "ask the maker, and add device_interrupting_a to the catalog entry"
        if item.kind is Kind.BATTERY
        else "ask the maker, and add interrupting to the panel in the job"
    )
    return RULE.found(
        Outcome.ASK,
        citation,
        sentence(Outcome.ASK, fact, change),
        objects=(item.tag,),
        line=design.inputs.line_of("electrical"),
    )


RULE = Rule(
    id="electrical.interrupting-rating",
    title="Interrupting ratings",
    subject="electrical",
    held_by="electrical",
    clauses=nec("interrupting_rating"),
    check=check,
)
