"""The connector itself holds the uplift, by its maker's documented capacity."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.catalog.mounting import Capacity
from planset.design.layout import PlacedArray
from planset.design.uplift import UpliftDemand
from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.rules.uplift import not_computed, use_outcome, use_ratio, worst_demand

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Divide the worst demand of each array by the maker's allowable uplift."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for array in design.mounted:
        demand = worst_demand(design, array.id)
        if demand is not None:  # layout.rails-under-modules fails an array without attachments
            yield _judged(design, array, demand)


def _judged(design: Design, array: PlacedArray, demand: UpliftDemand) -> Finding:
    attachment = array.system.attachment
    uplift = attachment.uplift
    ratio = use_ratio(demand.demand_lb, uplift.capacity)
    outcome = use_outcome(ratio)
    doubt = _doubt(uplift)
    if doubt and outcome is not Outcome.FAIL:
        outcome, ratio = Outcome.OPEN, None
    fact = (
        f"{demand.attachment} in zone {demand.zone} takes {demand.demand_lb:.0f} lb uplift; "
        f"the {attachment.name} holds {uplift.capacity:.0f} lb {uplift.basis}{doubt}"
    )
    change = "set attachments or rails closer, or choose a stronger connector"
    if outcome is Outcome.OPEN:
        change = "give the maker's allowable (ASD) uplift with its document and page"
    return RULE.found(
        outcome,
        f"{uplift.document or 'no document'}, page {uplift.page or 'not given'}",
        sentence(outcome, fact, change),
        measured=ratio,
        limit=1.0,
        objects=(array.id, demand.attachment),
        line=array_line(design, array.id, "mounting", "attachment_spacing"),
    )


def _doubt(uplift: Capacity) -> str:
    """Say why a capacity proves nothing yet, "" when it can be compared with the demand."""
    if uplift.document is None or uplift.page is None:
        return ", which no document and page give"
    return "" if uplift.basis == "ASD" else ", which is no allowable value"


RULE = Rule(
    id="structure.connector-uplift",
    title="Connector in uplift, demand over capacity",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
