"""Conductors are rated for the voltage of their circuit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.finding import Finding, Outcome
from planset.rules.circuits import cite_nec, ends_of, named, nec, run_line, run_of, sized
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


BUILDING_WIRE_V = 600.0
"""Rating of building wire that carries alternating current here: common practice, no source [V]."""


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the maximum voltage with the rating, which dc runs must state."""
    for segment, _ in sized(design):
        run = run_of(design, segment)
        rating = run.voltage_rating
        array = segment.run in ("array", "dc")
        cited = citation if array else cite_nec("equipment_voltage", edition)
        if rating is None and not segment.ac:
            fact = f"{named(segment)} reaches {segment.voltage_v:.1f} V, and the rating of its "
            fact += "conductors is not stated"
            change = f"add voltage_rating to electrical.wiring.{segment.run}, as marked on them"
            yield RULE.found(
                Outcome.FAIL,
                cited,
                sentence(Outcome.FAIL, fact, change),
                objects=ends_of(segment),
                line=run_line(design, segment),
            )
            continue
        limit = rating or BUILDING_WIRE_V
        outcome = at_most_outcome(segment.voltage_v, limit)
        fact = f"{named(segment)} reaches {segment.voltage_v:.1f} V; its {run.insulation} is rated "
        fact += f"{limit:g} V{'' if rating else ' as building wire is'}"
        yield RULE.found(
            outcome,
            cited,
            sentence(outcome, fact, "take conductors marked for the voltage"),
            measured=segment.voltage_v,
            limit=limit,
            unit="V",
            objects=ends_of(segment),
            line=run_line(design, segment),
        )


RULE = Rule(
    id="electrical.conductor-voltage",
    title="Voltage rating of the conductors",
    subject="electrical",
    held_by="electrical",
    clauses=nec("voltage_limit"),
    check=check,
)
