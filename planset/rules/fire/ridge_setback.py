"""Clear strip below a horizontal ridge, wider where the arrays cover much of the roof."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planset.codes.irc.roof_access import RoofAccess, required_ridge_setback_in, roof_access
from planset.finding import Finding
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import not_judged, subject_planes
from planset.rules.rule import Rule, cite, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_SPRINKLERED: Mapping[int, str] = {2021: "R324.6.2.1"}

_NEAR_LIMIT_PERCENT = 1.0  # a survey is no better (common practice, no source)


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Hold each array's distance from each ridge of its plane against the setback."""
    access = roof_access(edition)
    if outside := not_judged(RULE, design, citation, access):
        yield outside
        return
    planes = {plane.id for plane in subject_planes(design, access)}
    sprinklered = design.inputs.job.building.sprinklered
    ratio = design.access.area_ratio_percent
    required = required_ridge_setback_in(access, design.access.judged_ratio_percent, sprinklered)
    clause = cite("IRC", edition, _SPRINKLERED[edition]) if sprinklered else citation
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


def _coverage(access: RoofAccess, ratio: float, sprinklered: bool) -> str:
    limit = access.area_limit(sprinklered)
    text = f"Arrays cover {ratio:.2f} % of the roof in plan, and the limit is {limit:g} %"
    if abs(ratio - limit) <= _NEAR_LIMIT_PERCENT:
        text += ", so near that the survey decides"
    return f"{text}."


RULE = Rule(
    id="fire.ridge-setback",
    title="Setback at the ridge",
    subject="fire access",
    document="IRC",
    clauses={2021: "R324.6.2"},
    check=check,
    not_in=frozenset({2012}),
)
