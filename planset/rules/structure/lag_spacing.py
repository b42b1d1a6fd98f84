"""Lag screws of one attachment stand far enough apart along the rafter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.finding import Finding
from planset.rules.lines import array_line
from planset.rules.ratios import use_outcome, use_ratio
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the spacing of two screws or more with the least along the grain."""
    for fastening in design.fastenings:
        spacing, least = fastening.spacing_in, fastening.minimum_spacing_in
        if spacing is None:
            continue
        outcome = use_outcome(use_ratio(least, spacing))
        fact = (
            f"The {fastening.count} lag screws of an attachment of array {fastening.array} stand "
            f"{spacing:.3g} in apart along the rafter, {least:.3g} in at least"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "choose a system with thinner screws or a longer plate"),
            measured=spacing,
            limit=least,
            unit="in",
            objects=(fastening.array,),
            line=array_line(design, fastening.array, "mounting", "system"),
        )


RULE = Rule(
    id="structure.lag-spacing",
    title="Lag screw to lag screw",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("Tables 12.5.1A to 12.5.1E"),  # from memory
    check=check,
)
