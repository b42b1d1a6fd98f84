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

_COVERINGS = {"curved_tile": "tile", "asphalt_shingle": "shingle"}


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the rail at its lowest above the highest covering with the clearance asked for."""
    for one in design.mounts:
        array, section, hook = one.array, one.build_up, one.array.system.attachment
        if hook.kind == "seam_clamp":  # it holds the rail above the seam by its own height
            continue
        measured, least = section.cover_clearance_in, hook.clearance
        outcome = at_least_outcome(measured, least)
        kept = format_feet_inches(measured, rounding="down")
        required = format_feet_inches(least, rounding="up")
        covering = _COVERINGS[design.inputs.job.roof.covering.kind]
        fact = (
            f"Rails of array {array.id} pass {kept} over the highest {covering} on "
            f"{hook.name}; the maker asks for {required}"
        )
        change = f"choose an attachment that holds it higher, or measure the {covering} again"
        yield RULE.found(
            outcome,
            array.system.document,
            sentence(outcome, fact, change),
            measured=measured,
            limit=least,
            unit="in",
            objects=(array.id,),
            line=array_line(design, array.id, "mounting", "system"),
        )


RULE = Rule(
    id="structure.rail-clearance",
    title="Rail above the covering",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
