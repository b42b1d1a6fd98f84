"""The disconnect is of the kind the utility asks for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import tags_of
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare its markings with the utility's rules; the code asks for no more than its own."""
    electrical = design.inputs.job.electrical
    rules, given = electrical.utility_rules, electrical.disconnect
    asked = {
        "lockable": (rules.lockable, given.lockable),
        "visibly open": (rules.visible_open, given.visible_open),
    }
    if rules.disconnect == "not_required":
        return
    for words, (needed, there) in asked.items():
        if not needed:
            continue
        outcome = Outcome.PASS if there else Outcome.FAIL
        fact = f"The utility asks for a disconnect that is {words}; this one is"
        yield RULE.found(
            outcome,
            rules.source,
            sentence(outcome, fact if there else f"{fact} not", f"choose one that is {words}"),
            objects=tags_of(design, Kind.DISCONNECT, Kind.FUSED_DISCONNECT),
            line=design.inputs.line_of("electrical", "disconnect"),
        )


RULE = Rule(
    id="electrical.utility-disconnect",
    title="Disconnect by the utility's rules",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
