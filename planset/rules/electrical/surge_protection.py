"""A dwelling whose service equipment is replaced gets a surge protector."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec, nec_without
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Ask where the work touches the service: whether that is a replacement is read two ways."""
    electrical = design.inputs.job.electrical
    if design.inputs.job.building.use == "other":
        return
    tapped = electrical.interconnection.method == "supply_side_tap"
    outcome, fact = Outcome.PASS, "The service equipment stays as it is"
    if tapped or electrical.main_derate is not None:
        outcome = Outcome.ASK
        part = "a disconnect ahead of its main" if tapped else "a new main breaker"
        fact = (
            f"The service gets {part}: some read that as new service equipment, which needs a "
            "surge protector, others as work on equipment that stays"
        )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "ask which of the two holds here"),
        objects=("UTIL",),
        line=design.inputs.line_of("electrical", "service"),
    )


RULE = Rule(
    id="electrical.surge-protection",
    title="Surge protection of the service",
    subject="electrical",
    held_by="electrical",
    clauses=nec("surge_protection"),
    check=check,
    not_in=nec_without("surge_protection"),
)
