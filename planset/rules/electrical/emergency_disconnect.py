"""A dwelling whose service is altered gets an emergency disconnect outdoors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import nec, nec_without
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Ask where the work touches the service: how much of it calls for one is for the authority."""
    electrical = design.inputs.job.electrical
    if design.inputs.job.building.use == "other":
        return
    tapped = electrical.interconnection.method == "supply_side_tap"
    outcome, fact = Outcome.PASS, "The service equipment stays as it is"
    if tapped or electrical.main_derate is not None:
        outcome = Outcome.ASK
        what = "a connection ahead of its main" if tapped else "a new main"
        fact = (
            f"The service is altered by {what}: some read that as service equipment "
            "replaced, which calls for an emergency disconnect outdoors, others as work on "
            "equipment that stays"
        )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "ask which of the two holds here"),
        objects=("UTIL",),
        line=design.inputs.line_of("electrical", "service"),
    )


RULE = Rule(
    id="electrical.emergency-disconnect",
    title="Emergency disconnect outdoors",
    subject="electrical",
    held_by="electrical",
    clauses=nec("emergency_disconnect"),
    check=check,
    not_in=nec_without("emergency_disconnect"),
)
