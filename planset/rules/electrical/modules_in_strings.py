"""Every module of an array that was fitted to the roof is in one string or branch."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the modules that fit with those the strings take, which reading cannot do."""
    strung: Counter[str] = Counter()
    electrical = design.inputs.job.electrical
    taking = [(item.array, item.modules) for item in electrical.strings]
    taking += [(item.array, item.modules) for item in electrical.branches]
    for name, count in taking:
        strung[name] += count
    for array in design.arrays:
        if not array.given.as_many_as_fit:
            continue
        fitted, taken = len(array.modules), strung[array.id]
        outcome = Outcome.PASS if fitted == taken else Outcome.FAIL
        fact = f"{fitted} modules fit in array {array.id}, and its circuits take {taken}"
        change = f"let the circuits of {array.id} take {fitted}, or set most"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=float(fitted),
            limit=float(taken),
            unit="modules",
            objects=(array.id,),
            line=design.inputs.line_of("electrical"),
        )


RULE = Rule(
    id="electrical.modules-in-strings",
    title="Every module in a string",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
