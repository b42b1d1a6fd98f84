"""The inverter's breaker carries its continuous output."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.design.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import tags_of
from planset.rules.limits import NOISE, at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the breaker with 125 % of the output, and with the next standard rating."""
    output = design.circuits.output
    outcome = at_least_outcome(output.breaker_a, output.minimum_breaker_a)
    fact = (
        f"The inverter gives {output.rated_a:.2f} A, so its breaker carries at least "
        f"{output.minimum_breaker_a:.2f} A; the job names {output.breaker_a:g} A"
    )
    standard_a = output.standard_breaker_a
    if standard_a is None:
        outcome, change = Outcome.FAIL, "split the output, since no standard rating is so large"
    else:
        change = f"take the next standard rating, {standard_a:g} A"
        if outcome is Outcome.PASS and output.breaker_a > standard_a + NOISE:
            outcome = Outcome.ASK
            change += ", or ask the inverter's maker and the inspector to accept the larger breaker"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=output.breaker_a,
        limit=output.minimum_breaker_a,
        unit="A",
        objects=tags_of(design, Kind.BREAKER),
        line=design.inputs.line_of("electrical", "interconnection", "breaker"),
    )


RULE = Rule(
    id="electrical.inverter-breaker",
    title="Inverter breaker",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", {2017: "690.9(B)", 2020: "690.9(B)", 2023: "705.30(B)"}),
    check=check,
)
