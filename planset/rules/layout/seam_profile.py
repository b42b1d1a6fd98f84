"""A seam clamp was tested on the seam it is set on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.attachment import SeamClampAttachment
from planset.finding import Finding, Outcome
from planset.job.covering import StandingSeam
from planset.rules.documented import cited
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look the seam of the roof up among those the clamp was tested on."""
    covering = design.inputs.job.roof.covering
    for array in design.mounted:
        clamp = array.system.attachment
        if not isinstance(clamp, SeamClampAttachment) or not isinstance(covering, StandingSeam):
            continue
        known = covering.profile in clamp.profiles
        outcome = Outcome.PASS if known else Outcome.FAIL
        tested = ", ".join(clamp.profiles)
        fact = f"The seam of the roof is {covering.profile}; {clamp.name} was tested on {tested}"
        yield RULE.found(
            outcome,
            cited(clamp.uplift),
            sentence(outcome, fact, "choose a clamp that was tested on this seam"),
            objects=(array.id,),
            line=array_line(design, array.id, "mounting", "system"),
        )


RULE = Rule(
    id="layout.seam-profile",
    title="Seam that the clamp was tested on",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
