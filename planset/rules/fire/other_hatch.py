"""Room around the roof hatches of a building that is no dwelling, and a way to the edge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line, obstruction_line
from planset.rules.other_roof_access import clauses_of_topic, exempt, found_on, without_topic
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.access.other.paths import HatchAccess
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure from each hatch to the nearest array, and its best straight way to the roof edge."""
    if outside := exempt(RULE, design, citation):
        yield outside
        return
    access = found_on(design)
    for plane in access.planes:
        for hatch in plane.hatches:
            yield _around(design, citation, hatch, access.rules.hatch_clear_in)
            yield _path(design, citation, hatch, access.rules.hatch_clear_in)


def _around(design: Design, citation: str, hatch: HatchAccess, required: float) -> Finding:
    item, outcome = hatch.path.item.id, clearance_outcome(hatch.clear_in, required)
    kept = format_feet_inches(hatch.clear_in, rounding="down")
    least = format_feet_inches(required, rounding="up")
    fact = f"Array {hatch.array} stays {kept} from roof hatch {item}, where {least} is required"
    change = f"move the array to keep more than {least}, or take out the modules next to {item}"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=hatch.clear_in,
        limit=required,
        unit="in",
        objects=(item, hatch.array),
        line=array_line(design, hatch.array, "corner"),
    )


def _path(design: Design, citation: str, hatch: HatchAccess, required: float) -> Finding:
    item, width = hatch.path.item.id, hatch.path.width_in
    outcome = clearance_outcome(width, required)
    clear = format_feet_inches(width, rounding="down")
    least = format_feet_inches(required, rounding="up")
    fact = (
        f"From roof hatch {item} a straight way of {clear} leads to the {hatch.path.toward} edge "
        f"of the roof, where a pathway of {least} is required"
    )
    change = f"leave more than {least} clear from {item} to one edge"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=width,
        limit=required,
        unit="in",
        objects=(item,),
        line=obstruction_line(design, item, "center"),
    )


RULE = Rule(
    id="fire.other-hatch",
    title="Room around roof hatches",
    subject="fire access",
    held_by="fire",
    clauses=clauses_of_topic("hatch"),
    check=check,
    not_in=without_topic("hatch"),
    concerns="other buildings",
)
