"""Conductors, raceways and grounding are large enough. Not computed yet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.finding import Finding, Outcome
from planset.rules.rule import Rule

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Say which sizes the designer must find by hand, and for what current."""
    string = max(design.circuits.strings, key=lambda string: string.maximum_current_a)
    output = design.circuits.output.rated_a
    message = (
        "Conductor, raceway and grounding sizes are not computed yet; size them by hand for "
        f"{string.maximum_current_a:.2f} A per string and {output:.2f} A inverter output, both "
        "continuous."
    )
    objects = tuple(item.id for item in design.circuits.strings)
    line = design.inputs.line_of("electrical")
    yield RULE.found(Outcome.OPEN, citation, message, objects=objects, line=line)


RULE = Rule(
    id="electrical.conductors",
    title="Conductors, raceways and grounding",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", {2017: "690.8(B)", 2020: "690.8(B)", 2023: "690.8(B)"}),
    check=check,
)
