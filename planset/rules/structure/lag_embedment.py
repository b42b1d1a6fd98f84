"""Lag screws reach far enough into the rafter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.finding import Finding
from planset.rules.lines import array_line
from planset.rules.ratios import use_outcome, use_ratio
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the thread in the rafter, tip not counted, with the least penetration."""
    for fastening in design.fastenings:
        outcome = use_outcome(use_ratio(fastening.minimum_in, fastening.penetration_in))
        fact = (
            f"Lag screws of array {fastening.array} hold with {fastening.penetration_in:.2f} in "
            f"of thread, tip not counted; at least {fastening.minimum_in:.2f} in is required"
        )
        change = "choose a mounting system with longer lag screws that suit the rafter"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=fastening.penetration_in,
            limit=fastening.minimum_in,
            unit="in",
            objects=(fastening.array,),
            line=array_line(design, fastening.array, "mounting", "system"),
        )


RULE = Rule(
    id="structure.lag-embedment",
    title="Lag screw penetration",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("12.1.4.6"),
    check=check,
)
