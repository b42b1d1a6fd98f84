"""Batteries in a dwelling stay at a low voltage unless nobody can touch what is live."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.codes.nec.energy_storage import DWELLING_LIMIT_V
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the voltage; enclosed live parts lift the limit."""
    storage, battery = design.inputs.job.electrical.storage, design.inputs.battery
    if storage is None or battery is None or design.inputs.job.building.use == "other":
        return
    enclosed = battery.live_parts == "enclosed"
    met = enclosed or battery.max_v <= DWELLING_LIMIT_V
    outcome = Outcome.PASS if met else Outcome.FAIL
    fact = (
        f"{battery.model} has up to {battery.max_v:g} V, over {DWELLING_LIMIT_V:g} V only with "
        f"live parts out of reach; they are {battery.live_parts}"
    )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "choose batteries with enclosed live parts"),
        objects=(storage.id,),
        line=design.inputs.line_of("electrical", "storage", "model"),
    )


RULE = Rule(
    id="electrical.battery-voltage",
    title="Voltage of the batteries",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", dict.fromkeys((2017, 2020, 2023), "706.20(B)")),  # from memory
    check=check,
)
