"""Authorities read the sum on a bus in two ways: by currents, as the code says, or by breakers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Ask where the sum holds by current and does not by the ratings of the breakers."""
    for bus in design.electrical.buses:
        reading = bus.by_device
        if reading is None or bus.chosen.topic != "busbar_opposite_ends" or not bus.chosen.holds:
            continue
        outcome = Outcome.PASS if reading.holds else Outcome.ASK
        fact = (
            f"On {bus.tag} main and source breakers make {reading.demand_a:g} A, where "
            f"{reading.limit_a:g} A is allowed; main and 125 % of the current make "
            f"{bus.chosen.demand_a:.2f} A, which the text of the code counts"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "ask which of the two readings the authority goes by"),
            measured=reading.demand_a,
            limit=reading.limit_a,
            unit="A",
            objects=(f"{bus.tag}-BUS",),
            line=design.inputs.line_of("electrical", "interconnection"),
        )


RULE = Rule(
    id="electrical.busbar-reading",
    title="Load on the busbar, read by breakers",
    subject="electrical",
    held_by="electrical",
    clauses=nec("busbar_opposite_ends"),
    check=check,
)
