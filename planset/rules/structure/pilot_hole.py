"""The lead hole of a lag screw neither splits the rafter nor leaves the thread without hold.

The relief for thin screws in soft wood (12.1.4.3: no lead hole up to 3/8 in) is not taken, as it
asks for a wood that does not split.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.finding import Finding, Outcome
from planset.rules.limits import at_least_outcome, at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the maker's lead hole with the range for the rafter's wood."""
    for fastening in design.fastenings:
        hole, (least, most) = fastening.pilot_in, fastening.pilot_range_in
        large_enough = at_least_outcome(hole, least)
        outcome = at_most_outcome(hole, most) if large_enough is Outcome.PASS else large_enough
        fact = (
            f"The {hole:.4g} in lead hole of array {fastening.array} is for wood of specific "
            f"gravity {fastening.gravity:g}, which asks for {least:.4g} to {most:.4g} in"
        )
        change = "ask the maker which hole suits this wood, and set it in the mounting system"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=hole,
            limit=most if large_enough is Outcome.PASS else least,
            unit="in",
            objects=(fastening.array,),
            line=array_line(design, fastening.array, "mounting", "system"),
        )


RULE = Rule(
    id="structure.pilot-hole",
    title="Lead hole of the lag screws",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("12.1.4.2"),  # from memory
    check=check,
)
