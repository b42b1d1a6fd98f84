"""At least one pathway on a side of the roof that faces a street or driveway."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import effective_access
from planset.codes.roof_access import WITHOUT_ROOF_ACCESS
from planset.finding import Finding, Outcome
from planset.rules.limits import clearance_outcome
from planset.rules.lines import plane_line
from planset.rules.roof_access import (
    clauses_since_2018,
    described,
    faces_street,
    not_judged,
    pathway_width_in,
    subject_planes,
)
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure the widest clear strip of the planes that slope toward a street."""
    access = effective_access(design.inputs.jurisdiction).code
    if outside := not_judged(RULE, design, citation, access):
        yield outside
        return
    facing = [plane for plane in subject_planes(design, access) if faces_street(design, plane)]
    if not facing:
        yield _nothing_faces(design, citation)
        return
    widest = max(facing, key=lambda plane: pathway_width_in(design, plane))
    measured = pathway_width_in(design, widest)
    outcome = clearance_outcome(measured, access.pathway_width_in)
    least = format_feet_inches(access.pathway_width_in, rounding="up")
    fact = f"The widest clear strip toward a street or driveway is {described(design, widest)}"
    change = f"move or narrow the array so that more than {least} stays clear from eave to ridge"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=measured,
        limit=access.pathway_width_in,
        unit="in",
        objects=(widest.id,),
        line=plane_line(design, widest.id),
    )


def _nothing_faces(design: Design, citation: str) -> Finding:
    angle = design.inputs.jurisdiction.access.street_angle.value
    message = (
        f"No roof plane slopes within {angle:g} degrees of a street or driveway side; ask the "
        "fire official which pathway counts as the street side, and note the answer in the job."
    )
    line = design.inputs.line_of("site", "street_sides")
    return RULE.found(Outcome.ASK, citation, message, line=line)


RULE = Rule(
    id="fire.street-side-pathway",
    title="Pathway on a street or driveway side",
    subject="fire access",
    held_by="dwelling access",
    clauses=clauses_since_2018("street_side"),
    check=check,
    not_in=WITHOUT_ROOF_ACCESS,
)
