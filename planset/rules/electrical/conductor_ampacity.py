"""Conductors carry the current after the factors for heat, company and roof."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import cite_conductors, ends_of, named, nec, run_line, sized
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the ampacity after all factors with the maximum current; tell what has no size."""
    for segment, run in sized(design):
        test = run.check
        outcome = at_least_outcome(test.adjusted.ampacity_a, test.demand_a)
        fact = (
            f"{named(segment)} carries {test.demand_a:.2f} A; {run.size} AWG {run.insulation} has "
            f"{test.adjusted.ampacity_a:.2f} A at {test.adjusted.temperature_c:.0f} C "
            f"({run.place}), {test.adjusted.base_a:g} A by factors "
            f"{test.adjusted.ambient_factor:.2f} and {test.adjusted.bundling_factor:.2f}"
        )
        yield RULE.found(
            outcome,
            cite_conductors(segment, edition),
            sentence(outcome, fact, "take a larger size, a cooler way or fewer in one raceway"),
            measured=test.adjusted.ampacity_a,
            limit=test.demand_a,
            unit="A",
            objects=ends_of(segment),
            line=run_line(design, segment),
        )
    yield from _not_sized(design, edition)


def _not_sized(design: Design, edition: int) -> Iterator[Finding]:
    by_tag = {segment.tag: segment for segment in design.electrical.topology.segments}
    for tag, reason in design.electrical.not_sized:
        segment = by_tag[tag]
        message = f"{named(segment)} has no conductors that serve: {reason}."
        yield RULE.found(
            Outcome.FAIL,
            cite_conductors(segment, edition),
            message,
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.conductor-ampacity",
    title="Conductors where they lie",
    subject="electrical",
    held_by="electrical",
    clauses=nec("dc_conductor"),
    check=check,
)
