"""A dwelling with batteries gets an emergency shutdown device outdoors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec, nec_without
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Ask what serves for it: the job does not state such a device apart."""
    storage = design.inputs.job.electrical.storage
    if storage is None or design.inputs.job.building.use == "other":
        return
    fact = f"{storage.id} belongs to a dwelling, which needs an emergency shutdown device outdoors"
    change = "ask whether the disconnect outdoors serves for it, and how it is marked"
    yield RULE.found(
        Outcome.ASK,
        citation,
        sentence(Outcome.ASK, fact, change),
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
