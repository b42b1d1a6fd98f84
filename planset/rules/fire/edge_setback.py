"""Distance of arrays from every edge of the roof, where the jurisdiction asks for one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.clearances import ROOF_EDGES
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
    """Hold each array's distance from each roof edge of its plane against the setback."""
    local = design.inputs.jurisdiction.access.edge_setback
    if local is None:
        return
    least = format_feet_inches(local.value, rounding="up")
    for scope in judged_locally(RULE, design, local.source):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        for near in design.access.edges:
            if near.plane not in names or near.kind not in ROOF_EDGES:
                continue
            if is_existing(design, near.array):
                continue
            outcome = clearance_outcome(near.clear_in, local.value)
            kept = format_feet_inches(near.clear_in, rounding="down")
            fact = f"Array {near.array} stays {kept} from {near.edge}, where {least} is required"
            change = f"move or narrow array {near.array} to keep more than {least}"
            yield RULE.found(
                outcome,
                local.source,
                sentence(outcome, fact, change),
                measured=near.clear_in,
                limit=local.value,
                unit="in",
                objects=(near.array, near.edge),
                line=array_line(design, near.array),
            )


RULE = Rule(
    id="fire.edge-setback",
    title="Setback at the roof edges",
    subject="fire access",
    held_by="",
    clauses={},
    check=check,
)
