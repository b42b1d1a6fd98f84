"""What the rules on the survey share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def not_surveyed(
    rule: Rule, design: Design, citation: str, array: PlacedArray, field: str, how: str
) -> Finding:
    """Return the open finding on a plane that was not measured, with how to measure it."""
    plane = array.plane.id
    message = f"{rule.title}: plane {plane} was not measured; {how} as survey.{field}."
    if design.inputs.job.survey:
        line = design.inputs.line_of("survey", field)
    else:
        line = array_line(design, array.id, "plane")
    return rule.found(Outcome.OPEN, citation, message, objects=(array.id, plane), line=line)
