"""An inverter can be parted from its strings."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import inverter_line, inverter_of, nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for a disconnect in the inverter or before it, rated for voltage and current."""
    electrical = design.electrical
    for placed in design.inputs.job.electrical.inverters:
        inverter, apart = inverter_of(design, placed.id), placed.dc_disconnect
        strings = [s for s in electrical.strings if s.inverter == placed.id]
        highest = max((s.cold_voc_v for s in strings), default=0.0)
        current = 1.25 * max((s.maximum_current_a for s in strings), default=0.0)
        if apart is not None:
            suits = apart.voltage >= highest and apart.rating >= current
            fact = (
                f"{apart.id} is rated {apart.voltage:g} V and {apart.rating:g} A, for "
                f"{highest:.1f} V and {current:.2f} A per string"
            )
        else:
            suits = inverter.dc_disconnect == "integral"
            fact = f"{placed.id} has {'an integral' if suits else 'no'} dc disconnect"
        outcome = Outcome.PASS if suits else Outcome.FAIL
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "add dc_disconnect to the inverter, rated for its strings"),
            objects=(placed.id,),
            line=inverter_line(design, placed.id),
        )


RULE = Rule(
    id="electrical.dc-disconnect",
    title="Disconnect at the inverter's input",
    subject="electrical",
    held_by="electrical",
    clauses=nec("equipment_disconnect"),
    check=check,
)
