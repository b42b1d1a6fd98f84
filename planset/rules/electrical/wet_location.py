"""Insulation of conductors outdoors is for wet places."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.conductors import insulation_rating_c
from planset.finding import Finding, Outcome
from planset.rules.circuits import ends_of, named, nec, run_line, run_of
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


_OUTDOORS = ("roof", "wall", "underground", "array")


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Look at every run that passes a place outdoors; a raceway there counts as wet (300.9)."""
    for segment in design.electrical.topology.segments:
        if segment.run is None:
            continue
        run = run_of(design, segment)
        places = [item.place for item in run.places]
        if not any(place in _OUTDOORS for place in places):
            continue
        outcome = Outcome.PASS if _wet(run.insulation) else Outcome.FAIL
        fact = f"{named(segment)} lies outdoors in {run.insulation}"
        change = "take an insulation for wet places, as THWN-2 or XHHW-2"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            objects=ends_of(segment),
            line=run_line(design, segment, "insulation"),
        )


def _wet(insulation: str) -> bool:
    try:
        insulation_rating_c(insulation, wet=True)
    except ValueError:
        return False
    return True


RULE = Rule(
    id="electrical.wet-location",
    title="Insulation in the wet",
    subject="electrical",
    held_by="electrical",
    clauses=nec("wet_location"),
    check=check,
)
