"""The device on the output of an inverter is no larger than its maker allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.device_limits import device_limits
from planset.finding import Finding
from planset.rules.circuits import device_line, nec
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare each device with the largest that the inverter's document names."""
    for one in device_limits(design):
        rating_a = one.device.rating_a
        outcome = at_most_outcome(rating_a, one.limit_a)
        fact = (
            f"{one.device.tag} of {rating_a:g} A is on the output of {one.inverter}; "
            f"{one.document} allows {one.model} {one.limit_a:g} A at most"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, f"take a device of {one.limit_a:g} A or less"),
            measured=rating_a,
            limit=one.limit_a,
            unit="A",
            objects=(one.device.tag,),
            line=device_line(design, one.device.tag),
        )


RULE = Rule(
    id="electrical.output-device",
    title="Largest device of an inverter",
    subject="electrical",
    held_by="electrical",
    clauses=nec("instructions"),
    check=check,
    accepts_alternate=False,
)
