"""Beyond which the jurisdiction asks for an engineer's seal."""

from __future__ import annotations

from collections.abc import Callable, Iterator
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
    asked: tuple[tuple[str, Callable[[Design], float | None], Sourced[float] | None, str], ...] = (
        ("weight of an array", _weight_psf, limits.array_weight, "psf"),
        ("dead load on an attachment", _point_load_lb, limits.point_load, "lb"),
        ("height above the roof", _height_in, limits.height_above_roof, "in"),
        ("distance of anchors across the slope", _apart_in, limits.anchor_spacing, "in"),
    )
    for name, measured, limit, unit in asked:
        value = measured(design) if limit is not None else None
        if value is not None and limit is not None:
            yield _judged(design, name, value, limit, unit)


def _weight_psf(design: Design) -> float | None:
    return max((array.system.dead_load_psf for array in design.mounted), default=None)


def _point_load_lb(design: Design) -> float | None:
    """Dead load that the rail brings to the attachment of the greatest share."""
    loads = [
        item.tributary_sqft * item.continuity * array.system.dead_load_psf
        for array, rack in zip(design.mounted, design.racking, strict=True)
        for item in rack.attachments
    ]
    return max(loads, default=None)


def _height_in(design: Design) -> float | None:
    return max((one.build_up.height_above_roof_in for one in design.mounts), default=None)


def _apart_in(design: Design) -> float | None:
    apart = (spacing for rack in design.racking for spacing in rack.apart_across_in)
    return max(apart, default=None)


def _judged(design: Design, name: str, value: float, limit: Sourced[float], unit: str) -> Finding:
    within = at_most_outcome(value, limit.value) is Outcome.PASS
    outcome = Outcome.PASS if within else Outcome.ASK
    fact = f"The {name} is {value:.4g} {unit}, {limit.value:g} {unit} at most without an engineer"
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
