"""Conductors fill no raceway over its limit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import ends_of, named, nec, run_line, sized
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the share of the inside area, grounding conductors counted."""
    for segment, run in sized(design):
        fill = run.fill
        if fill is None:
            continue
        outcome = at_most_outcome(fill.share, fill.limit)
        fact = (
            f"{named(segment)} fills {100 * fill.share:.1f} % of {fill.raceway.trade_size} in "
            f"{run.raceway.upper()}, where {100 * fill.limit:.0f} % is allowed"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "take the next trade size, or leave it open"),
            measured=100 * fill.share,
            limit=100 * fill.limit,
            unit="%",
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.raceway-fill",
    title="Fill of the raceways",
    subject="electrical",
    held_by="electrical",
    clauses=nec("conduit_fill"),
    check=check,
)
