"""At least one pathway on a side of the roof that faces a street or driveway."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.pathways import pathways_on, straddling
from planset.design.access.scope import Scope
from planset.design.access.street import faces_street
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE, clearance_outcome
from planset.rules.lines import plane_line
from planset.rules.roof_access import (
    clauses_since_2018,
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
    """Measure the widest clear strip of the planes that slope toward a street."""
    if instead := replaced(RULE, design, citation):
        yield instead
        return
    for scope in judged(RULE, design, citation):
        yield scope if isinstance(scope, Finding) else _of_building(design, citation, scope)


def _of_building(design: Design, citation: str, scope: Scope) -> Finding:
    required = rules_in_force(design).code.pathway_width_in
    facing = [p for p in scope.planes if faces_street(design.inputs, design.roof, p)]
    if not facing:
        return _nothing_faces(design, citation)
    names = {plane.id for plane in facing}
    shared = [
        pathway
        for pathway in straddling(design.access, scope.planes, required)
        if names.intersection(pathway.planes)
    ]
    clear = [*pathways_on(design.access, facing), *shared]
    if not clear:
        fact = f"Nothing is clear from eave to ridge on {', '.join(sorted(names))}"
        change = "move or narrow the array so that a pathway stays clear toward the street"
        return RULE.found(
            Outcome.FAIL,
            citation,
            f"{fact}; {change}.",
            measured=0.0,
            limit=required,
            unit="in",
            objects=tuple(sorted(names)),
            line=plane_line(design, facing[0].id),
        )
    widest = max(
        clear,
        key=lambda p: (p.width_in >= required - NOISE and not p.unfinished, p.width_in),
    )
    outcome = clearance_outcome(widest.width_in, required)
    least = format_feet_inches(required, rounding="up")
    fact = f"The widest clear strip toward a street or driveway is {widest.words}"
    change = f"move or narrow the array so that more than {least} stays clear from eave to ridge"
    if widest.unfinished and outcome is not Outcome.FAIL:
        outcome = Outcome.ASK
        change = f"{widest.unfinished}: ask the fire official whether it counts"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=widest.width_in,
        limit=required,
        unit="in",
        objects=widest.planes,
        line=plane_line(design, widest.planes[0]),
    )


def _nothing_faces(design: Design, citation: str) -> Finding:
    angle = design.inputs.jurisdiction.access.street_angle.value
    message = (
        f"No roof plane slopes within {angle:g} degrees of a street or driveway side; ask the "
        "fire official which pathway counts as the street side, and note the answer in the job."
    )
    line = design.inputs.line_of("site", "street_sides")
    return RULE.found(Outcome.ASK, citation, message, line=line)


_CLAUSES = clauses_since_2018("street_side")

RULE = Rule(
    id="fire.street-side-pathway",
    title="Pathway on a street or driveway side",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
