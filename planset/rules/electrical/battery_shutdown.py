"""A dwelling with batteries gets something outdoors that shuts them down."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.energy_storage import outdoor_means
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec, nec_without
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for the device; without one stated ask what serves for it."""
    storage = design.inputs.job.electrical.storage
    if storage is None or design.inputs.job.building.use == "other":
        return
    fact = f"{storage.id} belongs to a dwelling, which needs {outdoor_means(edition)} outdoors"
    switch, outcome = storage.shutdown_switch, Outcome.ASK
    if switch is not None:
        fact, outcome = f"{fact}: {switch.id}, {switch.location}", Outcome.PASS
    change = (
        "ask whether the disconnect outdoors serves for it, and state it in storage.shutdown_switch"
    )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=(storage.id,),
        line=design.inputs.line_of("electrical", "storage"),
    )


RULE = Rule(
    id="electrical.battery-shutdown",
    title="Emergency shutdown of the batteries",
    subject="electrical",
    held_by="electrical",
    clauses=nec("energy_storage_shutdown"),
    check=check,
    not_in=nec_without("energy_storage_shutdown"),
)
