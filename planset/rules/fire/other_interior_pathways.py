"""Pathways across a roof that is no dwelling's, so close that no array section grows too long."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.layout import existing_arrays
from planset.drawing.geometry import Box
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.lines import plane_line
from planset.rules.other_roof_access import clauses_of_topic, exempt, found_on, without_topic
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.codes.other_roof_access import OtherAccess
    from planset.design.access.other.geometry import PlaneAccess
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure every array section between pathways, along the eave and square to it."""
    if outside := exempt(RULE, design, citation):
        yield outside
        return
    access = found_on(design)
    for plane in access.planes:
        for section in plane.sections:
            yield _section(design, citation, access.rules, plane, section)


def _section(
    design: Design, citation: str, rules: OtherAccess, plane: PlaneAccess, section: Box
) -> Finding:
    measured = max(section.width, section.height)
    outcome = at_most_outcome(measured, rules.greatest_section_in)
    size = " by ".join(
        format_feet_inches(side, rounding="up") for side in (section.width, section.height)
    )
    held = _arrays_in(design, plane, section)
    most = format_feet_inches(rules.greatest_section_in, rounding="down")
    least = format_feet_inches(rules.straight_pathway_in, rounding="up")
    fact = (
        f"The array section of {', '.join(held)} is {size}, and pathways may lie {most} apart in "
        "either direction"
    )
    if outcome is Outcome.PASS:
        fact += (
            "; the designer of the framing is to confirm that pathways and perimeter lie over "
            "structure able to carry fire fighters"
        )
    change = f"part it by a straight pathway of {least} or more that nothing stands in"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=measured,
        limit=rules.greatest_section_in,
        unit="in",
        objects=held,
        line=plane_line(design, plane.plane.id),
    )


def _arrays_in(design: Design, plane: PlaneAccess, section: Box) -> tuple[str, ...]:
    added = [
        array.id
        for array in design.arrays
        if array.plane.id == plane.plane.id
        and any(module.surface.overlaps(section) for module in array.modules)
    ]
    existing = [
        item.id
        for item in existing_arrays(design.obstructions)
        if item.plane.id == plane.plane.id and item.surface.overlaps(section)
    ]
    return (*added, *existing)


RULE = Rule(
    id="fire.other-interior-pathways",
    title="Pathways between array sections",
    subject="fire access",
    held_by="fire",
    clauses=clauses_of_topic("sections"),
    check=check,
    not_in=without_topic("sections"),
    concerns="other buildings",
)
