"""Hooks meet the tile: at a lap of two courses and in a pan. Not computed yet."""

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
    """Say for each array on tile what the crew and the engineer must look at."""
    for array in design.mounted:
        course = format_feet_inches(design.inputs.tile.exposure)
        spacing = format_feet_inches(array.stated_mounting.attachment_spacing)
        message = (
            f"Whether the hooks of array {array.id} come out at a lap of two courses and in a pan "
            f"is not computed yet; check {spacing} spacing against {course} courses on the roof "
            "and set the first attachment to suit."
        )
        yield RULE.found(
            Outcome.OPEN,
            citation,
            message,
            objects=(array.id,),
            line=array_line(design, array.id, "mounting", "first_attachment"),
        )


RULE = Rule(
    id="structure.tile-course",
    title="Hooks at the tile courses",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
