"""Distance of arrays from a hip or valley, where modules lie on both sides of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.clearances import EdgeClearance
from planset.finding import Finding, Outcome
from planset.roof.solid import EdgeKind
from planset.rules.existing import is_existing
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import (
    asked_by_nobody,
    clauses_or_none,
    judged,
    replaced,
    rules_in_force,
    without,
)
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Hold each array's distance from each hip and valley of its plane against the setback."""
    rules = rules_in_force(design)
    required = rules.code.hip_valley_setback_in
    if required <= 0:
        yield asked_by_nobody(RULE, design, citation)
        return
    if instead := replaced(RULE, design, citation):
        yield instead
        return
    clause = rules.cite("hip_valley")
    for scope in judged(RULE, design, clause):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        for near in design.access.edges:
            is_meeting = near.kind in (EdgeKind.HIP, EdgeKind.VALLEY)
            if near.plane in names and is_meeting and _concerned(design, near):
                yield _of_edge(design, clause, near, required)


def _concerned(design: Design, near: EdgeClearance) -> bool:
    """Whether an array is new, or there already with a new one across the edge."""
    across = {
        name
        for edge in design.roof.edges_of(near.plane)
        if edge.id == near.edge
        for name in edge.planes
        if name != near.plane
    }
    added = {array.plane.id for array in design.arrays}
    return not is_existing(design, near.array) or bool(across & added)


def _of_edge(design: Design, clause: str, near: EdgeClearance, required: float) -> Finding:
    kept = format_feet_inches(near.clear_in, rounding="down")
    least = format_feet_inches(required, rounding="up")
    sides = "both sides" if near.both_sides else "one side"
    fact = f"Modules lie on {sides} of {near.edge}, and array {near.array} stays {kept} from it"
    change = f"move or narrow array {near.array} to keep more than {least}"
    if is_existing(design, near.array):
        change += ", or keep new modules off the other side"
    limit = required
    if near.both_sides:
        outcome = clearance_outcome(near.clear_in, required)
    elif near.equal_length:
        outcome, limit = Outcome.PASS, 0.0
    elif clearance_outcome(near.clear_in, required) is Outcome.FAIL:
        outcome = Outcome.ASK
        change = (
            f"the slope across it is not of equal length: ask the fire official whether {least} "
            "is required"
        )
    else:
        outcome = Outcome.PASS
    return RULE.found(
        outcome,
        clause,
        sentence(outcome, fact, change),
        measured=near.clear_in,
        limit=limit,
        unit="in",
        objects=(near.array, near.edge),
        line=array_line(design, near.array),
    )


_CLAUSES = clauses_or_none("hip_valley")

RULE = Rule(
    id="fire.hip-valley-setback",
    title="Setback at hips and valleys",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
