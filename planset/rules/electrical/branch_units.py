"""A branch has no more microinverters than its device and its listing take."""

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
    """Compare their number with the lesser of both limits."""
    for branch in design.electrical.branches:
        unit = design.inputs.microinverters[branch.inverter]
        outcome = at_most_outcome(branch.units, branch.most_units)
        fact = (
            f"Branch {branch.id} has {branch.units} units {unit.model} behind "
            f"{branch.breaker_a:g} A, where {branch.most_units} may be"
        )
        yield RULE.found(
            outcome,
            unit.document,
            sentence(outcome, fact, "move modules to another branch"),
            measured=float(branch.units),
            limit=float(branch.most_units),
            unit="units",
            objects=(branch.id,),
            line=branch_line(design, branch.id, "modules"),
        )


RULE = Rule(
    id="electrical.branch-units",
    title="Microinverters on a branch",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
