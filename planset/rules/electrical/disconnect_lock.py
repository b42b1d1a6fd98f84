"""The disconnect can be locked open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec, tags_of
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the marking of the disconnect."""
    outcome = Outcome.PASS if design.inputs.job.electrical.disconnect.lockable else Outcome.FAIL
    words = "can" if outcome is Outcome.PASS else "cannot"
    yield RULE.found(
        outcome,
        citation,
        sentence(
            outcome, f"The disconnect {words} be locked open", "choose one with a lock provision"
        ),
        objects=tags_of(design, Kind.DISCONNECT, Kind.FUSED_DISCONNECT),
        line=design.inputs.line_of("electrical", "disconnect", "lockable"),
    )


RULE = Rule(
    id="electrical.disconnect-lock",
    title="Lockable disconnect",
    subject="electrical",
    held_by="electrical",
    clauses=nec("pv_disconnect_lock"),
    check=check,
)
