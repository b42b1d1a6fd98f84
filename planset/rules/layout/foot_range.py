"""What the roof is out of plane, feet and attachments can take up."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.rules.survey import not_surveyed
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_HOW = (
    "stretch a string over the rafters across the area of the array, in several places both ways, "
    "and write the greatest height of the roof over it less the least"
)


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the unevenness of each array's plane with the range of its parts."""
    survey = design.inputs.job.survey
    for array in design.mounted:
        uneven = survey.unevenness_on(array.plane.id) if survey else None
        if uneven is None:
            yield not_surveyed(RULE, design, citation, array, "unevenness", _HOW)
            continue
        system = array.system
        outcome = at_most_outcome(uneven, system.adjustment_in)
        found = format_feet_inches(uneven, rounding="up")
        range_of = format_feet_inches(system.adjustment_in, rounding="down")
        fact = (
            f"The roof under array {array.id} is {found} uneven; {system.model} takes up {range_of}"
        )
        if system.adjustment_in == 0:
            fact = (
                f"The roof under array {array.id} is {found} uneven, and nothing of {system.model} "
                "can be set to another height"
            )
        fields = "foot.lowest and foot.highest" if system.foot else "attachment.adjustment"
        change = (
            f"choose a system with more range, correct {fields} in its catalog file where the "
            "maker states another range, or have the roof trued"
        )
        yield RULE.found(
            outcome,
            system.document,
            sentence(outcome, fact, change),
            measured=uneven,
            limit=system.adjustment_in,
            unit="in",
            objects=(array.id,),
            line=array_line(design, array.id, "mounting", "system"),
        )


RULE = Rule(
    id="layout.foot-range",
    title="Unevenness within the range of the feet",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
