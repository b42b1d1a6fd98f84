"""Conductors ahead of the service disconnect have the least size or more."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.conductors import area_cmil
from planset.codes.nec.supply_side import smallest_conductor
from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import ends_of, named, nec, run_line, sized
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the conductors that reach the connection."""
    taps = {item.tag for item in design.electrical.topology.of_kind(Kind.TAP)}
    for segment, run in sized(design):
        if segment.end not in taps:
            continue
        least = smallest_conductor(run.material)
        large = area_cmil(run.size) >= area_cmil(least)
        outcome = Outcome.PASS if large else Outcome.FAIL
        fact = (
            f"{named(segment)} is of {run.size} AWG {run.material} ahead of the main, where "
            f"{least} AWG is the least"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, f"take {least} AWG, or leave the size open"),
            objects=ends_of(segment),
            line=run_line(design, segment, "size"),
        )


RULE = Rule(
    id="electrical.tap-conductor",
    title="Conductors of the tap",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_conductor"),
    check=check,
)
