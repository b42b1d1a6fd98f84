"""The site plan shows where the service, the inverter and the disconnect are, each at a wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.job.site_plan import GAS_METER
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.source import Location

NEEDED = ("utility_meter", "main_panel", "pv_disconnect", "inverter")
"""What reviewers look for on a site plan: 21 of 55 published checklists ask for equipment, 9 for
the meter."""


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for each kind of equipment, and whether the walls reach to where it is stated."""
    if design.site is None:
        return
    placed = {one.kind for one in design.site.equipment}
    for kind in NEEDED:
        words = kind.replace("_", " ").replace("pv", "PV")
        outcome = Outcome.PASS if kind in placed else Outcome.FAIL
        where = "has its place" if kind in placed else "has no place"
        ids = tuple(one.id for one in design.site.equipment if one.kind == kind)
        yield RULE.found(
            outcome,
            citation,
            sentence(
                outcome,
                f"The {words} {where} on the site plan",
                f"add it to site_plan.equipment, kind: {kind}",
            ),
            objects=ids,
            line=design.inputs.line_of("site_plan", "equipment"),
        )
    yield from _past_the_walls(design, citation)


def _past_the_walls(design: Design, citation: str) -> Iterator[Finding]:
    """What is stated farther along a side than its walls reach."""
    for number, one in enumerate(design.site.equipment if design.site else ()):
        outcome = at_most_outcome(one.off_wall_in, 0.0)
        if outcome is Outcome.PASS:
            continue
        place: Location = ("site_plan", "equipment", number, "along")
        if one.id == GAS_METER:
            place = ("site_plan", "gas_meter", "along")
        past = format_feet_inches(one.off_wall_in, denominator=2, rounding="up")
        yield RULE.found(
            outcome,
            citation,
            f"{one.id} is stated {past} past the end of its wall; correct along, or the wall.",
            measured=one.off_wall_in,
            limit=0.0,
            unit="in",
            objects=(one.id,),
            line=design.inputs.line_of(*place),
        )


RULE = Rule(
    id="layout.equipment-placed",
    title="Equipment on the site plan",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
