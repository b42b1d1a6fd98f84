"""Rails span between attachments and past the last one. Not compared with span tables yet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say for each array which span must be found in the maker's table."""
    for array in design.mounted:
        span = format_feet_inches(array.stated_mounting.attachment_spacing, rounding="up")
        message = (
            f"Rail span {span}, the cantilevers of array {array.id} and the spans along its module "
            f"edges are not compared with the tables of {array.system.model} yet; have the "
            "engineer look them up by hand."
        )
        yield RULE.found(
            Outcome.OPEN,
            array.system.document,
            message,
            objects=(array.id,),
            line=array_line(design, array.id, "mounting", "attachment_spacing"),
        )


RULE = Rule(
    id="structure.rail-span",
    title="Rail span and cantilever",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
