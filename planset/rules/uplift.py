"""What the uplift rules share: the worst attachment of an array, and loads that are missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.uplift import UpliftDemand
from planset.finding import Finding, Outcome
from planset.rules.limits import ratio_outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def not_computed(rule: Rule, design: Design, citation: str) -> Finding | None:
    """Return the open finding of a job whose wind loads are not computed, else None."""
    if not design.loads.reason:
        return None
    message = (
        f"{rule.title}: not judged, since {design.loads.reason}; have an engineer check it by hand."
    )
    return rule.found(Outcome.OPEN, citation, message)


def worst_demand(design: Design, array_id: str) -> UpliftDemand | None:
    """Return the greatest uplift on an attachment of an array, None when it has none."""
    own = {
        item.id for rack in design.racking if rack.array == array_id for item in rack.attachments
    }
    demands = (demand for demand in design.loads.demands if demand.attachment in own)
    return max(demands, key=lambda demand: demand.demand_lb, default=None)


def use_ratio(demand_lb: float, capacity_lb: float) -> float | None:
    """Return demand over capacity, None when there is no capacity at all."""
    return demand_lb / capacity_lb if capacity_lb > 0 else None


def use_outcome(ratio: float | None) -> Outcome:
    """Judge that ratio; no capacity at all fails."""
    return Outcome.FAIL if ratio is None else ratio_outcome(ratio)
