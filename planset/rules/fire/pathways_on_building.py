"""Enough pathways from eave to ridge on the building, each on a roof plane of its own."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.pathways import Pathway, on_planes_apart, on_separate_planes
from planset.design.access.pathways_needed import counted_pathways
from planset.design.access.scope import Scope
from planset.finding import Finding, Outcome
from planset.rules.existing import before, every_array, with_modules
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
    """Measure the narrowest of the pathways the building needs, one to a plane."""
    if instead := replaced(RULE, design, citation):
        yield instead
        return
    for scope in judged(RULE, design, citation):
        yield scope if isinstance(scope, Finding) else _of_building(design, citation, scope)


def _of_building(design: Design, citation: str, scope: Scope) -> Finding:
    access = rules_in_force(design).code
    count, required = access.pathways_on_building, access.pathway_width_in
    if len(scope.planes) < count:
        message = (
            f"{count} pathways on separate planes are required, and {scope.name} has "
            f"{len(scope.planes)} plane; ask the fire official what is enough here, and note the "
            "answer in the job."
        )
        line = design.inputs.line_of("roof")
        return RULE.found(Outcome.ASK, citation, message, line=line)
    each = on_separate_planes(design.access, scope.planes, required)
    counted = _best(scope, each, required)[:count]
    shown = _shown(design, scope)
    if len(shown) >= count:
        each = shown
        counted = _best(scope, each, required)[:count]
    last = each.get(counted[-1])
    measured = last.width_in if last else 0.0
    outcome = clearance_outcome(measured, required)
    least = format_feet_inches(required, rounding="up")
    clear = ", ".join(each[name].words if name in each else f"none on {name}" for name in counted)
    fact = (
        f"{count} pathways of {least} on separate planes are required; clear from eave to ridge "
        f"are {clear}"
    )
    change = f"clear more than {least} on plane {counted[-1]}"
    doubt = next((each[name].unfinished for name in counted if name in each), "")
    doubt = doubt or (last.unfinished if last else "")
    if doubt and outcome is not Outcome.FAIL:
        outcome = Outcome.ASK
        change = f"of one of them {doubt}: ask the fire official whether it counts"
    if outcome is Outcome.FAIL and _as_before(design, scope, each):
        outcome = Outcome.ASK
        change = "existing arrays leave no more: ask the fire official whether that may stay"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=last.marked_in(required, with_modules(design)) if last else 0.0,
        limit=required,
        unit="in",
        objects=tuple(counted),
        line=plane_line(design, counted[-1]),
    )


def _shown(design: Design, scope: Scope) -> dict[str, Pathway]:
    """The pathways that the plans show, by the planes they count for."""
    rules = rules_in_force(design)
    every = every_array(design)
    shown = counted_pathways(design.inputs, design.roof, design.access, scope.planes, every, rules)
    return on_planes_apart(shown)


def _best(scope: Scope, each: dict[str, Pathway], required: float) -> list[str]:
    """The planes, those with the best pathways first."""
    names = (plane.id for plane in scope.planes)
    return sorted(names, key=lambda name: _order(each.get(name), required))


def _as_before(design: Design, scope: Scope, each: dict[str, Pathway]) -> bool:
    """Whether the building lacked pathways before, and the new arrays take nothing off any."""
    already = before(design)
    if already is None:
        return False
    code = rules_in_force(design).code
    required, count = code.pathway_width_in, code.pathways_on_building
    had = on_separate_planes(already, scope.planes, required)

    def widths(of: dict[str, Pathway]) -> list[float]:
        best = (of.get(name) for name in _best(scope, of, required)[:count])
        return [min(pathway.width_in, required) if pathway else 0.0 for pathway in best]

    kept = zip(widths(each), widths(had), strict=True)
    return min(widths(had)) < required - NOISE and all(now >= was - NOISE for now, was in kept)


def _order(pathway: Pathway | None, required: float) -> tuple[int, float]:
    """Wide and sure ones first, then wide ones that somebody must decide about, then the rest."""
    if pathway is None:
        return (3, 0.0)
    wide = pathway.width_in >= required - NOISE
    rank = (1 if pathway.unfinished else 0) if wide else 2
    return (rank, -pathway.width_in)


_CLAUSES = clauses_since_2018("pathways_on_building")

RULE = Rule(
    id="fire.pathways-on-building",
    title="Pathways on separate roof planes",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
