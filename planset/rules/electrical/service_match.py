"""Inverters are made for the voltage of the service."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import branch_line, inverter_line, inverter_of
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the nominal voltages, which must be one and the same."""
    service = design.inputs.job.electrical.service
    for placed in design.inputs.job.electrical.inverters:
        inverter = inverter_of(design, placed.id)
        line = inverter_line(design, placed.id, "model")
        yield _found(
            placed.id,
            inverter.model,
            inverter.document,
            inverter.ac_voltage_v,
            service.voltage,
            line,
        )
    for branch in design.inputs.job.electrical.branches:
        unit = design.inputs.microinverters[branch.inverter]
        line = branch_line(design, branch.id, "inverter")
        yield _found(branch.id, unit.model, unit.document, unit.ac_voltage_v, service.voltage, line)


def _found(
    tag: str, model: str, document: str, made_for_v: float, service_v: float, line: int
) -> Finding:
    outcome = Outcome.PASS if made_for_v == service_v else Outcome.FAIL
    fact = f"{tag}, {model}, is made for {made_for_v:g} V, and the service has {service_v:g} V"
    return RULE.found(
        outcome,
        document,
        sentence(outcome, fact, "choose an inverter for the service's voltage"),
        measured=made_for_v,
        limit=service_v,
        unit="V",
        objects=(tag,),
        line=line,
    )


RULE = Rule(
    id="electrical.service-match",
    title="Inverters and service",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
