"""Clear strip below a horizontal ridge, wider where the arrays cover much of the roof."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import EffectiveAccess
from planset.design.access.clearances import RidgeClearance
from planset.design.access.scope import Scope, binding_ridges, ratio_percent, ridge_setback_in
from planset.finding import Finding, Outcome
from planset.rules.existing import before, is_existing, missed_before
from planset.rules.limits import NOISE, clearance_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import clauses_of, judged, replaced, rules_in_force, without
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_NEAR_LIMIT_PERCENT = 1.0  # a survey is no better (common practice, no source)


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Hold each array's distance from each ridge above it against the setback."""
    if instead := replaced(RULE, design, citation):
        yield instead
        return
    rules = rules_in_force(design)
    for scope in judged(RULE, design, citation):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        for ridge in binding_ridges(design.access, rules):
            if ridge.plane in names:
                yield _of_ridge(design, scope, rules, ridge)


def _of_ridge(
    design: Design, scope: Scope, rules: EffectiveAccess, ridge: RidgeClearance
) -> Finding:
    plane = design.roof.plane(ridge.plane)
    sprinklered = design.inputs.job.building.sprinklered and not scope.building
    required = ridge_setback_in(design.inputs, rules, design.access, plane)
    outcome = clearance_outcome(ridge.clear_in, required)
    kept = format_feet_inches(ridge.clear_in, rounding="down")
    least = format_feet_inches(required, rounding="up")
    between = design.access.buildings[plane.building].between_walls
    covered = _coverage(
        rules, ratio_percent(rules, design.access, plane), sprinklered, between=between
    )
    fact = (
        f"{covered} Array {ridge.array} stays {kept} from {ridge.edge}, where {least} is required"
    )
    change = f"move array {ridge.array} down to keep more than {least}, or take out its top row"
    if is_existing(design, ridge.array):
        change = (
            f"take out new modules until a smaller setback is enough, or the top row of "
            f"{ridge.array}, which is there already"
        )
    if outcome is Outcome.FAIL and (question := _question(design, scope, rules, ridge)):
        outcome, change = Outcome.ASK, f"ask the fire official {question}"
    if outcome is not Outcome.ASK and _hangs_on_fire_walls(design, scope, rules, ridge):
        outcome = Outcome.ASK
        change = (
            "state fire_walls of the building, or ask the fire official whether the area of the "
            "row or of the unit between fire walls counts"
        )
    return RULE.found(
        outcome,
        rules.cite_ridge(sprinklered=sprinklered),
        sentence(outcome, fact, change),
        measured=ridge.clear_in,
        limit=required,
        unit="in",
        objects=(ridge.array, ridge.edge),
        line=array_line(design, ridge.array, "corner", "up"),
    )


def _question(design: Design, scope: Scope, rules: EffectiveAccess, ridge: RidgeClearance) -> str:
    """What the official must decide before the setback is missed, "" when nothing."""
    already = before(design) if is_existing(design, ridge.array) else None
    if already:
        plane = design.roof.plane(ridge.plane)
        required = ridge_setback_in(design.inputs, rules, already, plane)
        if missed_before(ridge.clear_in, ridge.clear_in, required):
            return f"whether existing array {ridge.array} may stay where it was before"
    if ridge.at == "high edge" and rules.readings.shed_high_edge == "ask":
        return "whether the high edge of a single plane counts as a ridge"
    if ridge.dormer:
        return "whether the ridge of a dormer needs the setback"
    return ""


def _hangs_on_fire_walls(
    design: Design, scope: Scope, rules: EffectiveAccess, ridge: RidgeClearance
) -> bool:
    """Whether the area that counts decides, and nobody said which part of a row the roof is."""
    building = design.inputs.job.building
    if building.use != "townhouse" or scope.building or building.fire_walls is not None:
        return False
    low, high = rules.code.ridge_setback_low_in, rules.code.ridge_setback_high_in
    return low - NOISE <= ridge.clear_in < high - NOISE and rules.readings.ratio_base == "roof"


def _coverage(rules: EffectiveAccess, ratio: float, sprinklered: bool, *, between: bool) -> str:
    limit = rules.code.area_limit(sprinklered)
    base = "roof between fire walls" if between else "roof"
    base = "plane" if rules.readings.ratio_base == "plane" else base
    if limit is None:
        return f"Arrays cover {ratio:.2f} % of the {base} in plan."
    text = f"Arrays cover {ratio:.2f} % of the {base} in plan, and the limit is {limit:g} %"
    if abs(ratio - limit) <= _NEAR_LIMIT_PERCENT:
        text += ", so near that the survey decides"
    return f"{text}."


_CLAUSES = clauses_of("ridge")

RULE = Rule(
    id="fire.ridge-setback",
    title="Setback at the ridge",
    subject="fire access",
    held_by="dwelling access",
    clauses=_CLAUSES,
    check=check,
    not_in=without(_CLAUSES),
    concerns="dwellings",
)
