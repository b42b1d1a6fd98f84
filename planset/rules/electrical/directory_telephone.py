"""The directory of power sources tells whom to call."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import CodeEdition
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for the emergency telephone of the utility, which its label leaves blank without."""
    telephone = design.inputs.job.utility_emergency_telephone
    labels = [p for p in design.electrical.labels if "telephone" in p.label.content]
    for placed in labels:
        outcome = Outcome.PASS if telephone else Outcome.ASK
        fact = (
            f"Label {placed.key} gives {telephone} for {design.inputs.job.utility}"
            if telephone
            else f"Label {placed.key} leaves the emergency telephone blank"
        )
        change = (
            "ask the utility, and the fire department whose number it wants there, and write "
            "utility_emergency_telephone"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            objects=(placed.key,),
            line=design.inputs.line_of("utility"),
        )


RULE = Rule(
    id="electrical.directory-telephone",
    title="Emergency telephone on the directory",
    subject="electrical",
    held_by="electrical",
    clauses={CodeEdition("NEC", 2023): "705.10"},
    check=check,
    not_in=frozenset({CodeEdition("NEC", 2017), CodeEdition("NEC", 2020)}),
)
