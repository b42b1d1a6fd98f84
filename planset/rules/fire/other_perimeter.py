"""A clear perimeter around the edges of a roof that is no dwelling's."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line, obstruction_line
from planset.rules.other_roof_access import clauses_of_topic, exempt, found_on, without_topic
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.access.other.geometry import PlaneAccess
    from planset.design.access.other.perimeter import EdgeClearance
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure along every edge to the nearest array, then look at what else stands there."""
    if outside := exempt(RULE, design, citation):
        yield outside
        return
    for plane in found_on(design).planes:
        for edge in plane.edges:
            yield _kept(design, citation, plane, edge)
            yield from _crowded(design, citation, plane, edge)


def _kept(design: Design, citation: str, plane: PlaneAccess, edge: EdgeClearance) -> Finding:
    outcome = clearance_outcome(edge.clear_in, plane.perimeter_in)
    kept = format_feet_inches(edge.clear_in, rounding="down")
    least = format_feet_inches(plane.perimeter_in, rounding="up")
    long, deep = (format_feet_inches(axis) for axis in plane.axes_in)
    fact = (
        f"Array {edge.array} stays {kept} from the {edge.edge.id}, where {least} is required "
        f"around a roof of {long} by {deep}"
    )
    change = f"move array {edge.array} to keep more than {least}, or take out its outer modules"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=edge.clear_in,
        limit=plane.perimeter_in,
        unit="in",
        objects=(edge.array, edge.edge.id),
        line=array_line(design, edge.array, "corner"),
    )


def _crowded(
    design: Design, citation: str, plane: PlaneAccess, edge: EdgeClearance
) -> Iterator[Finding]:
    least = format_feet_inches(plane.perimeter_in, rounding="up")
    for item in edge.crowded_by:
        message = (
            f"{item} stands in the perimeter along the {edge.edge.id}, and the way around it is "
            f"narrower than {least}; move the array from {item} by {least}, or ask the fire code "
            "official."
        )
        line = obstruction_line(design, item, "center")
        yield RULE.found(Outcome.ASK, citation, message, objects=(item, edge.edge.id), line=line)


RULE = Rule(
    id="fire.other-perimeter",
    title="Clear perimeter of the roof",
    subject="fire access",
    held_by="fire",
    clauses=clauses_of_topic("perimeter"),
    check=check,
    not_in=without_topic("perimeter"),
    concerns="other buildings",
)
