"""Clear strip below a horizontal ridge, wider where the arrays cover much of the roof."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import effective_access
from planset.codes.roof_access import (
    WITHOUT_ROOF_ACCESS,
    DwellingAccess,
    required_ridge_setback_in,
)
from planset.finding import Finding
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import clauses_since_2018, not_judged, subject_planes
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_NEAR_LIMIT_PERCENT = 1.0  # a survey is no better (common practice, no source)


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Hold each array's distance from each ridge of its plane against the setback."""
    rules = effective_access(design.inputs.jurisdiction)
    access = rules.code
    if outside := not_judged(RULE, design, citation, access):
        yield outside
        return
    planes = {plane.id for plane in subject_planes(design, access)}
    sprinklered = design.inputs.job.building.sprinklered
    ratio = design.access.area_ratio_percent
    required = required_ridge_setback_in(access, design.access.judged_ratio_percent, sprinklered)
    clause = rules.cite_ridge(sprinklered=sprinklered)
    for ridge in design.access.ridges:
        if ridge.plane not in planes:
            continue
        outcome = clearance_outcome(ridge.clear_in, required)
        kept = format_feet_inches(ridge.clear_in, rounding="down")
        least = format_feet_inches(required, rounding="up")
        fact = (
            f"{_coverage(access, ratio, sprinklered)} Array {ridge.array} stays {kept} from "
            f"{ridge.edge}, where {least} is required"
        )
        change = f"move array {ridge.array} down to keep more than {least}, or take out its top row"
        yield RULE.found(
            outcome,
            clause,
            sentence(outcome, fact, change),
            measured=ridge.clear_in,
            limit=required,
            unit="in",
            objects=(ridge.array, ridge.edge),
            line=array_line(design, ridge.array, "corner", "up"),
        )


def _coverage(access: DwellingAccess, ratio: float, sprinklered: bool) -> str:
    limit = access.area_limit(sprinklered)
    if limit is None:
        return f"Arrays cover {ratio:.2f} % of the roof in plan."
    text = f"Arrays cover {ratio:.2f} % of the roof in plan, and the limit is {limit:g} %"
    if abs(ratio - limit) <= _NEAR_LIMIT_PERCENT:
        text += ", so near that the survey decides"
    return f"{text}."


RULE = Rule(
    id="fire.ridge-setback",
    title="Setback at the ridge",
    subject="fire access",
    held_by="dwelling access",
    clauses=clauses_since_2018("ridge"),
    check=check,
    not_in=WITHOUT_ROOF_ACCESS,
)
