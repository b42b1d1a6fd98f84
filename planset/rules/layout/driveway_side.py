"""The driveway lies beside the house where the job says it does."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.site_distances import driveway_sides
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the sides that the job names with those along which the driveway is drawn."""
    site = design.site
    if site is None or not site.driveways:
        return
    drawn, named = driveway_sides(site), set(design.inputs.job.site.driveway_sides)
    outcome = Outcome.PASS if drawn == named else Outcome.ASK
    lies = ", ".join(sorted(drawn)) or "no side"
    says = ", ".join(sorted(named)) or "none"
    fact = f"The driveway is drawn along: {lies} of the house; site.driveway_sides names: {says}"
    change = "make both the same, since pathways are judged by the sides that are named"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=tuple(sorted(drawn ^ named)),
        line=design.inputs.line_of("site"),
    )


RULE = Rule(
    id="layout.driveway-side",
    title="Driveway, sides of the house named",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
