"""Trusses are judged by their designer; what can be told without one is listed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.screening.lists import TRUSS_LIST, judge
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule
from planset.rules.screening_facts import screening_facts, words_of

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """List what is met and what is not known of the roof, and ask for the letter."""
    framing = design.inputs.job.framing
    if framing is None or framing.kind != "truss" or not design.mounted:
        return
    lines = judge(TRUSS_LIST, screening_facts(design))
    met, not_met, unknown = (
        words_of(lines, kind) or "nothing" for kind in ("met", "not met", "unknown")
    )
    message = (
        f"The roof is on trusses: met ({met}), not met ({not_met}), to be shown ({unknown}). Add "
        "the letter of the truss designer or an engineer to the set."
    )
    line = design.inputs.line_of("framing", "kind")
    yield RULE.found(Outcome.OPEN, citation, message, line=line)


RULE = Rule(
    id="structure.trusses",
    title="Roof on trusses",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
