"""Where attachments are staggered, neighboring rails share no rafter or seam."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.staggering import shared_lines
from planset.finding import Finding
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Count the lines that two neighboring rails both stand on, of arrays that are staggered."""
    for one in design.mounts:
        if not one.array.stated_mounting.stagger:
            continue
        shared = list(shared_lines(one.racking))
        outcome = at_most_outcome(len(shared), 0)
        fact = f"Neighboring rails of array {one.id} share no rafter or seam"
        if shared:
            rail, other, number = shared[0]
            fact = (
                f"Rails of array {one.id} meet their neighbors on {len(shared)} rafters or seams, "
                f"{rail} and {other} on {number} first"
            )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "set attach_every to 2 or more, or move a pinned attachment"),
            measured=float(len(shared)),
            limit=0.0,
            unit="shared",
            objects=(one.id, *(shared[0][:2] if shared else ())),
            line=array_line(design, one.id, "mounting", "stagger"),
        )


RULE = Rule(
    id="layout.stagger",
    title="Staggered attachments",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
