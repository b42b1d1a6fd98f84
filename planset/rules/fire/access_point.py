"""No ladder over a window or door: where the pathways meet the eave."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.area import AccessArea, AreaKind
from planset.finding import Finding, Outcome
from planset.job.building import OpeningBelow
from planset.rules.lines import plane_line
from planset.rules.roof_access import clauses_of, judged, rules_in_force, without
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design

_AT_FOOT_IN = 0.5


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for windows and doors below the foot of each pathway that counts."""
    openings = design.inputs.job.building.openings_below_eaves
    clause = rules_in_force(design).cite("access_points")
    for scope in judged(RULE, design, clause):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        pathways = [
            area
            for area in design.access_areas
            if area.kind is AreaKind.PATHWAY and area.plane in names
        ]
        if pathways and openings is None:
            yield _not_surveyed(design, clause)
            continue
        for area in pathways:
            yield _of_pathway(design, clause, area, openings or ())


def _not_surveyed(design: Design, clause: str) -> Finding:
    message = (
        "Windows and doors below the eaves are not surveyed, and no ladder may stand over one; "
        "survey them and add building.openings_below_eaves, or ask the fire official."
    )
    line = design.inputs.line_of("building")
    return RULE.found(Outcome.ASK, clause, message, line=line)


def _of_pathway(
    design: Design, clause: str, area: AccessArea, openings: tuple[OpeningBelow, ...]
) -> Finding:
    low = min(v for _, v in area.outline)
    foot = [u for u, v in area.outline if v < low + _AT_FOOT_IN]
    over = [
        opening
        for opening in openings
        if opening.plane == area.plane
        and opening.along < max(foot) - 1e-6
        and opening.along + opening.width > min(foot) + 1e-6
    ]
    outcome = Outcome.FAIL if over else Outcome.PASS
    kinds = " and ".join(dict.fromkeys(opening.kind for opening in over))
    where = f"over a {kinds}" if over else "over no window or door"
    fact = f"The foot of the pathway on {area.plane} stands {where} of the survey"
    change = "move the array so that a pathway has its foot beside it"
    return RULE.found(
        outcome,
        clause,
        sentence(outcome, fact, change),
        objects=(area.plane,),
        line=plane_line(design, area.plane),
    )


_CLAUSES = clauses_of("access_points")

RULE = Rule(
    id="fire.access-point",
    title="Foot of the pathways",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
