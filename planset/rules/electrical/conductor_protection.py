"""The overcurrent device protects the conductors behind it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import cite_protection, ends_of, named, nec, run_line, sized
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the device with the largest that the conductors may stand behind."""
    for segment, run in sized(design):
        test = run.check
        if test.device_a is None:
            continue
        outcome = at_most_outcome(test.device_a, test.largest_device_a)
        fact = (
            f"{named(segment)} stands behind {test.device_a:g} A; {run.size} AWG {run.material} "
            f"may stand behind {test.largest_device_a:g} A"
        )
        yield RULE.found(
            outcome,
            cite_protection(segment, edition),
            sentence(outcome, fact, "take a larger conductor, or a smaller device if it serves"),
            measured=test.device_a,
            limit=test.largest_device_a,
            unit="A",
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.conductor-protection",
    title="Conductors behind their devices",
    subject="electrical",
    held_by="electrical",
    clauses=nec("conductor_protection"),
    check=check,
)
