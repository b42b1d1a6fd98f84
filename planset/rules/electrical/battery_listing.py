"""The battery is one that the hybrid inverter is listed with."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.storage import hybrid_id
from planset.finding import Finding, Outcome
from planset.rules.circuits import inverter_of, nec
from planset.rules.listed_names import names
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for the battery's model among what the inverter's battery port is listed with."""
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    hybrid = hybrid_id(design.inputs)
    if storage is None or battery is None or hybrid is None:
        return
    inverter = inverter_of(design, hybrid)
    port = inverter.battery
    assert port is not None, "a hybrid inverter has a battery port; its catalog model sees to it"
    outcome = Outcome.PASS if names(port.listed_with, battery.model) else Outcome.FAIL
    fact = f"{storage.id} is a {battery.model}; {inverter.document} has {inverter.model} listed "
    fact += f"with {port.listed_with}"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "take a battery that it is listed with, or another inverter"),
        objects=(storage.id,),
        line=design.inputs.line_of("electrical", "storage", "model"),
    )


RULE = Rule(
    id="electrical.battery-listing",
    title="Battery and inverter, listed together",
    subject="electrical",
    held_by="electrical",
    clauses=nec("instructions"),
    check=check,
    accepts_alternate=False,
)
