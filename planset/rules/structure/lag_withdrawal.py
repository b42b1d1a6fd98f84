"""Lag screws hold the uplift on the worst attachment of each wind zone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.design.attachment_loads import AttachmentLoad
from planset.design.fastening import Fastening
from planset.finding import Finding
from planset.rules.lines import spacing_line
from planset.rules.ratios import not_computed, use_outcome, use_ratio
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Divide the worst demand of each zone by the withdrawal capacity of the screws together."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for one, loads in zip(design.mounts, design.loads.arrays, strict=True):
        held = one.fastening
        if held is None:
            continue
        for load in loads.worst_by_zone(lambda one: one.uplift_lb):
            yield _judged(design, citation, held, load)


def _judged(design: Design, citation: str, held: Fastening, load: AttachmentLoad) -> Finding:
    demand, capacity = load.uplift_lb, held.lag_capacity_lb
    ratio = use_ratio(demand, capacity)
    outcome = use_outcome(ratio)
    fact = (
        f"{load.attachment} in zone {load.zone} takes {demand:.0f} lb uplift; its {held.count} lag "
        f"screws hold {capacity:.0f} lb"
    )
    change = "set attachments or rails closer, or choose more or longer lag screws"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=ratio,
        limit=1.0,
        demand=demand,
        capacity=capacity,
        use_unit="lb",
        objects=(held.array, load.attachment),
        line=spacing_line(design, held.array),
    )


RULE = Rule(
    id="structure.lag-withdrawal",
    title="Lag screws in withdrawal, demand over capacity",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("12.2.1"),
    check=check,
)
