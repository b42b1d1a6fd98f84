"""Clamps hold modules where the module's manual lets them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.module import ClampZone
from planset.design.mounted import Mounted
from planset.finding import Finding, Outcome
from planset.rules.limits import at_least_outcome, at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the clamps of each array with the zone of the edge they hold."""
    for one in design.mounts:
        if one.array.system.clamps and one.holding.holders:
            yield _of_array(design, one)


def _of_array(design: Design, one: Mounted) -> Finding:
    array, clamping = one.array, one.array.product.clamping
    field = "rail_inset" if array.system.across else "first_rail_rafter"
    line = array_line(design, array.id, "mounting", field)
    if clamping is None:
        message = (
            f"Where the {array.product.model} may be clamped is not in the catalog; add clamping "
            "to the module, with document and page of its installation manual."
        )
        line = array_line(design, array.id, "module")
        document = array.product.document
        return RULE.found(Outcome.OPEN, document, message, objects=(array.id,), line=line)
    document = f"{clamping.document}, page {clamping.page}"
    long = array.system.across == (array.given.orientation == "portrait")
    name, zone = ("long", clamping.long_edge) if long else ("short", clamping.short_edge)
    if zone is None:
        message = (
            f"Clamps hold the {array.product.model} of array {array.id} at its {name} edge, which "
            "takes none; turn the modules by orientation, or choose another system."
        )
        return RULE.found(Outcome.FAIL, document, message, objects=(array.id,), line=line)
    worst = max(_grips(one), key=lambda grip: grip.outside_in(zone))
    low = zone.start - worst.from_corner_in >= worst.from_corner_in - zone.end
    limit = zone.start if low else zone.end
    judge = at_least_outcome if low else at_most_outcome
    outcome = judge(worst.from_corner_in, limit)
    fact = (
        f"The clamp of {worst.rail} on {worst.module} sits "
        f"{format_feet_inches(worst.from_corner_in)} from the corner along the {name} edge, the "
        f"nearest to the end of the zone in array {array.id}, which runs from "
        f"{format_feet_inches(zone.start, rounding='up')} to "
        f"{format_feet_inches(zone.end, rounding='down')}"
    )
    return RULE.found(
        outcome,
        document,
        sentence(outcome, fact, f"change {field}"),
        measured=worst.from_corner_in,
        limit=limit,
        unit="in",
        objects=(array.id, worst.rail, worst.module),
        line=line,
    )


@dataclass(frozen=True, slots=True)
class _Grip:
    """One clamp on one module."""

    rail: str
    module: str
    from_corner_in: float

    def outside_in(self, zone: ClampZone) -> float:
        """How far it is outside of a zone, negative inside [in]."""
        return max(zone.start - self.from_corner_in, self.from_corner_in - zone.end)


def _grips(one: Mounted) -> Iterator[_Grip]:
    """Every clamp on every module that it holds, with the distance to the nearer corner."""
    frames = {module.id: module.surface for module in one.array.modules}
    for holder in one.holding.holders:
        for tag in holder.modules:
            box = frames[tag]
            if one.array.system.across:
                apart = min(holder.v_in - box.y0, box.y1 - holder.v_in)
            else:
                apart = min(holder.u_in - box.x0, box.x1 - holder.u_in)
            yield _Grip(holder.rail, tag, apart)


RULE = Rule(
    id="layout.clamp-zone",
    title="Clamps in the clamping zone of the module",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
