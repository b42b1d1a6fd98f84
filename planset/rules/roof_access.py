"""What the fire access rules share: the buildings subject to them, and what frees one of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import EffectiveAccess, effective_access, has_dwelling_access
from planset.citation import CodeEdition
from planset.codes.roof_access import (
    WITHOUT_ROOF_ACCESS,
    DwellingAccess,
    dwelling_access,
    dwelling_editions,
)
from planset.design.access.pathways_needed import planes_with_arrays
from planset.design.access.scope import Scope, access_scopes
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule
from planset.units import format_pitch

if TYPE_CHECKING:
    from planset.design.design import Design

_NEAR_EXEMPT = 0.004
"""Rise per run within which a survey decides whether a roof is exempt: a quarter of a degree
(common practice, no source)."""


def clauses_of(topic: str) -> dict[CodeEdition, str]:
    """Return the clauses of a topic in the editions that have a rule for it."""
    rules = map(dwelling_access, dwelling_editions())
    return {access.edition: access.clauses[topic] for access in rules if topic in access.clauses}


def clauses_since_2018(topic: str) -> dict[CodeEdition, str]:
    """Return the clauses of a topic in the editions that ask for pathways on the building."""
    return {
        edition: clause
        for edition, clause in clauses_of(topic).items()
        if dwelling_access(edition).pathways_on_building
    }


def without(clauses: dict[CodeEdition, str]) -> frozenset[CodeEdition]:
    """Return the editions we know that are not among some clauses: they have no such rule."""
    return (WITHOUT_ROOF_ACCESS | frozenset(dwelling_editions())) - frozenset(clauses)


def rules_in_force(design: Design) -> EffectiveAccess:
    """Return the access rules for dwellings in force where a design is built."""
    return effective_access(design.inputs.jurisdiction)


def scopes(design: Design) -> tuple[Scope, ...]:
    """Return the buildings that carry arrays, each with what is judged of it."""
    rules = rules_in_force(design)
    return access_scopes(design.inputs, design.roof, design.arrays, design.access, rules)


def judged(rule: Rule, design: Design, citation: str) -> Iterator[Scope | Finding]:
    """Yield every building to judge, or the finding that takes the place of a judgement.

    The residential code covers dwellings only, and exempts planes of low slope.
    """
    access = rules_in_force(design).code
    for scope in scopes(design):
        yield _outside(rule, design, citation, access, scope) or scope


def _outside(
    rule: Rule, design: Design, citation: str, access: DwellingAccess, scope: Scope
) -> Finding | None:
    use = design.inputs.line_of("building", "use")
    if scope.unknown:
        message = (
            f"{scope.unknown}, and planset has no access rules for other buildings yet; check "
            "the roof by hand against the fire code."
        )
        return rule.found(Outcome.OPEN, citation, message, line=use)
    if scope.free:
        source = f" by {scope.free_by}" if scope.free_by else ""
        message = f"{scope.free}{source}."
        return rule.found(Outcome.NOT_APPLICABLE, citation, message)
    if not planes_with_arrays(scope.planes, design.arrays):
        slope = format_pitch(access.exempt_slope)
        message = (
            f"No roof plane with an array is steeper than {slope}, so the rule exempts this roof."
        )
        line = design.inputs.line_of("roof")
        return rule.found(Outcome.NOT_APPLICABLE, citation, message, line=line)
    return None


def replaced(rule: Rule, design: Design, citation: str) -> Finding | None:
    """Return the finding that a local rule takes the place of one, None where none does."""
    local = design.inputs.jurisdiction.access.three_sides
    if local is None:
        return None
    message = f"{local.source} takes the place of this rule."
    return rule.found(Outcome.NOT_APPLICABLE, citation, message)


def asked_by_nobody(rule: Rule, design: Design, citation: str) -> Finding:
    """Return the finding of a rule that neither the adopted edition nor the jurisdiction has."""
    edition, town = rules_in_force(design).code.edition, design.inputs.jurisdiction.name
    message = f"{edition} has no such rule, and {town} adds none."
    return rule.found(Outcome.NOT_APPLICABLE, citation, message)


def slope_note(design: Design, scope: Scope) -> str:
    """Return a warning that a plane is exempt but for what a survey may miss, "" without one."""
    exempt = rules_in_force(design).code.exempt_slope
    near = [p.id for p in scope.planes if p.pitch <= exempt + _NEAR_EXEMPT]
    if not near:
        return ""
    slope = format_pitch(exempt)
    return (
        f" (the slope of {', '.join(near)} is so near the exempt {slope} that the survey decides)"
    )


def clauses_or_none(topic: str) -> dict[CodeEdition, str]:
    """Return the clauses of a topic in every edition, "" where only a local rule may ask for it."""
    rules = map(dwelling_access, dwelling_editions())
    return {access.edition: access.clauses.get(topic, "") for access in rules}


def judged_locally(rule: Rule, design: Design, citation: str) -> Iterator[Scope | Finding]:
    """Yield the same as `judged` for a rule that only the jurisdiction has.

    Nothing comes from a building that is no dwelling, nor where the access rules of the adopted
    code are not known to planset: the rules of the code say so.
    """
    dwelling = design.inputs.job.building.use != "other"
    if dwelling and has_dwelling_access(design.inputs.jurisdiction):
        yield from judged(rule, design, citation)
