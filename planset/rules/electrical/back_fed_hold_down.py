"""A back-fed breaker that cannot die with the grid is held down."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.storage import hybrid_id
from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec, tags_of
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Ask where the source can stand alone; breakers of listed interactive inverters need none."""
    if design.inputs.job.electrical.interconnection.method == "supply_side_tap":
        return
    hybrid = hybrid_id(design.inputs) is not None
    outcome = Outcome.ASK if hybrid else Outcome.PASS
    fact = (
        "The back-fed breaker is that of an inverter that can stand alone: some hold such a one "
        "down, others take its listing as an interactive inverter as enough"
        if hybrid
        else "The back-fed breaker is that of listed interactive inverters, which need no hold-down"
    )
    change = "ask which of the two holds here, and order a hold-down kit where it is wanted"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=tags_of(design, Kind.BREAKER),
        line=design.inputs.line_of("electrical", "interconnection"),
    )


RULE = Rule(
    id="electrical.back-fed-hold-down",
    title="Back-fed breakers",
    subject="electrical",
    held_by="electrical",
    clauses=nec("back_fed_hold_down"),
    check=check,
)
