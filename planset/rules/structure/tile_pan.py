"""The arms of hooks reach a pan of the tile within their side adjustment."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the arm that stands farthest off its rafter with what its maker allows."""
    for one in design.mounts:
        array, fit = one.array, one.tile_fit
        if fit is None or not fit.hooks:
            continue
        hook = fit.hook
        worst = max(fit.hooks, key=lambda place: abs(place.side_in))
        side = abs(worst.side_in)
        outcome = at_most_outcome(side, hook.side_adjustment)
        way = "right" if worst.side_in > 0 else "left"
        allowed = format_feet_inches(hook.side_adjustment, rounding="down")
        off = format_feet_inches(side, rounding="up")
        fact = (
            f"The arm of {worst.attachment} sits in a pan {off} to the {way} of rafter "
            f"{worst.line}, the farthest of array {array.id}; {hook.name} allows {allowed}"
        )
        fields = ("first_line", "attach_every")
        if not array.system.across:
            fields = ("first_rail_rafter", "rail_every")
        change = (
            f"choose rafters nearer to a pan by {' and '.join(fields)}, or a hook whose arm can be "
            "moved farther"
        )
        yield RULE.found(
            outcome,
            array.system.document,
            sentence(outcome, fact, change),
            measured=side,
            limit=hook.side_adjustment,
            unit="in",
            objects=(array.id, worst.attachment),
            line=array_line(design, array.id, "mounting", fields[0]),
        )


RULE = Rule(
    id="structure.tile-pan",
    title="Hook arms in the pans of the tile",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
