"""The published list by which a small array may go without an engineer's calculation."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.screening.lists import judge, overall
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule
from planset.rules.screening_facts import screening_facts, words_of

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Judge the list that the jurisdiction goes by, line by line."""
    stated = design.inputs.jurisdiction.review.screening
    if stated is None or not design.mounted:
        return
    lines = judge(stated.value, screening_facts(design))
    words = {kind: words_of(lines, kind) for kind in ("met", "not met", "unknown")}
    outcome = Outcome.PASS if overall(lines) == "met" else Outcome.ASK
    message = f"Of the list in {stated.source}: met ({words['met']})"
    if words["not met"]:
        message += f"; not met ({words['not met']})"
    if words["unknown"]:
        message += f"; to be shown ({words['unknown']})"
    message += "."
    if outcome is Outcome.ASK:
        message += " Show what is missing, or have the set sealed by an engineer."
    line = design.inputs.line_of("arrays")
    yield RULE.found(outcome, f"{stated.source}, {stated.date}", message, line=line)


RULE = Rule(
    id="structure.screening",
    title="List for review without engineering",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
