"""No modules below an escape opening onto the roof, and a pathway to it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.access.escape_zones import EscapeZone, escape_zones
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE, clearance_outcome
from planset.rules.roof_access import clauses_of, judged, rules_in_force, without
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure what is free of modules and of obstructions below each opening."""
    openings = design.inputs.job.building.escape_openings_onto_roof
    line = design.inputs.line_of("building", "escape_openings_onto_roof")
    if not openings:
        message = "The survey states that no escape opening lies onto or above this roof."
        yield RULE.found(Outcome.PASS, citation, message, line=line)
        return
    least = rules_in_force(design).code.escape_pathway_in
    zones = escape_zones(design.roof, openings, design.arrays, design.obstructions, least)
    for scope in judged(RULE, design, citation):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        for zone in zones:
            if zone.plane.id in names:
                yield _of_zone(design, citation, zone, least)


def _of_zone(design: Design, citation: str, zone: EscapeZone, least: float) -> Finding:
    place = ("building", "escape_openings_onto_roof", zone.number)
    width = format_feet_inches(zone.width_in, rounding="up")
    fact = f"Below the escape opening on {zone.plane.id}, {width} must stay free of modules"
    outcome = Outcome.PASS
    if zone.clear_in is not None:
        outcome = clearance_outcome(zone.clear_in, zone.width_in)
        kept = format_feet_inches(zone.clear_in, rounding="down")
        fact += f"; centered on it {kept} are free"
    change = f"keep arrays more than {width} apart there, from the opening to the eave"
    if zone.arrays:
        outcome = Outcome.FAIL
        change = f"take array {', '.join(zone.arrays)} out from below the opening"
    elif zone.path_in < least - NOISE or not zone.reaches_eave:
        outcome = Outcome.ASK
        clear = format_feet_inches(zone.path_in, rounding="down")
        why = f"only {clear} lead down to the eave" if zone.reaches_eave else "no eave lies below"
        change = (
            f"{why}: ask the fire official whether a pathway along the wall to another one will do"
        )
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=zone.clear_in,
        limit=zone.width_in,
        unit="in",
        objects=(zone.plane.id, *zone.arrays),
        line=design.inputs.line_of(*place),
    )


_CLAUSES = clauses_of("escape_openings")

RULE = Rule(
    id="fire.escape-openings",
    title="Escape openings onto the roof",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
