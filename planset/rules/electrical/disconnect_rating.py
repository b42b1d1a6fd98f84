"""The disconnect carries the inverter's continuous output."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.design.topology import Kind
from planset.finding import Finding
from planset.rules.circuits import tags_of
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the rating with 125 % of the output, as for any continuous load."""
    output = design.circuits.output
    rating = design.inputs.job.electrical.disconnect.rating
    outcome = at_least_outcome(rating, output.minimum_breaker_a)
    fact = (
        f"The inverter gives {output.rated_a:.2f} A, so the disconnect carries at least "
        f"{output.minimum_breaker_a:.2f} A; the job names {rating:g} A"
    )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "choose a disconnect of the next rating that suits"),
        measured=rating,
        limit=output.minimum_breaker_a,
        unit="A",
        objects=tags_of(design, Kind.DISCONNECT),
        line=design.inputs.line_of("electrical", "disconnect", "rating"),
    )


RULE = Rule(
    id="electrical.disconnect-rating",
    title="Rating of the disconnect",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", {2017: "690.13", 2020: "690.13", 2023: "690.13"}),
    check=check,
)
