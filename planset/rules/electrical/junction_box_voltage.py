"""Boxes on the roof are rated for the voltage of the strings in them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the highest maximum of its strings with the rating, which must be stated."""
    for place, box in enumerate(design.inputs.job.electrical.junction_boxes):
        held = [s.cold_voc_v for s in design.electrical.strings if s.junction_box == box.id]
        if not held:
            continue
        line = design.inputs.line_of("electrical", "junction_boxes", place)
        highest = max(held)
        if box.voltage is None:
            fact = f"{box.id} holds strings of up to {highest:.1f} V, and its rating is not stated"
            yield RULE.found(
                Outcome.FAIL,
                citation,
                sentence(Outcome.FAIL, fact, "add voltage to it, as marked on it"),
                objects=(box.id,),
                line=line,
            )
            continue
        outcome = at_most_outcome(highest, box.voltage)
        fact = f"{box.id} holds strings of up to {highest:.1f} V; it is rated {box.voltage:g} V"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "choose a box, and joints in it, rated for the voltage"),
            measured=highest,
            limit=box.voltage,
            unit="V",
            objects=(box.id,),
            line=line,
        )


RULE = Rule(
    id="electrical.junction-box-voltage",
    title="Voltage rating of the boxes",
    subject="electrical",
    held_by="electrical",
    clauses=nec("voltage_limit"),
    check=check,
)
