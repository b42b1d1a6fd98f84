"""The conductors to the electrodes that were found suit the service conductors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.conductors import area_cmil
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.service_limits import electrodes_of
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare them with the table; they are there, so the authority says what must change."""
    for electrode in electrodes_of(design.inputs):
        large = area_cmil(electrode.size) >= area_cmil(electrode.least)
        outcome = Outcome.PASS if large else Outcome.ASK
        fact = (
            f"The conductor to the {electrode.kind} is {wire_size(electrode.size)} "
            f"{electrode.material}; {wire_size(electrode.least)} is the least today "
            f"({electrode.reason})"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "ask whether the existing one may stay, or have it replaced"),
            objects=("UTIL",),
            line=design.inputs.line_of("electrical", "service", "electrode"),
        )


RULE = Rule(
    id="electrical.grounding-electrode",
    title="Conductor to the grounding electrode",
    subject="electrical",
    held_by="electrical",
    clauses=nec("grounding_electrode"),
    check=check,
)
