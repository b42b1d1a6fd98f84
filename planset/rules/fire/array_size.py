"""Greatest extent of one array along either axis."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import clauses_or_none, judged, rules_in_force, without
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure the longer side of each array."""
    rules = rules_in_force(design)
    most = rules.code.greatest_array_side_in
    if most <= 0:
        message = (
            f"{rules.code.edition} has no such rule, and {design.inputs.jurisdiction.name} adds "
            "none."
        )
        yield RULE.found(Outcome.NOT_APPLICABLE, citation, message)
        return
    clause = rules.cite("array_size")
    for scope in judged(RULE, design, clause):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        for array in design.arrays:
            if array.plane.id not in names:
                continue
            side = max(array.frames.width, array.frames.height)
            outcome = at_most_outcome(side, most)
            limit = format_feet_inches(most, rounding="down")
            fact = (
                f"Array {array.id} is {format_feet_inches(side, rounding='up')} long, and "
                f"{limit} is the most"
            )
            yield RULE.found(
                outcome,
                clause,
                sentence(outcome, fact, "divide it in two"),
                measured=side,
                limit=most,
                unit="in",
                objects=(array.id,),
                line=array_line(design, array.id),
            )


_CLAUSES = clauses_or_none("array_size")

RULE = Rule(
    id="fire.array-size",
    title="Greatest extent of an array",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
