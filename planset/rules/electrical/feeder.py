"""A feeder that a source feeds back through carries it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.feeder import feeder_minimum_a
from planset.finding import Finding
from planset.rules.circuits import ends_of, named, nec, run_line, sized
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the ampacity of the feeder with 125 % of the sources on its far end."""
    for segment, run in sized(design):
        if segment.run != "feeder":
            continue
        least = feeder_minimum_a(design.electrical.source_a)
        ampacity = min(run.check.terminal_ampacity_a, run.check.adjusted.ampacity_a)
        outcome = at_least_outcome(ampacity, least)
        fact = (
            f"{named(segment)} carries {ampacity:.2f} A, and 125 % of the sources on it are "
            f"{least:.2f} A"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "take a larger feeder"),
            measured=ampacity,
            limit=least,
            unit="A",
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.feeder",
    title="Feeder with a source at its end",
    subject="electrical",
    held_by="electrical",
    clauses=nec("feeder"),
    check=check,
)
