"""Array conductors on a building are shut down quickly, and the fire service can start it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import CodeEdition, clauses_of
from planset.codes.nec.rapid_shutdown import RapidShutdown, requirement
from planset.design.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import cold_voc_per_device, tags_of
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for equipment and initiator, then at the voltage left inside the array."""
    device, initiator = design.inputs.shutdown, design.inputs.job.electrical.initiator
    if device is None:
        change = "name the shutdown equipment in electrical.shutdown"
        yield _absent(design, citation, "No rapid shutdown equipment is stated", change)
    if initiator is None:
        change = "name in electrical.initiator what the fire service operates"
        yield _absent(design, citation, "No initiator of rapid shutdown is stated", change)
    if device is not None and initiator is not None:
        means = f"{device.model}, started by the {initiator.replace('_', ' ')}"
        yield _voltage_left(design, citation, means, requirement(edition))


def _absent(design: Design, citation: str, fact: str, change: str) -> Finding:
    message = sentence(Outcome.FAIL, fact, change)
    line = design.inputs.line_of("electrical")
    return RULE.found(Outcome.FAIL, citation, message, line=line)


def _voltage_left(design: Design, citation: str, means: str, required: RapidShutdown) -> Finding:
    """Judge what stays on inside the array: the modules of one device, at their coldest."""
    left = max(cold_voc_per_device(design).values())
    outcome = at_most_outcome(left, required.inside_limit_v)
    fact = (
        f"{means}, leaves the modules of one device at up to {left:.1f} V inside the array, where "
        f"{required.inside_limit_v:g} V after {required.inside_time_s:g} s is allowed; "
        f"{required.label_clause} asks for its label"
    )
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "choose a device with fewer modules"),
        measured=left,
        limit=required.inside_limit_v,
        unit="V",
        objects=tags_of(design, Kind.SHUTDOWN),
        line=design.inputs.line_of("electrical", "shutdown"),
    )


RULE = Rule(
    id="electrical.rapid-shutdown",
    title="Rapid shutdown",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", {2017: "690.12", 2020: "690.12", 2023: "690.12"}),
    check=check,
    accepts_alternate=False,
    not_in=frozenset({CodeEdition("NEC", 2011)}),  # from memory: the rule came in 2014
)
