"""Module edges span no farther from foot to foot than the maker allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.module_edges import module_edges
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the longest span of each array on feet with the maker's."""
    for one in design.mounts:
        foot = one.array.system.foot
        if foot is None:
            continue
        document = f"{foot.document}, page {foot.page}"
        if one.array.given.orientation != "landscape":
            message = (
                f"{foot.name} holds the long edge of a module, and rails up the slope cross the "
                f"short ones of array {one.id}; lay its modules landscape."
            )
            line = array_line(design, one.id, "orientation")
            yield RULE.found(Outcome.FAIL, document, message, objects=(one.id,), line=line)
            continue
        edge = max(module_edges(one), key=lambda edge: edge.span_in)
        outcome = at_most_outcome(edge.span_in, foot.edge_span)
        side = "upper" if edge.upper else "lower"
        fact = (
            f"The {side} edge from {edge.modules[0]} on spans "
            f"{format_feet_inches(edge.span_in, rounding='up')} from foot to foot, the longest of "
            f"array {one.id}; {foot.name} allows "
            f"{format_feet_inches(foot.edge_span, rounding='down')}"
        )
        yield RULE.found(
            outcome,
            document,
            sentence(outcome, fact, "set rails on more rafters by rail_every"),
            measured=edge.span_in,
            limit=foot.edge_span,
            unit="in",
            objects=(one.id, *edge.modules),
            line=array_line(design, one.id, "mounting", "rail_every"),
        )


RULE = Rule(
    id="structure.edge-span",
    title="Module edge from foot to foot",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
