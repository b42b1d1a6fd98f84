"""Arrays of one plane do not overlap, their rails included, and leave rails room to grow."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray, apart_in
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
        limit = max(_expansion_gap_in(one), _expansion_gap_in(other))
        outcome = clearance_outcome(measured, limit)
        apart = format_feet_inches(measured, rounding="down")
        fact = f"Arrays {one.id} and {other.id} stand {apart} apart on plane {one.plane.id}"
        if limit:
            fact += f", {format_feet_inches(limit, rounding='up')} for rails that grow with heat"
        if measured < 0:
            over = format_feet_inches(-measured, rounding="up")
            fact = f"Arrays {one.id} and {other.id} overlap by {over} on plane {one.plane.id}"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, f"move the corner of array {other.id}"),
            measured=measured,
            limit=limit,
            unit="in",
            objects=(one.id, other.id),
            line=array_line(design, other.id, "corner"),
        )


def _expansion_gap_in(array: PlacedArray) -> float:
    """What the maker of an array's rails wants between their ends, 0 where nothing [in]."""
    splice = array.mounting.rail.splice if array.mounting else None
    return splice.expansion_gap if splice and splice.expansion_after is not None else 0.0


RULE = Rule(
    id="layout.arrays-apart",
    title="Arrays apart from each other",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
