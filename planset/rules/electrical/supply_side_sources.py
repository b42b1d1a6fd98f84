"""The sources ahead of the service disconnect keep the rating of the service."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Kind
from planset.finding import Finding
from planset.rules.circuits import nec, tags_of
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Add the devices of all sources on the service; its main stands for its rating."""
    electrical = design.inputs.job.electrical
    if electrical.interconnection.method != "supply_side_tap":
        return
    tags = tags_of(design, Kind.FUSED_DISCONNECT)
    devices = [device.rating_a for device in design.electrical.devices if device.tag in tags]
    total = sum(devices) + sum(item.breaker for item in electrical.service.existing_sources)
    outcome = at_most_outcome(total, electrical.service.main)
    fact = (
        f"The devices of the sources on the service make {total:g} A; the service is rated "
        f"{electrical.service.main:g} A"
    )
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "connect less, or have the service made larger"),
        measured=total,
        limit=electrical.service.main,
        unit="A",
        objects=tags_of(design, Kind.TAP),
        line=design.inputs.line_of("electrical", "interconnection"),
    )


RULE = Rule(
    id="electrical.supply-side-sources",
    title="Sources ahead of the main",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_sources"),
    check=check,
)
