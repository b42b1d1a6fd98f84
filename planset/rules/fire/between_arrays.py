"""Distance from one array of a plane to the next, where the jurisdiction asks for one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.existing import is_existing
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import judged_locally
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure what is clear between every two arrays of a plane."""
    local = design.inputs.jurisdiction.access.between_arrays
    if local is None:
        return
    least = format_feet_inches(local.value, rounding="up")
    for scope in judged_locally(RULE, design, local.source):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        for gap in design.access.gaps:
            added = [name for name in gap.arrays if not is_existing(design, name)]
            if gap.plane not in names or not added:
                continue
            outcome = clearance_outcome(gap.clear_in, local.value)
            kept = format_feet_inches(gap.clear_in, rounding="down")
            first, second = gap.arrays
            fact = f"{kept} are clear between arrays {first} and {second}, and {least} are required"
            change = f"move array {added[-1]} to keep more than {least}"
            yield RULE.found(
                outcome,
                local.source,
                sentence(outcome, fact, change),
                measured=gap.clear_in,
                limit=local.value,
                unit="in",
                objects=gap.arrays,
                line=array_line(design, added[-1]),
            )


RULE = Rule(
    id="fire.between-arrays",
    title="Distance between arrays",
    subject="fire access",
    held_by="",
    clauses={},
    check=check,
)
