"""A pathway on every roof plane that carries an array.

The code also takes a pathway on an adjacent plane. The planes of a gable meet only at the ridge,
and whether the far side of a ridge is adjacent is disputed, so it is not counted here.
"""

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
    """Measure the widest clear strip of each plane with an array."""
    access = effective_access(design.inputs.jurisdiction).code
    if outside := not_judged(RULE, design, citation, access):
        yield outside
        return
    carrying = {array.plane.id for array in design.arrays}
    least = format_feet_inches(access.pathway_width_in, rounding="up")
    for plane in subject_planes(design, access):
        if plane.id not in carrying:
            continue
        measured = pathway_width_in(design, plane)
        outcome = clearance_outcome(measured, access.pathway_width_in)
        strip = described(design, plane)
        fact = f"Plane {plane.id} carries an array; its widest clear strip is {strip}"
        change = f"move or narrow the array so that more than {least} stays clear on this plane"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=measured,
            limit=access.pathway_width_in,
            unit="in",
            objects=(plane.id,),
            line=plane_line(design, plane.id),
        )


RULE = Rule(
    id="fire.pathway-per-plane",
    title="Pathway on each plane with an array",
    subject="fire access",
    held_by="dwelling access",
    clauses=clauses_since_2018("pathway_per_plane"),
    check=check,
    not_in=WITHOUT_ROOF_ACCESS,
)
