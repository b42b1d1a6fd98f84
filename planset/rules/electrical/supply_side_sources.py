"""The sources ahead of the service disconnect keep the rating of the service."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.ratings import wire_size
from planset.design.electrical.service_limits import supply_side_of
from planset.design.electrical.topology import Kind
from planset.finding import Finding, Outcome
from planset.rules.circuits import nec, tags_of
from planset.rules.limits import at_most_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Add the sources on the service as the edition counts them."""
    tap = supply_side_of(design.inputs, design.electrical, edition)
    if tap is None:
        return
    service = design.inputs.job.electrical.service
    supply = f"{wire_size(service.conductors.size)} {service.conductors.material}"
    objects = tags_of(design, Kind.TAP)
    line = design.inputs.line_of("electrical", "interconnection")
    sources = tap.sources
    if sources is None:
        fact = f"What the service conductors of {supply} carry is not known here"
        message = sentence(Outcome.ASK, fact, "ask the engineer of record for their ampacity")
        yield RULE.found(Outcome.ASK, citation, message, objects=objects, line=line)
        return
    outcome = at_most_outcome(sources.total_a, sources.limit_a)
    if sources.counted == "devices":
        fact = f"The devices of the sources on the service make {sources.total_a:g} A; the service "
        fact += f"is rated {sources.limit_a:g} A"
    else:
        fact = f"The sources on the service give {sources.total_a:.2f} A together; its conductors, "
        fact += f"{supply}, carry {sources.limit_a:g} A"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "connect less, or have the service made larger"),
        measured=sources.total_a,
        limit=sources.limit_a,
        unit="A",
        objects=objects,
        line=line,
    )


RULE = Rule(
    id="electrical.supply-side-sources",
    title="Sources ahead of the main",
    subject="electrical",
    held_by="electrical",
    clauses=nec("supply_sources"),
    check=check,
)
