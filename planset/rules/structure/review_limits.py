"""Beyond which the jurisdiction asks for an engineer's seal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.fields import Sourced
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the arrays with each limit that the profile states."""
    limits = design.inputs.jurisdiction.review
    mounted, loads = design.mounted, design.loads
    if not mounted:
        return
    weight = max(array.system.dead_load_psf for array in mounted)
    points = [load.loads.dead_lb for load in loads.attachments]
    heights = [one.height_above_roof_in for one in design.build_ups]
    apart = [spacing for rack in design.racking for spacing in rack.apart_across_in]
    found: tuple[tuple[str, float | None, Sourced[float] | None, str], ...] = (
        ("weight of an array", weight, limits.array_weight, "psf"),
        ("dead load on an attachment", max(points, default=None), limits.point_load, "lb"),
        ("height above the roof", max(heights), limits.height_above_roof, "in"),
        ("distance of anchors across the slope", max(apart, default=None),
         limits.anchor_spacing, "in"),
    )  # fmt: skip
    for name, value, limit, unit in found:
        if value is not None and limit is not None:
            yield _judged(design, name, value, limit, unit)


def _judged(design: Design, name: str, value: float, limit: Sourced[float], unit: str) -> Finding:
    within = at_most_outcome(value, limit.value) is Outcome.PASS
    outcome = Outcome.PASS if within else Outcome.ASK
    fact = f"The {name} is {value:.3g} {unit}, {limit.value:g} {unit} at most without an engineer"
    change = "have the set sealed, or ask the plan reviewer whether that is needed"
    return RULE.found(
        outcome,
        f"{limit.source}, {limit.date}",
        sentence(outcome, fact, change),
        measured=value,
        limit=limit.value,
        unit=unit,
        line=design.inputs.line_of("arrays"),
    )


RULE = Rule(
    id="structure.review-limits",
    title="Limits of review without engineering",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
