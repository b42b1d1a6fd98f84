"""What the rules on demand and capacity share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.limits import ratio_outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def not_computed(rule: Rule, design: Design, citation: str) -> Finding | None:
    """Return the open finding of a job whose loads are not computed, else None.

    Where others answer for every mounting, structure.by-others says what is open.
    """
    if not design.loads.reason or not design.mounted:
        return None
    message = (
        f"{rule.title}: not judged, since {design.loads.reason}; have an engineer check it by hand."
    )
    return rule.found(Outcome.OPEN, citation, message)


def use_ratio(demand: float, capacity: float) -> float | None:
    """Return demand over capacity, None when there is no capacity at all."""
    return demand / capacity if capacity > 0 else None


def use_outcome(ratio: float | None) -> Outcome:
    """Judge that ratio; no capacity at all fails."""
    return Outcome.FAIL if ratio is None else ratio_outcome(ratio)
