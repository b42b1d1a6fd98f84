"""The device is near the connection ahead of the service disconnect."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.supply_side import longest_tap_ft
from planset.design.electrical.topology import Kind
from planset.finding import Finding
from planset.rules.circuits import nec, nec_without, tags_of
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the length of the conductors with the edition's limit."""
    joined = design.inputs.job.electrical.interconnection
    if joined.method != "supply_side_tap":
        return
    place = "other" if design.inputs.job.building.use == "other" else "dwelling"
    limit = longest_tap_ft(place, edition)
    assert limit is not None, "the rule stands in the editions that have a limit"
    length = joined.distance / 12
    outcome = at_most_outcome(length, limit)
    fact = f"{length:.1f} ft lie between the connection and its device, where {limit:g} ft may"
    change = "move the disconnect nearer, or fit a listed limiter at the connection"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=length,
        limit=limit,
        unit="ft",
        objects=tags_of(design, Kind.TAP),
        line=design.inputs.line_of("electrical", "interconnection", "distance"),
    )


RULE = Rule(
    id="electrical.tap-distance",
    title="From the tap to its device",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_tap_reach"),
    check=check,
    not_in=nec_without("supply_tap_reach"),
)
