"""Lag screws hold the uplift on the worst attachment of each array."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.finding import Finding
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.rules.uplift import not_computed, use_outcome, use_ratio, worst_demand

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Divide the worst demand by the withdrawal capacity of the screws together."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for fastening in design.fastenings:
        demand = worst_demand(design, fastening.array)
        if demand is None:
            continue  # layout.rails-under-modules fails such an array
        ratio = use_ratio(demand.demand_lb, fastening.lag_capacity_lb)
        outcome = use_outcome(ratio)
        fact = (
            f"{demand.attachment} in zone {demand.zone} takes {demand.demand_lb:.0f} lb uplift; "
            f"its {fastening.count} lag screws hold {fastening.lag_capacity_lb:.0f} lb"
        )
        change = "set attachments or rails closer, or choose more or longer lag screws"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=ratio,
            limit=1.0,
            objects=(fastening.array, demand.attachment),
            line=array_line(design, fastening.array, "mounting", "attachment_spacing"),
        )


RULE = Rule(
    id="structure.lag-withdrawal",
    title="Lag screws in withdrawal, demand over capacity",
    subject="structure",
    held_by="wood",
    clauses=clauses_of("NDS", {2018: "12.2.1"}),
    check=check,
)
