"""The batteries can be parted from everything else."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for a disconnect in the units; one apart cannot be stated yet."""
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    if storage is None or battery is None:
        return
    there = battery.disconnect == "integral"
    outcome = Outcome.PASS if there else Outcome.FAIL
    fact = f"{battery.model} has {'an integral' if there else 'no'} disconnect"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "choose units with a lockable disconnect"),
        objects=(storage.id,),
        line=design.inputs.line_of("electrical", "storage", "model"),
    )


RULE = Rule(
    id="electrical.battery-disconnect",
    title="Disconnect of the batteries",
    subject="electrical",
    held_by="electrical",
    clauses=nec("energy_storage_disconnect"),
    check=check,
)
