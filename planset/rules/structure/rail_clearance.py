"""The rail passes over the highest tile with the clearance that its maker asks for.

The heights stack up from manufactured parts and the surveyed tile, and the crew sets none of them
out. So the build tolerance, several times the clearance itself, does not apply: it is met or not.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.limits import at_least_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the underside of the rail above the highest cover with the hook's clearance."""
    for array, section in zip(design.mounted, design.build_ups, strict=True):
        hook = array.system.attachment
        measured, least = section.cover_clearance_in, hook.clearance_above_tile
        outcome = at_least_outcome(measured, least)
        kept = format_feet_inches(measured, rounding="down")
        required = format_feet_inches(least, rounding="up")
        fact = (
            f"Rails of array {array.id} pass {kept} over the highest tile on {hook.name}; the "
            f"maker asks for {required}"
        )
        yield RULE.found(
            outcome,
            array.system.document,
            sentence(outcome, fact, "choose a hook with a higher arm, or measure the tile again"),
            measured=measured,
            limit=least,
            unit="in",
            objects=(array.id,),
            line=array_line(design, array.id, "mounting", "system"),
        )


RULE = Rule(
    id="structure.rail-clearance",
    title="Rail above the tile",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
