"""At least one pathway on a side of the roof that faces a street or driveway."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.geometry import AccessGeometry
from planset.design.access.pathways import Pathway, pathways_on, straddling
from planset.design.access.scope import Scope
from planset.design.access.street import faces_street
from planset.finding import Finding, Outcome
from planset.roof.plane import Plane
from planset.rules.existing import before, missed_before
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
    names = tuple(sorted(plane.id for plane in facing))
    widest = _widest(design.access, scope, facing, required)
    measured = widest.width_in if widest else 0.0
    outcome = clearance_outcome(measured, required)
    least = format_feet_inches(required, rounding="up")
    fact = f"Nothing is clear from eave to ridge on {', '.join(names)}"
    change = "move or narrow the array so that a pathway stays clear toward the street"
    if widest:
        fact = f"The widest clear strip toward a street or driveway is {widest.words}"
        change = (
            f"move or narrow the array so that more than {least} stays clear from eave to ridge"
        )
    if widest and widest.unfinished and outcome is not Outcome.FAIL:
        outcome = Outcome.ASK
        change = f"{widest.unfinished}: ask the fire official whether it counts"
    if outcome is Outcome.FAIL and (already := before(design)):
        had = _widest(already, scope, facing, required)
        if missed_before(measured, had.width_in if had else 0.0, required):
            outcome = Outcome.ASK
            change = "existing arrays leave no more: ask the fire official whether that may stay"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=measured,
        limit=required,
        unit="in",
        objects=widest.planes if widest else names,
        line=plane_line(design, widest.planes[0] if widest else facing[0].id),
    )


def _widest(
    access: AccessGeometry, scope: Scope, facing: list[Plane], required: float
) -> Pathway | None:
    """The best pathway on planes that face a street, or straddling one, None without any."""
    names = {plane.id for plane in facing}
    shared = [
        pathway
        for pathway in straddling(access, scope.planes, required)
        if names.intersection(pathway.planes)
    ]
    return max(
        [*pathways_on(access, facing), *shared],
        key=lambda p: (p.width_in >= required - NOISE and not p.unfinished, p.width_in),
        default=None,
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
