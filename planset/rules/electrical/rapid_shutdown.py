"""Array conductors on a building are shut down quickly, and the fire service can start it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.citation import CodeEdition, clauses_of
from planset.codes.nec.rapid_shutdown import RapidShutdown, editions, requirement
from planset.design.electrical.storage import hybrid_id
from planset.design.electrical.system import Shutdown
from planset.finding import Finding, Outcome
from planset.rules.circuits import cite_nec
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look for method and initiator, then at the voltages left inside the array and beyond it."""
    shutdown, required = design.electrical.shutdown, requirement(edition)
    inside, outside = cite_nec("shutdown_inside", edition), cite_nec("shutdown_outside", edition)
    initiation = cite_nec("shutdown_initiation", edition)
    if shutdown.method is None:
        change = _methods(design)
        yield _absent(design, citation, "No rapid shutdown method is stated for the array", change)
    if not shutdown.initiator:
        change = "name in electrical.initiator what the fire service operates"
        yield _absent(design, initiation, "No initiator of rapid shutdown is stated", change)
    if shutdown.method is None or not shutdown.initiator:
        return
    yield from _goes_on(design, initiation)
    means = f"{shutdown.name}, started by the {shutdown.initiator}"
    if shutdown.left_inside_v is None:
        fact = f"{means}, is listed as a whole: {shutdown.listing}"
        yield RULE.found(
            Outcome.PASS,
            inside,
            sentence(Outcome.PASS, fact, ""),
            objects=_objects(shutdown),
            line=design.inputs.line_of("electrical"),
        )
    else:
        yield _left_inside(design, inside, means, required, shutdown.left_inside_v)
    if shutdown.left_outside_v is not None:
        yield _left_outside(design, outside, means, required, shutdown.left_outside_v)
    elif shutdown.method == "module_devices":
        fact = f"What {shutdown.name} leaves on a string beyond the array is not stated"
        change = "ask the maker, and add safe_v to the catalog entry"
        yield RULE.found(
            Outcome.ASK,
            outside,
            sentence(Outcome.ASK, fact, change),
            objects=_objects(shutdown),
            line=design.inputs.line_of("electrical", "shutdown"),
        )


def _methods(design: Design) -> str:
    """Where a method may be stated; a microinverter's or a converter's is in its entry."""
    electrical = design.inputs.job.electrical
    entries = dict.fromkeys(branch.inverter for branch in electrical.branches)
    if electrical.converter is not None:
        entries[electrical.converter] = None
    if entries:
        return (
            f"state in shutdown of the catalog entry {', '.join(entries)} its listing for rapid "
            "shutdown, with the document, or name a listed system in electrical.hazard_control"
        )
    return (
        "name module-level devices in electrical.shutdown, a listed system in "
        "electrical.hazard_control, or converters or microinverters with shutdown in their entries"
    )


def _goes_on(design: Design, citation: str) -> Iterator[Finding]:
    """Judge whether an ac disconnect stops an array whose inverter goes on without the grid.

    To such an inverter the open disconnect is an outage; 690.12(C) asks that the initiator shuts
    down all the same (the safe reading).
    """
    electrical, shutdown = design.inputs.job.electrical, design.electrical.shutdown
    hybrid = hybrid_id(design.inputs)
    if hybrid is None or electrical.initiator == "switch":
        return
    outcome = Outcome.PASS if shutdown.contact else Outcome.FAIL
    if shutdown.contact:
        fact = f"The {shutdown.initiator} stops the array of {hybrid}: {shutdown.contact}"
    else:
        fact = (
            f"The {shutdown.initiator} parts {hybrid} from the grid only, and it goes on without "
            "the grid"
        )
    change = (
        "name in electrical.shutdown_contact what stops its array, as an auxiliary contact to its "
        "transmitter, or write initiator: switch"
    )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        objects=(hybrid,),
        line=design.inputs.line_of("electrical", "initiator"),
    )


def _absent(design: Design, citation: str, fact: str, change: str) -> Finding:
    message = sentence(Outcome.FAIL, fact, change)
    line = design.inputs.line_of("electrical")
    return RULE.found(Outcome.FAIL, citation, message, line=line)


def _left_inside(
    design: Design, citation: str, means: str, required: RapidShutdown, left_v: float
) -> Finding:
    """Judge what stays on inside the array: the modules of one device, at their coldest."""
    outcome = at_most_outcome(left_v, required.inside_limit_v)
    fact = (
        f"{means}, leaves the modules of one device at up to {left_v:.1f} V inside the array, "
        f"where {required.inside_limit_v:g} V after {required.inside_time_s:g} s is allowed; "
        f"{required.label_clause} asks for its label"
    )
    return _left(design, citation, fact, left_v, required.inside_limit_v, outcome)


def _left_outside(
    design: Design, citation: str, means: str, required: RapidShutdown, left_v: float
) -> Finding:
    outcome = at_most_outcome(left_v, required.outside_limit_v)
    fact = (
        f"{means}, leaves up to {left_v:.1f} V beyond the array, where "
        f"{required.outside_limit_v:g} V after {required.outside_time_s:g} s is allowed"
    )
    return _left(design, citation, fact, left_v, required.outside_limit_v, outcome)


def _left(
    design: Design, citation: str, fact: str, left_v: float, limit_v: float, outcome: Outcome
) -> Finding:
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "choose a device with fewer modules, or that leaves less"),
        measured=left_v,
        limit=limit_v,
        unit="V",
        objects=_objects(design.electrical.shutdown),
        line=design.inputs.line_of("electrical"),
    )


def _objects(shutdown: Shutdown) -> tuple[str, ...]:
    return tuple(circuit for circuit, _ in shutdown.per_circuit)


RULE = Rule(
    id="electrical.rapid-shutdown",
    title="Rapid shutdown",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of("NEC", dict.fromkeys(editions(), "690.12")),
    check=check,
    accepts_alternate=False,
    not_in=frozenset({CodeEdition("NEC", 2011)}),  # from memory: the rule came in 2014
)
