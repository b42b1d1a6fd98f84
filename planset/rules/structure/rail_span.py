"""The span between attachments is one that the maker's table allows on this site."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.rail_loads import RailUse
from planset.design.span_table import NotCovered
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line, spacing_line
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the rail nearest to its table's span with it; outside the table nothing is known."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for array, loads in zip(design.mounted, design.loads.arrays, strict=True):
        table = array.system.rail.span_table
        if table is None:
            continue  # the rail is judged as a beam alone
        document = f"{table.document}, page {table.page}"
        readings = [use for use in loads.rails if use.table is not None and use.up is not None]
        outside = [use for use in readings if isinstance(use.table, NotCovered)]
        if outside:
            yield _outside(design, array.id, document, outside[0])
        covered = [use for use in readings if not isinstance(use.table, NotCovered)]
        if covered:
            worst = max(covered, key=lambda use: use.span_in - _allowed_in(use))
            yield _judged(design, array.id, document, worst)


def _allowed_in(use: RailUse) -> float:
    if use.table is None or isinstance(use.table, NotCovered):
        msg = f"the table does not cover rail {use.rail}"
        raise ValueError(msg)
    return use.table.row.span_in


def _outside(design: Design, array: str, document: str, use: RailUse) -> Finding:
    reason = use.table.reason if isinstance(use.table, NotCovered) else ""
    message = (
        f"The maker's span table does not cover rail {use.rail}: {reason}. Ask the maker for a "
        "table that does; the rail is judged as a beam in the meantime."
    )
    line = array_line(design, array, "mounting", "system")
    return RULE.found(Outcome.OPEN, document, message, objects=(array, use.rail), line=line)


def _judged(design: Design, array: str, document: str, use: RailUse) -> Finding:
    allowed = _allowed_in(use)
    outcome = at_most_outcome(use.span_in, allowed)
    drawn = format_feet_inches(use.span_in, rounding="up")
    most = format_feet_inches(allowed, rounding="down")
    zones = ("zone " if len(use.zones) == 1 else "zones ") + ", ".join(use.zones)
    fact = f"Rail {use.rail} spans {drawn} in {zones}; the maker's table allows {most}"
    return RULE.found(
        outcome,
        document,
        sentence(outcome, fact, "set attachments closer"),
        measured=use.span_in,
        limit=allowed,
        unit="in",
        objects=(array, use.rail),
        line=spacing_line(design, array),
    )


RULE = Rule(
    id="structure.rail-span",
    title="Rail span by the maker's table",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
