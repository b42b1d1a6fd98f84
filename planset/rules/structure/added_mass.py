"""What the arrays add to the mass that an earthquake moves stays small."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.iebc.lateral import CLAUSES, GREATEST_INCREASE
from planset.finding import Finding, Outcome
from planset.rules.model_codes import with_california
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the weight of the arrays with that of the roof alone, which is safe."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for added in design.loads.mass:
        fact = (
            f"The arrays weigh {added.arrays_lb:.0f} lb, the roof of "
            f"{added.building or 'the house'} alone {added.roof_lb:.0f} lb"
        )
        within = added.share <= GREATEST_INCREASE
        change = (
            "Count the walls too and show the increase of every lateral element, or ask the plan "
            "reviewer to accept it."
        )
        yield RULE.found(
            Outcome.PASS if within else Outcome.ASK,
            citation,
            f"{fact}." if within else f"{fact}. {change}",
            measured=round(100 * added.share, 6),
            limit=100 * GREATEST_INCREASE,
            unit="%",
            objects=(added.building,) if added.building else (),
            line=design.inputs.line_of("framing", "roof_dead_load"),
        )


RULE = Rule(
    id="structure.added-mass",
    title="Mass added for earthquakes",
    subject="structure",
    held_by="existing",
    clauses=with_california("IEBC", "CEBC", CLAUSES),
    check=check,
    of_mounting=True,
)
