"""Strings in parallel on one input have the same voltage."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import by_input, module_of
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare count and model of the modules; converters hold the voltage whatever the count."""
    for (inverter_id, number), strings in by_input(design).items():
        if len(strings) == 1 or strings[0].converter:
            continue
        alike = len({(len(string.modules), string.module) for string in strings}) == 1
        outcome = Outcome.PASS if alike else Outcome.FAIL
        listed = ", ".join(
            f"{s.id} of {len(s.modules)} {module_of(design, s.module).model}" for s in strings
        )
        fact = f"Input {number} of {inverter_id} takes strings {listed} in parallel"
        change = "give them equal counts of one module, or an input each"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            objects=tuple(string.id for string in strings),
            line=string_line(design, strings[0].id, "input"),
        )


RULE = Rule(
    id="electrical.parallel-strings",
    title="Strings in parallel are alike",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
