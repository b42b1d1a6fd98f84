"""The wind method for panels parallel to the roof holds, limit by limit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import CodeEdition, clauses_of
from planset.finding import Finding, Outcome
from planset.rules.lines import array_line
from planset.rules.ratios import not_computed
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Name the limits an array does not keep; its loads then go without the equalization."""
    if missing := not_computed(RULE, design, citation):
        yield missing
        return
    for method in (loads.method for loads in design.loads.arrays):
        if method.holds:
            outcome = Outcome.PASS
            message = f"Array {method.array} keeps every limit of the method."
        else:
            outcome = Outcome.ASK
            message = (
                f"Array {method.array} does not keep these limits of the method: "
                f"{', '.join(method.unmet)}. Pressure equalization is dropped (factor 1.0); "
                "ask the plan reviewer or the engineer to accept that, or change the array."
            )
        yield RULE.found(
            outcome,
            citation,
            message,
            objects=(method.array,),
            line=array_line(design, method.array, "mounting", "system"),
        )


RULE = Rule(
    id="structure.wind-method",
    title="Limits of the method for parallel panels",
    subject="structure",
    held_by="loads",
    clauses=clauses_of("ASCE 7", {2016: "29.4.4", 2022: "29.4.4"}),
    check=check,
    not_in=frozenset({CodeEdition("ASCE 7", 2010)}),  # from memory: the method came with ASCE 7-16
    of_mounting=True,
)
