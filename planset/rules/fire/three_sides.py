"""A pathway along three sides of each array, where the jurisdiction asks for that instead.

An array that is small, beside an adjacent roof plane that intersects its own, needs only the ridge
kept clear, and one pathway from ridge to eave when the arrays cover much of the roof.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.access import EffectiveAccess
from planset.catalog.local_access import ThreeSides
from planset.design.access.pathways import pathways_on
from planset.design.access.three_sides import relieved_arrays
from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
from planset.roof.solid import EdgeKind
from planset.rules.limits import NOISE, clearance_outcome
from planset.rules.lines import array_line
from planset.rules.roof_access import judged_locally, rules_in_force
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

Measured = tuple[float, float, str]


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Hold each array against the three pathways, or against what the relief leaves of them."""
    local = design.inputs.jurisdiction.access.three_sides
    if local is None:
        return
    rules = rules_in_force(design)
    sure = relieved_arrays(design.roof, design.arrays, design.access, rules)
    perhaps = relieved_arrays(design.roof, design.arrays, design.access, rules, across_ridges=True)
    for scope in judged_locally(RULE, design, local.source):
        if isinstance(scope, Finding):
            yield scope
            continue
        names = {plane.id for plane in scope.planes}
        for array in design.arrays:
            if array.plane.id in names:
                yield _of_array(design, rules, array, sure[array.id], perhaps[array.id])


def _of_array(
    design: Design, rules: EffectiveAccess, array: PlacedArray, relieved: bool, perhaps: bool
) -> Finding:
    local = design.inputs.jurisdiction.access.three_sides
    assert local is not None  # noqa: S101 - check() has seen to it
    rule = local.value
    relief = _relieved(design, rules, array, rule)
    worst = relief if relieved else _three_sides(design, array, rule)
    measured, limit, where = worst
    outcome = clearance_outcome(measured, limit)
    kept = format_feet_inches(measured, rounding="down")
    least = format_feet_inches(limit, rounding="up")
    percent = design.access.buildings[array.plane.building].percent
    covered = f"the arrays cover {percent:.2f} % of the roof in plan, {rule.ratio:g} % the limit"
    fact = f"Array {array.id} leaves {kept} {where}, where {least} is required"
    if relieved:
        fact += f" beside an adjacent roof ({covered})"
    change = f"move or narrow array {array.id} to keep more than {least}"
    may_pass = perhaps and relief[0] >= relief[1] - NOISE
    if outcome is Outcome.FAIL and not relieved and may_pass:
        outcome = Outcome.ASK
        change = (
            "ask the fire official whether the far side of the ridge is an adjacent roof that "
            "relieves it"
        )
    return RULE.found(
        outcome,
        local.source,
        sentence(outcome, fact, change),
        measured=measured,
        limit=limit,
        unit="in",
        objects=(array.id,),
        line=array_line(design, array.id),
    )


def _three_sides(design: Design, array: PlacedArray, rule: ThreeSides) -> Measured:
    """The least distance from the edges of the plane but the eave of a steep one."""
    level = array.plane.pitch <= rule.eave_slope + NOISE
    near = [
        (edge.clear_in, rule.width, f"at {edge.edge}")
        for edge in design.access.edges
        if edge.array == array.id and (edge.kind is not EdgeKind.EAVE or level)
    ]
    return min(near)


def _relieved(
    design: Design, rules: EffectiveAccess, array: PlacedArray, rule: ThreeSides
) -> Measured:
    """What the relief asks for: the ridge, and a pathway where the roof is covered enough."""
    asked = [
        (ridge.clear_in, rule.ridge_setback, f"at {ridge.edge}")
        for ridge in design.access.ridges
        if ridge.array == array.id
    ]
    percent = design.access.buildings[array.plane.building].percent
    if percent > rule.ratio * (1 + NOISE):
        paths = pathways_on(design.access, (array.plane,))
        widest = max((path.width_in for path in paths if not path.unfinished), default=0.0)
        asked.append((widest, rule.width, "for a pathway from ridge to eave"))
    nothing = (rule.width, rule.ridge_setback, "at a ridge")
    return min(asked, key=lambda item: item[0] - item[1], default=nothing)


RULE = Rule(
    id="fire.three-sides",
    title="Pathway on three sides of an array",
    subject="fire access",
    held_by="",
    clauses={},
    check=check,
)
