"""No modules below an escape opening onto the roof, and a pathway to it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import effective_access
from planset.codes.roof_access import WITHOUT_ROOF_ACCESS
from planset.finding import Finding, Outcome
from planset.rules.roof_access import clauses_since_2018, not_judged
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Report the survey: what lies below an opening is not computed yet."""
    openings = design.inputs.job.building.escape_openings_onto_roof
    line = design.inputs.line_of("building", "escape_openings_onto_roof")
    if not openings:
        message = "The survey states that no escape opening lies onto or above this roof."
        yield RULE.found(Outcome.PASS, citation, message, line=line)
        return
    access = effective_access(design.inputs.jurisdiction).code
    if outside := not_judged(RULE, design, citation, access):
        yield outside
        return
    planes = tuple(sorted({opening.plane for opening in openings}))
    message = (
        f"The roof below {len(openings)} escape opening(s) on {', '.join(planes)} is not checked "
        f"yet; check by hand that no module lies below one and that "
        f"{access.escape_pathway_in:g} in lead to it."
    )
    yield RULE.found(Outcome.OPEN, citation, message, objects=planes, line=line)


RULE = Rule(
    id="fire.escape-openings",
    title="Escape openings onto the roof",
    subject="fire access",
    held_by="dwelling access",
    clauses=clauses_since_2018("escape_openings"),
    check=check,
    not_in=WITHOUT_ROOF_ACCESS,
)
