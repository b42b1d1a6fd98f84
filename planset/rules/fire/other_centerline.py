"""Pathways on both center lines of a roof that is no dwelling's."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.limits import clearance_outcome
from planset.rules.lines import plane_line
from planset.rules.other_roof_access import clauses_of_topic, exempt, found_on, without_topic
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_RUNS = {"along": "from left to right", "up": "from front to back"}


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure the way on each center line; whether small arrays need one is a local reading."""
    if outside := exempt(RULE, design, citation):
        yield outside
        return
    access = found_on(design)
    required = access.rules.centerline_pathway_in
    least = format_feet_inches(required, rounding="up")
    for plane in access.planes:
        if not plane.center_lines_asked_for(access.rules, access.readings):
            most = format_feet_inches(access.rules.greatest_section_in, rounding="down")
            message = (
                f"The arrays on {plane.plane.id} reach no further than {most}, and "
                f"{design.inputs.jurisdiction.name} asks for center-line pathways only beyond."
            )
            yield RULE.found(Outcome.NOT_APPLICABLE, citation, message, objects=(plane.plane.id,))
            continue
        for line in plane.center_lines:
            outcome = clearance_outcome(line.clear_in, required)
            clear = format_feet_inches(line.clear_in, rounding="down")
            fact = (
                f"On the center line of {plane.plane.id} {_RUNS[line.axis]} a way of {clear} is "
                f"clear, where a pathway of {least} is required"
            )
            change = f"leave more than {least} between arrays there"
            yield RULE.found(
                outcome,
                citation,
                sentence(outcome, fact, change),
                measured=line.clear_in,
                limit=required,
                unit="in",
                objects=(plane.plane.id,),
                line=plane_line(design, plane.plane.id),
            )


RULE = Rule(
    id="fire.other-centerline",
    title="Pathways on the center lines",
    subject="fire access",
    held_by="fire",
    clauses=clauses_of_topic("centerline"),
    check=check,
    not_in=without_topic("centerline"),
    concerns="other buildings",
)
