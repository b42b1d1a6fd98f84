"""The disconnect carries the continuous output of all sources behind it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Kind
from planset.finding import Finding
from planset.rules.circuits import nec, tags_of
from planset.rules.limits import at_least_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the rating with 125 % of output or import, and with the fuses in it."""
    electrical = design.electrical
    rating = design.inputs.job.electrical.disconnect.rating
    tags = tags_of(design, Kind.DISCONNECT, Kind.FUSED_DISCONNECT)
    fuses = [device.rating_a for device in electrical.devices if device.tag in tags]
    least = max(1.25 * electrical.circuit_a, *fuses, 0.0)
    outcome = at_least_outcome(rating, least)
    fact = (
        f"The sources give or take {electrical.circuit_a:.2f} A, so it carries at least "
        f"{least:.2f} A{', its fuses counted' if fuses else ''}; the job names {rating:g} A"
    )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "choose a disconnect of the next rating that suits"),
        measured=rating,
        limit=least,
        unit="A",
        objects=tags,
        line=design.inputs.line_of("electrical", "disconnect", "rating"),
    )


RULE = Rule(
    id="electrical.disconnect-rating",
    title="Rating of the disconnect",
    subject="electrical",
    held_by="electrical",
    clauses=nec("pv_disconnect_rating"),
    check=check,
)
