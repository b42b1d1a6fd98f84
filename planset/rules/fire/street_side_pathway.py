"""At least one pathway on a side of the roof that faces a street or driveway."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.geometry import AccessGeometry
from planset.design.access.pathways import Pathway, pathways_on, straddling
from planset.design.access.pathways_needed import counted_pathways, street_pathways
from planset.design.access.scope import Scope
from planset.design.access.street import faces_street
from planset.finding import Finding, Outcome
from planset.roof.plane import Plane
from planset.rules.existing import before, every_array, missed_before, with_modules
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
    """Look for a pathway on a street side among those that the plans show."""
    if instead := replaced(RULE, design, citation):
        yield instead
        return
    for scope in judged(RULE, design, citation):
        yield scope if isinstance(scope, Finding) else _of_building(design, citation, scope)


def _of_building(design: Design, citation: str, scope: Scope) -> Finding:
    rules = rules_in_force(design)
    required = rules.code.pathway_width_in
    facing = [p for p in scope.planes if faces_street(design.inputs, design.roof, p)]
    if not facing:
        return _nothing_faces(design, citation)
    names = tuple(sorted(plane.id for plane in facing))
    toward = street_pathways(design.inputs, design.roof, design.access, scope.planes, rules)
    best = _shown(design, scope, toward) or (toward[0] if toward else None)
    measured = best.width_in if best else 0.0
    outcome = clearance_outcome(measured, required)
    least = format_feet_inches(required, rounding="up")
    fact = f"Nothing is clear from eave to ridge on {', '.join(names)}"
    change = "move or narrow the array so that a pathway stays clear toward the street"
    if best:
        fact = f"Toward a street or driveway the pathway is {best.words}"
        change = (
            f"move or narrow the array so that more than {least} stays clear from eave to ridge"
        )
    if best and best.unfinished and outcome is not Outcome.FAIL:
        outcome = Outcome.ASK
        change = f"{best.unfinished}: ask the fire official whether it counts"
    hidden = _widest(design.access, scope, facing, required)
    if outcome is Outcome.FAIL and hidden and hidden.width_in >= required - NOISE:
        best, measured, outcome = hidden, hidden.width_in, Outcome.ASK
        fact = f"What is clear on the planes that slope toward a street is {hidden.words}"
        why = hidden.unfinished or "another part of the building stands between it and a street"
        change = f"{why}: ask the fire official whether it counts"
    if outcome is Outcome.FAIL and (already := before(design)):
        had = _widest(already, scope, facing, required)
        if missed_before(measured, had.width_in if had else 0.0, required):
            outcome = Outcome.ASK
            change = "existing arrays leave no more: ask the fire official whether that may stay"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=best.marked_in(required, with_modules(design)) if best else 0.0,
        limit=required,
        unit="in",
        objects=best.planes if best else names,
        line=plane_line(design, best.planes[0] if best else facing[0].id),
    )


def _shown(design: Design, scope: Scope, toward: list[Pathway]) -> Pathway | None:
    """The best of the pathways toward a street that the plans show, None without one.

    That is the one with the greatest width dimensioned.
    """
    shown = counted_pathways(
        design.inputs,
        design.roof,
        design.access,
        scope.planes,
        every_array(design),
        rules_in_force(design),
    )
    required = rules_in_force(design).code.pathway_width_in
    carrying = with_modules(design)
    return max(
        (pathway for pathway in toward if pathway in shown),
        key=lambda p: (not p.unfinished, p.marked_in(required, carrying)),
        default=None,
    )


def _widest(
    access: AccessGeometry, scope: Scope, facing: list[Plane], required: float
) -> Pathway | None:
    """The best pathway on planes that slope toward a street, or straddling one, None without any.

    Whether anything stands between it and the street is not asked.
    """
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
