"""The disconnect of a connection ahead of the main is large enough for a service."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.supply_side import disconnect_minimum_a
from planset.design.electrical.topology import Kind
from planset.finding import Finding
from planset.rules.circuits import nec, tags_of
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare its rating with the least of a service disconnect, and with its fuses."""
    if design.inputs.job.electrical.interconnection.method != "supply_side_tap":
        return
    tags = tags_of(design, Kind.FUSED_DISCONNECT)
    fuses = [device.rating_a for device in design.electrical.devices if device.tag in tags]
    least = disconnect_minimum_a(max(fuses))
    rating = design.inputs.job.electrical.disconnect.rating
    outcome = at_least_outcome(rating, least)
    fact = f"The disconnect ahead of the main is rated {rating:g} A, where {least:g} A is the least"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, f"choose one of {least:g} A, suitable as service equipment"),
        measured=rating,
        limit=least,
        unit="A",
        objects=tags,
        line=design.inputs.line_of("electrical", "disconnect", "rating"),
    )


RULE = Rule(
    id="electrical.tap-disconnect",
    title="Disconnect of the tap",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_disconnect_rating"),
    check=check,
)
