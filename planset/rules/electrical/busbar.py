"""The service bus carries main and inverter together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planset.citation import clauses_of
from planset.design.layout import existing_arrays
from planset.design.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import tags_of
from planset.rules.limits import NOISE, at_most_outcome
from planset.rules.rule import Rule, cite, sentence

if TYPE_CHECKING:
    from planset.design.design import Design

_ANY_POSITION: Mapping[int, str] = {
    2017: "705.12(B)(2)(3)(a)",
    2020: "705.12(B)(3)(1)",
    2023: "705.12(B)(1)",
}
"""Clause of the sum that holds wherever the breaker stands: 100 % of the bus."""

_PROTECTED_BUS = "408.36"  # in every edition; from memory


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare main plus 125 % of the output with 120 % of the bus, 100 % if not at its far end.

    The main must also protect the bus at all: a small inverter does not mend one that is larger.
    """
    bus = design.circuits.bus
    if bus.main_a > bus.bus_a + NOISE:
        yield _main_too_large(design, cite("NEC", edition, _PROTECTED_BUS))
    limit = bus.limit_a if bus.opposite_end else bus.bus_a
    clause = citation if bus.opposite_end else cite("NEC", edition, _ANY_POSITION[edition])
    outcome = at_most_outcome(bus.demand_a, limit)
    place = "at the end opposite the main" if bus.opposite_end else "not opposite the main"
    fact = (
        f"Main and 125 % of the inverter's output make {bus.demand_a:.2f} A on the {bus.bus_a:g} A "
        f"bus with the breaker {place}, where {limit:g} A is allowed "
        f"({bus.demand_by_breaker_a:g} A when counted by breaker rating)"
    )
    change = "choose a smaller main after a load calculation, or a larger bus"
    if not bus.opposite_end:
        change = f"move the breaker to the end opposite the main, {change}"
    existing = ", ".join(item.id for item in existing_arrays(design.obstructions))
    if existing and outcome is Outcome.PASS:
        outcome = Outcome.OPEN
        change = f"add by hand what existing array {existing} feeds this bus: the job does not say"
    yield RULE.found(
        outcome,
        clause,
        sentence(outcome, fact, change),
        measured=bus.demand_a,
        limit=limit,
        unit="A",
        objects=tags_of(design, Kind.MAIN),
        line=design.inputs.line_of("electrical", "interconnection"),
    )


def _main_too_large(design: Design, citation: str) -> Finding:
    bus = design.circuits.bus
    fact = f"The main of {bus.main_a:g} A does not protect the {bus.bus_a:g} A bus"
    change = "read the panel label again, or have the main changed to the bus rating or less"
    return RULE.found(
        Outcome.FAIL,
        citation,
        sentence(Outcome.FAIL, fact, change),
        measured=bus.main_a,
        limit=bus.bus_a,
        unit="A",
        objects=tags_of(design, Kind.MAIN),
        line=design.inputs.line_of("electrical", "service", "main"),
    )


RULE = Rule(
    id="electrical.busbar",
    title="Load on the busbar",
    subject="electrical",
    held_by="electrical",
    clauses=clauses_of(
        "NEC", {2017: "705.12(B)(2)(3)(b)", 2020: "705.12(B)(3)(2)", 2023: "705.12(B)(2)"}
    ),
    check=check,
)
