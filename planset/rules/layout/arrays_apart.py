"""Arrays of one plane do not overlap, their rails included."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from planset.design.layout import apart_in
from planset.finding import Finding
from planset.rules.limits import clearance_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure between the outer hardware of every two arrays of a plane; below 0 they overlap."""
    for one, other in combinations(design.arrays, 2):
        if one.plane.id != other.plane.id:
            continue
        measured = apart_in(one, other)
        outcome = clearance_outcome(measured, 0.0)
        apart = format_feet_inches(measured, rounding="down")
        fact = f"Arrays {one.id} and {other.id} stand {apart} apart on plane {one.plane.id}"
        if measured < 0:
            over = format_feet_inches(-measured, rounding="up")
            fact = f"Arrays {one.id} and {other.id} overlap by {over} on plane {one.plane.id}"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, f"move the corner of array {other.id}"),
            measured=measured,
            limit=0.0,
            unit="in",
            objects=(one.id, other.id),
            line=array_line(design, other.id, "corner"),
        )


RULE = Rule(
    id="layout.arrays-apart",
    title="Arrays apart from each other",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
