"""Batteries in a dwelling stay at a low voltage unless nobody can touch what is live."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.energy_storage import DWELLING_LIMIT_V, ENCLOSED_LIMIT_V
from planset.finding import Finding
from planset.rules.circuits import nec
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the voltage; live parts out of reach lift the limit to a higher one."""
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    if storage is None or battery is None or design.inputs.job.building.use == "other":
        return
    enclosed = battery.live_parts == "enclosed"
    limit_v = ENCLOSED_LIMIT_V if enclosed else DWELLING_LIMIT_V
    outcome = at_most_outcome(battery.max_v, limit_v)
    fact = (
        f"{battery.model} has up to {battery.max_v:g} V, where {limit_v:g} V is the most in a "
        f"dwelling with live parts that are {battery.live_parts}"
    )
    change = "choose batteries of a lower voltage"
    change += "" if enclosed else ", or with enclosed live parts"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=battery.max_v,
        limit=limit_v,
        unit="V",
        objects=(storage.id,),
        line=design.inputs.line_of("electrical", "storage", "model"),
    )


RULE = Rule(
    id="electrical.battery-voltage",
    title="Voltage of the batteries",
    subject="electrical",
    held_by="electrical",
    clauses=nec("energy_storage_voltage"),
    check=check,
)
