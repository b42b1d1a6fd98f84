"""No modules below an escape opening onto the roof, and a pathway to it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.irc.roof_access import roof_access
from planset.finding import Finding, Outcome
from planset.rules.roof_access import not_judged
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
    if outside := not_judged(RULE, design, citation, roof_access(edition)):
        yield outside
        return
    width = roof_access(edition).pathway_width_in
    planes = tuple(sorted({opening.plane for opening in openings}))
    message = (
        f"The roof below {len(openings)} escape opening(s) on {', '.join(planes)} is not checked "
        f"yet; check by hand that no module lies below one and that {width:g} in lead to it."
    )
    yield RULE.found(Outcome.OPEN, citation, message, objects=planes, line=line)


RULE = Rule(
    id="fire.escape-openings",
    title="Escape openings onto the roof",
    subject="fire access",
    document="IRC",
    clauses={2021: "R324.6.3"},  # from memory
    check=check,
    not_in=frozenset({2012}),
)
