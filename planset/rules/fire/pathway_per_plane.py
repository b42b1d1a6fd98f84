"""Pathways for every roof plane that carries an array.

Since 2018 one is enough, on the plane, on an adjacent one or straddling both; before, they lie on
the slope itself, one on a hip roof and two on a roof with a single ridge.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import EffectiveAccess
from planset.design.access.pathways import Pathway, pathways_on, serving, straddling, width_of_each
from planset.design.access.pathways_needed import is_hipped, pathways_of_slope, planes_with_arrays
from planset.design.access.scope import Scope
from planset.design.layout import existing_arrays
from planset.finding import Finding, Outcome
from planset.roof.plane import Plane
from planset.roof.solid import EdgeKind
from planset.rules.existing import before, every_array, with_modules
from planset.rules.limits import NOISE, clearance_outcome
from planset.rules.lines import plane_line
from planset.rules.roof_access import (
    clauses_of,
    judged,
    replaced,
    rules_in_force,
    slope_note,
    without,
)
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure what is clear for each plane with an array."""
    if instead := replaced(RULE, design, citation):
        yield instead
        return
    rules = rules_in_force(design)
    for scope in judged(RULE, design, citation):
        if isinstance(scope, Finding):
            yield scope
        elif rules.code.adjacent_plane_counts:
            yield from _near_planes(design, scope, rules)
        else:
            yield from _on_slopes(design, scope, rules)


def _near_planes(design: Design, scope: Scope, rules: EffectiveAccess) -> Iterator[Finding]:
    carrying = planes_with_arrays(scope.planes, every_array(design))
    served = serving(design.roof, design.access, scope.planes, carrying, rules)
    undecided = _without_before(design, scope, rules)
    for name in carrying:
        best = served.get(name) or _widest_at(design, scope, name, rules)
        measured = best.width_in if best else 0.0
        required = rules.code.pathway_width_in
        least = format_feet_inches(required, rounding="up")
        strip = best.words if best else f"none on {name}"
        if best and name not in best.planes:
            fact = f"Plane {name} carries an array, and {strip}, which is adjacent, serves it"
        else:
            fact = f"Plane {name} carries an array; its widest clear strip is {strip}"
        change = f"move or narrow the array so that more than {least} stays clear on this plane"
        outcome = clearance_outcome(measured, required)
        if name not in served and outcome is not Outcome.FAIL:
            limit = rules.readings.pathway_serves_planes
            outcome = Outcome.FAIL
            fact += f", which already serves as many planes as one pathway may ({limit})"
        if best and best.unfinished and outcome is not Outcome.FAIL:
            outcome = Outcome.ASK
            change = f"{best.unfinished}: ask the fire official whether it counts"
        if outcome is Outcome.FAIL and name in undecided:
            outcome = Outcome.ASK
            change = "it carries no new array: ask the fire official whether it may stay as it was"
        printed = best.marked_in(required, with_modules(design)) if best else 0.0
        yield _found(
            design, rules.cite("pathway_per_plane"), scope, name, outcome, fact, change, printed
        )


def _without_before(design: Design, scope: Scope, rules: EffectiveAccess) -> frozenset[str]:
    """Planes with existing arrays alone that had no pathway before the new arrays either."""
    already = before(design)
    if already is None:
        return frozenset()
    existing = planes_with_arrays(scope.planes, existing_arrays(design.obstructions))
    served = serving(design.roof, already, scope.planes, existing, rules)
    added = planes_with_arrays(scope.planes, design.arrays)
    return frozenset(existing).difference(served, added)


def _widest_at(design: Design, scope: Scope, name: str, rules: EffectiveAccess) -> Pathway | None:
    """The widest strip on a plane, or straddling one of its edges, None without one."""
    required = rules.code.pathway_width_in
    own = pathways_on(design.access, (design.roof.plane(name),))
    shared = [p for p in straddling(design.access, scope.planes, required) if name in p.planes]
    return max([*own, *shared], key=lambda pathway: pathway.width_in, default=None)


def _on_slopes(design: Design, scope: Scope, rules: EffectiveAccess) -> Iterator[Finding]:
    required = rules.code.pathway_width_in
    least = format_feet_inches(required, rounding="up")
    for name in planes_with_arrays(scope.planes, design.arrays):
        plane = design.roof.plane(name)
        hipped = is_hipped(design.roof, plane)
        count = rules.code.pathways_per_plane(hip_roof=hipped)
        strips = pathways_of_slope(design.roof, design.access, plane, required, count)
        sure = [strip for strip in strips if not strip.unfinished]
        measured = width_of_each(sure, count)
        outcome = clearance_outcome(measured, required)
        words = ", ".join(strip.words for strip in strips) or f"none on {name}"
        kind = "of a hip roof" if hipped else "below a single ridge"
        many = f"{count} pathways" if count > 1 else "1 pathway"
        fact = f"Plane {name}, {kind}, carries an array and needs {many} of {least}; clear: {words}"
        change = f"move or narrow the array so that {many} of more than {least} stay clear"
        if outcome is Outcome.FAIL:
            outcome, change = _doubt(design, plane, strips, count, required, change)
        topic = "pathway_per_plane_hip" if hipped else "pathway_per_plane"
        yield _found(design, rules.cite(topic), scope, name, outcome, fact, change, measured)


def _doubt(
    design: Design,
    plane: Plane,
    strips: tuple[Pathway, ...],
    count: int,
    required: float,
    change: str,
) -> tuple[Outcome, str]:
    """Whether somebody may decide otherwise, and what to do."""
    if width_of_each(strips, count) >= required - NOISE:
        why = next(strip.unfinished for strip in strips if strip.unfinished)
        return Outcome.ASK, f"{why}: ask the fire official whether it counts"
    mixed = count > 1 and any(
        edge.kind is EdgeKind.HIP
        for other in design.roof.planes_of(plane.building)
        for edge in design.roof.edges_of(other.id)
    )
    sure = [strip for strip in strips if not strip.unfinished]
    if mixed and width_of_each(sure, 1) >= required - NOISE:
        return Outcome.ASK, (
            "the roof has hips elsewhere: ask the fire official whether one pathway is enough on "
            "this slope"
        )
    return Outcome.FAIL, change


def _found(
    design: Design,
    citation: str,
    scope: Scope,
    name: str,
    outcome: Outcome,
    fact: str,
    change: str,
    measured: float,
) -> Finding:
    fact += slope_note(design, scope)
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=measured,
        limit=rules_in_force(design).code.pathway_width_in,
        unit="in",
        objects=(name,),
        line=plane_line(design, name),
    )


_CLAUSES = clauses_of("pathway_per_plane")

RULE = Rule(
    id="fire.pathway-per-plane",
    title="Pathway on each plane with an array",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
