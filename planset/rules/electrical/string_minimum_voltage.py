"""Each string keeps the inverter working on the hottest day."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import inverter_of
from planset.rules.limits import at_least_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the hot operating voltage with the inverter's least; no code asks for it."""
    for string in design.electrical.strings:
        if string.converter:
            continue  # the inverter holds the voltage
        inverter = inverter_of(design, string.inverter)
        least_v = max(inverter.mppt_low_v, inverter.start_v)
        met = at_least_outcome(string.hot_vmp_v, least_v) is Outcome.PASS
        outcome = Outcome.PASS if met else Outcome.ASK
        fact = (
            f"String {string.id} works at {string.hot_vmp_v:.1f} V with cells at "
            f"{string.hot_cell_c:.0f} C; the inverter works and starts from {least_v:g} V"
        )
        change = f"add modules to string {string.id}, or ask the inverter's maker to accept it"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=string.hot_vmp_v,
            limit=least_v,
            unit="V",
            objects=(string.id,),
            line=string_line(design, string.id, "modules"),
        )


RULE = Rule(
    id="electrical.string-minimum-voltage",
    title="Least string voltage",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
