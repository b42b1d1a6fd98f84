"""What snow does beyond lying still: it drifts, slides, and falls on lower roofs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say what was taken on each plane, and what the engineer must still look at."""
    line = design.inputs.line_of("site", "ground_snow")
    for plane, snow in design.loads.snow.items():
        if snow.unbalanced_open:
            message = (
                f"Unbalanced snow on {plane} is not computed: {snow.unbalanced_open}. Add it, or "
                "have the engineer check rafters and attachments for it by hand."
            )
            yield RULE.found(Outcome.OPEN, citation, message, objects=(plane,), line=line)
            continue
        message = (
            f"Modules on {plane} take {snow.on_panels_psf:.1f} psf and the bare roof "
            f"{snow.on_roof_psf:.1f} psf on the horizontal projection, unbalanced snow included. "
            "Snow that slides on lower roofs or drifts against walls is not computed; ask the "
            "plan reviewer whether it must be."
        )
        yield RULE.found(Outcome.ASK, citation, message, objects=(plane,), line=line)


RULE = Rule(
    id="structure.snow",
    title="Drifting and sliding snow",
    subject="structure",
    held_by="loads",
    clauses=clauses_of("ASCE 7", {2016: "7.6 to 7.9", 2022: "7.6 to 7.9"}),
    check=check,
)
