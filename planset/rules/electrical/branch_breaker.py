"""The breaker of a branch is the one the listing of its microinverters names."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding
from planset.rules.circuits import branch_line
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare it with the largest that the listing allows."""
    for branch in design.electrical.branches:
        unit = design.inputs.microinverters[branch.inverter]
        outcome = at_most_outcome(branch.breaker_a, unit.branch_device_a)
        fact = (
            f"Branch {branch.id} stands behind {branch.breaker_a:g} A; the listing of {unit.model} "
            f"allows {unit.branch_device_a:g} A"
        )
        yield RULE.found(
            outcome,
            unit.document,
            sentence(outcome, fact, "take the breaker of the listing, and fewer units if need be"),
            measured=branch.breaker_a,
            limit=unit.branch_device_a,
            unit="A",
            objects=(branch.id,),
            line=branch_line(design, branch.id),
        )


RULE = Rule(
    id="electrical.branch-breaker",
    title="Breaker of a branch",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
