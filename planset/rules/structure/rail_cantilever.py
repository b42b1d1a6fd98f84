"""The free end of a rail is short enough by its maker's share of the span beside it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.design.rail_loads import RailUse
from planset.design.span_table import SpanReading
from planset.finding import Finding
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line, attachment_fields
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the longest free end of each array with its limit."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for array, loads in zip(design.mounted, design.loads.arrays, strict=True):
        ends = [use for use in loads.rails if use.up is not None]
        if not ends:
            continue
        use = max(ends, key=lambda one: one.cantilever_in - one.cantilever_limit_in)
        outcome = at_most_outcome(use.cantilever_in, use.cantilever_limit_in)
        is_free = format_feet_inches(use.cantilever_in, rounding="up")
        most = format_feet_inches(use.cantilever_limit_in, rounding="down")
        fact = f"Rail {use.rail} runs {is_free} past its last attachment, {most} at most"
        first, apart = attachment_fields(array)
        change = "move a pinned attachment" if first == apart else f"change {first} or {apart}"
        yield RULE.found(
            outcome,
            _document(array, use),
            sentence(outcome, fact, change),
            measured=use.cantilever_in,
            limit=use.cantilever_limit_in,
            unit="in",
            objects=(array.id, use.rail),
            line=array_line(design, array.id, "mounting", first),
        )


def _document(array: PlacedArray, use: RailUse) -> str:
    """Which of the maker's two limits governs: the table's free end, or the share of the span."""
    table, read = array.system.rail.span_table, use.table
    if table is None or not isinstance(read, SpanReading):
        return array.system.document
    by_table = read.row.cantilever_in == use.cantilever_limit_in
    return f"{table.document}, page {table.page}" if by_table else array.system.document


RULE = Rule(
    id="structure.rail-cantilever",
    title="Free end of a rail",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
