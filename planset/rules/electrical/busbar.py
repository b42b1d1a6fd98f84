"""Every bus that sources feed carries its main and its sources together."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.system import BusLoad
from planset.design.layout import existing_arrays
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec
from planset.rules.limits import NOISE, at_most_outcome
from planset.rules.rule import Rule, cite, sentence

if TYPE_CHECKING:
    from planset.design.design import Design

_PROTECTED_BUS = "408.36"  # in every edition; from memory


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Hold each bus against the way of the article that the set relies on.

    The main must also protect the bus at all: a small source does not mend one that is larger.
    """
    for bus in design.electrical.buses:
        if bus.main_a > bus.rating_a + NOISE:
            yield _main_too_large(design, bus, cite("NEC", edition, _PROTECTED_BUS))
        yield _sum(design, bus, cite("NEC", edition, bus.chosen.clause))


def _sum(design: Design, bus: BusLoad, citation: str) -> Finding:
    chosen = bus.chosen
    outcome = at_most_outcome(chosen.demand_a, chosen.limit_a)
    fact = (
        f"{_counted(bus)} make {chosen.demand_a:.2f} A on the {bus.rating_a:g} A bus of {bus.tag}, "
        f"where {chosen.limit_a:g} A is allowed"
    )
    change = "choose a smaller main after a load calculation, or a larger bus"
    if bus.feed == "end" and not bus.opposite_end:
        change = f"move the breaker to the end opposite the main, {change}"
    existing = ", ".join(item.id for item in existing_arrays(design.obstructions))
    told = design.inputs.job.electrical.service.existing_sources
    if bus.tag == "MSP" and existing and not told and outcome is Outcome.PASS:
        outcome = Outcome.OPEN
        change = f"state in service.existing_sources what existing array {existing} feeds this bus"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=chosen.demand_a,
        limit=chosen.limit_a,
        unit="A",
        objects=(f"{bus.tag}-BUS",),
        line=_line(design, bus),
    )


def _counted(bus: BusLoad) -> str:
    """What the chosen way adds up, in words."""
    if bus.chosen.topic == "busbar_sum_of_breakers":
        return "All breakers but the main"
    place = "at the end opposite the main" if bus.opposite_end else "not opposite the main"
    return f"Main and 125 % of the sources' output, connected {place},"


def _main_too_large(design: Design, bus: BusLoad, citation: str) -> Finding:
    fact = f"The main of {bus.main_a:g} A does not protect the {bus.rating_a:g} A bus of {bus.tag}"
    change = "read the panel label again, or have the main changed to the bus rating or less"
    return RULE.found(
        Outcome.FAIL,
        citation,
        sentence(Outcome.FAIL, fact, change),
        measured=bus.main_a,
        limit=bus.rating_a,
        unit="A",
        objects=(f"{bus.tag}-MAIN",),
        line=_line(design, bus),
    )


def _line(design: Design, bus: BusLoad) -> int:
    """The line that states a bus: of the combiner, the subpanel, or the interconnection."""
    combiner = design.inputs.job.electrical.combiner
    if combiner is not None and combiner.id == bus.tag:
        return design.inputs.line_of("electrical", "combiner")
    return design.inputs.line_of("electrical", "interconnection")


RULE = Rule(
    id="electrical.busbar",
    title="Load on the busbars",
    subject="electrical",
    held_by="electrical",
    clauses=nec("busbar_opposite_ends"),
    check=check,
)
