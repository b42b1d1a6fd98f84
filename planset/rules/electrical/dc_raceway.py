"""Direct current inside a building runs in metal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.wiring import needs_metal_raceway
from planset.finding import Finding, Outcome
from planset.rules.circuits import ends_of, named, nec, run_line, run_of, sized
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


_INSIDE = ("attic", "indoors")
_METAL = ("emt", "rmc", "fmc")


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at the dc runs through attic and rooms."""
    for segment, run in sized(design):
        if segment.ac or segment.run not in ("array", "dc"):
            continue
        places = [item.place for item in run_of(design, segment).places]
        inside = any(place in _INSIDE for place in places)
        if not inside or not needs_metal_raceway(segment.voltage_v, run.check.demand_a):
            continue
        outcome = Outcome.PASS if run.raceway in _METAL else Outcome.FAIL
        fact = (
            f"{named(segment)} runs inside the building at {segment.voltage_v:.0f} V in "
            f"{run.raceway.upper() or 'no raceway'}"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "run it in EMT or another metal raceway, or outside"),
            objects=ends_of(segment),
            line=run_line(design, segment, "raceway"),
        )


RULE = Rule(
    id="electrical.dc-raceway",
    title="Direct current inside the building",
    subject="electrical",
    held_by="electrical",
    clauses=nec("dc_in_building"),
    check=check,
)
