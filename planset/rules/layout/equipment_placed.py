"""The site plan shows where the electrical equipment is, as the wall elevations have it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.job.electrical_checks.ids import TAP
from planset.job.electrical_checks.walls import wall_tags
from planset.job.site_plan import GAS_METER
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.job.electrical.electrical import Electrical
    from planset.job.electrical.wall import EquipmentWall
    from planset.job.site_plan import Equipment
    from planset.source import Location

AGREE_IN = 1.0
"""How far distances on the site plan and on an elevation may differ (common practice, no
source) [in]."""


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for each piece of equipment, and whether walls and elevations agree with its place."""
    if design.site is None:
        return
    placed = {one.id for one in design.site.equipment}
    topology = design.electrical.topology
    for tag in needed(design.inputs.job.electrical):
        outcome = Outcome.PASS if tag in placed else Outcome.FAIL
        where = "has its place" if tag in placed else "has no place"
        yield RULE.found(
            outcome,
            citation,
            sentence(
                outcome,
                f"{tag}, {topology.words_of(tag).lower()}, {where} on the site plan",
                f"add it to site_plan.equipment, tag: {tag}",
            ),
            objects=(tag,),
            line=design.inputs.line_of("site_plan", "equipment"),
        )
    yield from _past_the_walls(design, citation)
    for wall in design.inputs.job.electrical.walls:
        yield from _as_on_elevation(design, citation, wall)


def needed(electrical: Electrical) -> tuple[str, ...]:
    """Tags of what reviewers look for on a site plan; microinverters stand under their modules.

    21 of 55 published checklists ask for equipment, 9 of them for the meter. Taps lie in a gutter
    of other equipment.
    """
    return tuple(tag for tag in wall_tags(electrical) if tag != TAP)


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


def _as_on_elevation(design: Design, citation: str, wall: EquipmentWall) -> Iterator[Finding]:
    """Whether pieces of one elevation stand at one wall, as far apart as there."""
    plan = design.inputs.job.site_plan
    known = {one.tag: (number, one) for number, one in enumerate(plan.equipment if plan else ())}
    middles = {item.tag: item.left + item.width / 2 for item in wall.equipment}
    shown = [known[tag] for tag in middles if tag in known]
    for (_, a), (number, b) in pairwise(shown):
        outcome, fact, mend = _compared(a, b, middles[b.tag] - middles[a.tag], wall.name)
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, mend),
            objects=(a.tag, b.tag),
            line=design.inputs.line_of("site_plan", "equipment", number, "along"),
        )


def _compared(a: Equipment, b: Equipment, apart_in: float, wall: str) -> tuple[Outcome, str, str]:
    """How two pieces stand to each other on the plan; an inner side is seen the other way round."""
    if (a.building, a.wall, a.inside) != (b.building, b.wall, b.inside):
        fact = f"{a.tag} and {b.tag} stand at two walls on the site plan, and hang on {wall}"
        return Outcome.FAIL, fact, "correct site_plan.equipment, or electrical.walls"
    along_in = (a.along - b.along) if a.inside else (b.along - a.along)
    planned, hung = (
        f"{format_feet_inches(abs(length), denominator=2)} {'right' if length > 0 else 'left'}"
        for length in (along_in, apart_in)
    )
    fact = f"{b.tag} stands {planned} of {a.tag} on the site plan, and on {wall} {hung}"
    outcome = at_most_outcome(abs(along_in - apart_in), AGREE_IN)
    return outcome, fact, "correct along, or left of the elevation"


RULE = Rule(
    id="layout.equipment-placed",
    title="Equipment on the site plan",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
