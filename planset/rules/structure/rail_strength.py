"""Rails bend no more between their attachments than their maker allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.design.rail_loads import RailUse
from planset.design.utilization import Utilization
from planset.finding import Finding, Outcome
from planset.rules.documented import cited, doubt, judged_by_maker, maker_line
from planset.rules.lines import array_line, spacing_line
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge the greatest moment on a rail of each array."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for array, loads in zip(design.mounted, design.loads.arrays, strict=True):
        moments = [(moment, use) for use in loads.rails for moment in _moments(use)]
        alone = [use for use in loads.rails if use.up is None]
        if alone:
            yield _alone(design, array, alone[0])
        if moments:
            moment, use = max(moments, key=lambda one: one[0].ratio)
            yield _judged(design, array, use, moment)


def _moments(use: RailUse) -> list[Utilization]:
    checks = [check for check in (use.up, use.down) if check is not None]
    return [moment for check in checks for moment in (check.sagging, check.hogging)]


def _alone(design: Design, array: PlacedArray, use: RailUse) -> Finding:
    message = (
        f"Rail {use.rail} stands on a single attachment and can turn over it. Set attachments "
        "closer, so that every rail has two."
    )
    line = spacing_line(design, array.id)
    document = array.system.document
    return RULE.found(Outcome.FAIL, document, message, objects=(array.id, use.rail), line=line)


def _judged(design: Design, array: PlacedArray, use: RailUse, moment: Utilization) -> Finding:
    stated = array.system.rail.section
    demand, capacity = moment.demand / 12, moment.capacity / 12
    outcome, ratio = judged_by_maker(stated, demand, capacity)
    fact = (
        f"Rail {use.rail} bends with {demand:.0f} lb-ft over {use.span_in:.4g} in between "
        f"attachments; it holds {capacity:.0f} lb-ft {stated.basis}{doubt(stated)}"
    )
    change = "set attachments or rails closer, or choose a stronger rail"
    if outcome is Outcome.OPEN:
        change = "give the maker's allowable (ASD) moment with its document and page"
    return RULE.found(
        outcome,
        cited(stated),
        sentence(outcome, fact, change),
        measured=ratio,
        limit=1.0,
        demand=demand,
        capacity=capacity,
        use_unit="lb-ft",
        objects=(array.id, use.rail),
        line=array_line(design, array.id, *maker_line(outcome)),
    )


RULE = Rule(
    id="structure.rail-strength",
    title="Rail in bending, demand over capacity",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
