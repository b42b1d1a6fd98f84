"""The conductor to the electrode that was found suits the service conductors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.conductors import area_cmil
from planset.codes.nec.grounding_electrode import grounding_electrode_size
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare it with the table; it is there already, so the authority says what must change."""
    service = design.inputs.job.electrical.service
    electrode, supply = service.electrode, service.conductors
    least = grounding_electrode_size(
        supply.size, supply.material, electrode.material, electrode.kind
    )
    large = area_cmil(electrode.size) >= area_cmil(least)
    outcome = Outcome.PASS if large else Outcome.ASK
    fact = (
        f"The conductor to the {electrode.kind.replace('_', ' ')} is {electrode.size} AWG "
        f"{electrode.material}, with {supply.size} {supply.material} service conductors {least} "
        "AWG is the least today"
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
