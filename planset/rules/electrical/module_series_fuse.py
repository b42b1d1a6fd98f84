"""Strings in parallel cannot overload a module that fails."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.finding import Finding
from planset.rules.circuits import by_input, ratings_of
from planset.rules.limits import at_most_outcome
from planset.rules.lines import string_line
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Add the currents the other strings of an input can push into one."""
    for number, strings in by_input(design).items():
        for string in strings:
            others = sum((s.maximum_current_a for s in strings if s is not string), 0.0)
            fuse = ratings_of(design, string).series_fuse_a
            outcome = at_most_outcome(others, fuse)
            fact = (
                f"The other strings of input {number} can push {others:.2f} A into string "
                f"{string.id}, whose modules take {fuse:g} A without a fuse"
            )
            change = "give each string an input of its own, or have string fuses designed"
            yield RULE.found(
                outcome,
                citation,
                sentence(outcome, fact, change),
                measured=others,
                limit=fuse,
                unit="A",
                objects=(string.id,),
                line=string_line(design, string.id, "input"),
            )


RULE = Rule(
    id="electrical.module-series-fuse",
    title="Reverse current without string fuses",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", {2017: "690.9(A)", 2020: "690.9(A)", 2023: "690.9(A)"}),
    check=check,
)
