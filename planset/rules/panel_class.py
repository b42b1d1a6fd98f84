"""What the rules on the fire class of panel systems share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.module_holding import FireRating
from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE
from planset.rules.lines import array_line
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def judged(rule: Rule, design: Design, citation: str) -> Iterator[Finding]:
    """Yield for each mounted array its fire class, or the condition of it that does not hold."""
    for array in design.mounted:
        rating = array.system.fire
        line = array_line(design, array.id, "mounting", "system")
        if rating is None:
            message = (
                f"The catalog gives no fire class of {array.system.model} with the "
                f"{array.product.model}; show the AHJ a listing of both, or ask whether this roof "
                "needs a class."
            )
            outcome = Outcome.ASK
        else:
            outcome, message = _against(array, rating)
        yield rule.found(outcome, citation, message, objects=(array.id,), line=line)


def _against(array: PlacedArray, rating: FireRating) -> tuple[Outcome, str]:
    """The outcome for one array, and the sentence on it."""
    where = f"{rating.document}, page {rating.page}"
    kind, slope = array.product.fire_type, array.plane.slope_deg
    if kind not in rating.module_types:
        kinds = " or ".join(rating.module_types)
        return Outcome.FAIL, (
            f"{array.system.model} is {rating.rating} with modules of {kinds} ({where}), and the "
            f"{array.product.model} is {kind}; choose a module or a system that fit each other."
        )
    if not rating.slope_from - NOISE <= slope <= rating.slope_to + NOISE:
        return Outcome.FAIL, (
            f"{array.system.model} is {rating.rating} on slopes of {rating.slope_from:g} to "
            f"{rating.slope_to:g} degrees ({where}), and plane {array.plane.id} is at {slope:.1f}; "
            "choose a system that is listed for this slope."
        )
    return Outcome.PASS, (
        f"Array {array.id} is a {rating.rating} system: {array.system.model} with modules of "
        f"{kind} at {slope:.1f} degrees ({where})."
    )
