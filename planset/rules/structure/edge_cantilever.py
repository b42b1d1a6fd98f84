"""Module edges run no farther past their last foot than the maker allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.module_edges import module_edges
from planset.finding import Finding
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the longest free end of each array on feet with the maker's."""
    for one in design.mounts:
        foot = one.array.system.foot
        if foot is None:
            continue
        edge = max(module_edges(one), key=lambda edge: edge.cantilever_in)
        outcome = at_most_outcome(edge.cantilever_in, foot.edge_cantilever)
        side = "upper" if edge.upper else "lower"
        free = format_feet_inches(edge.cantilever_in, rounding="up")
        allowed = format_feet_inches(foot.edge_cantilever, rounding="down")
        past = "past its last foot" if edge.feet else "without any foot"
        fact = (
            f"The {side} edge from {edge.modules[0]} to {edge.modules[-1]} runs {free} {past}, the "
            f"longest free end of array {one.id}; {foot.name} allows {allowed}"
        )
        change = "shift the array along the eave, or set rails on more rafters"
        yield RULE.found(
            outcome,
            f"{foot.document}, page {foot.page}",
            sentence(outcome, fact, change),
            measured=edge.cantilever_in,
            limit=foot.edge_cantilever,
            unit="in",
            objects=(one.id, *edge.modules),
            line=array_line(design, one.id, "mounting", "rail_every"),
        )


RULE = Rule(
    id="structure.edge-cantilever",
    title="Free end of a module edge",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
