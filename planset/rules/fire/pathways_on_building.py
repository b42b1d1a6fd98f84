"""Enough pathways from eave to ridge on the building, each on a roof plane of its own."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import effective_access
from planset.codes.roof_access import WITHOUT_ROOF_ACCESS
from planset.finding import Finding
from planset.rules.limits import clearance_outcome
from planset.rules.lines import plane_line
from planset.rules.roof_access import (
    clauses_since_2018,
    described,
    not_judged,
    pathway_width_in,
    subject_planes,
)
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure the narrowest of the pathways the building needs, one to a plane."""
    access = effective_access(design.inputs.jurisdiction).code
    if outside := not_judged(RULE, design, citation, access):
        yield outside
        return
    widest_first = sorted(
        subject_planes(design, access), key=lambda plane: -pathway_width_in(design, plane)
    )
    counted = widest_first[: access.pathways_on_building]
    narrowest = counted[-1]
    measured = pathway_width_in(design, narrowest)
    outcome = clearance_outcome(measured, access.pathway_width_in)
    least = format_feet_inches(access.pathway_width_in, rounding="up")
    fact = (
        f"{access.pathways_on_building} pathways of {least} on separate planes are required; "
        f"clear from eave to ridge are {', '.join(described(design, plane) for plane in counted)}"
    )
    change = f"clear more than {least} on plane {narrowest.id}"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=measured,
        limit=access.pathway_width_in,
        unit="in",
        objects=tuple(plane.id for plane in counted),
        line=plane_line(design, narrowest.id),
    )


RULE = Rule(
    id="fire.pathways-on-building",
    title="Pathways on separate roof planes",
    subject="fire access",
    held_by="dwelling access",
    clauses=clauses_since_2018("pathways_on_building"),
    check=check,
    not_in=WITHOUT_ROOF_ACCESS,
)
