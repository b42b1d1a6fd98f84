"""A connection ahead of the main brings the neutral to its disconnect."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.conductors import area_cmil
from planset.design.electrical.ratings import wire_size
from planset.finding import Finding, Outcome
from planset.rules.circuits import ends_of, named, nec, run_line, sized
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the neutral with the least of the table; it carries a fault of the service."""
    for segment, run in sized(design):
        if not segment.supply_side:
            continue
        large = area_cmil(run.neutral_size) >= area_cmil(run.neutral_least)
        outcome = Outcome.PASS if large else Outcome.FAIL
        fact = (
            f"{named(segment)} has a neutral of {wire_size(run.neutral_size)} {run.material}, "
            f"bonded at {segment.start}; {wire_size(run.neutral_least)} is the least by "
            "Table 250.102(C)(1)"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, f"take {wire_size(run.neutral_least)} or larger"),
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.tap-neutral",
    title="Neutral at the tap",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_grounding"),
    check=check,
)
