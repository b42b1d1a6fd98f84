"""The disconnect of a connection ahead of the main is made, and large enough, for a service."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.supply_side import disconnect_minimum_a
from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import cite_nec, nec, tags_of
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare its rating with the least and with its fuses, and look for its mark."""
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
    suitable = design.inputs.job.electrical.disconnect.service_rated
    outcome = Outcome.PASS if suitable else Outcome.FAIL
    fact = f"The disconnect ahead of the main is {'' if suitable else 'not '}marked "
    fact += "suitable for use as service equipment"
    yield RULE.found(
        outcome,
        cite_nec("service_equipment", edition),
        sentence(outcome, fact, "choose one that is, and write service_rated: true"),
        objects=tags,
        line=design.inputs.line_of("electrical", "disconnect"),
    )


RULE = Rule(
    id="electrical.tap-disconnect",
    title="Disconnect of the tap",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_disconnect_rating"),
    check=check,
)
