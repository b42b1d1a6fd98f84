"""The disconnect stands as near to the meter as the utility asks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Kind
from planset.design.electrical.wall import apart_on_wall_in
from planset.finding import Finding, Outcome
from planset.rules.circuits import tags_of
from planset.rules.limits import clearance_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure between their middles on the wall that holds both; ask when no wall does."""
    electrical = design.inputs.job.electrical
    within = electrical.utility_rules.within
    if within is None or electrical.utility_rules.disconnect == "not_required":
        return
    disconnects = tags_of(design, Kind.DISCONNECT, Kind.FUSED_DISCONNECT)
    meters = tags_of(design, Kind.UTILITY_METER)
    measured = [
        apart
        for wall in electrical.walls
        for one in disconnects
        for other in meters
        if (apart := apart_on_wall_in(wall, one, other)) is not None
    ]
    line = design.inputs.line_of("electrical", "utility_rules", "within")
    source, objects = electrical.utility_rules.source, (*disconnects, *meters)
    if not measured:
        message = (
            f"The utility asks for the disconnect within {within:g} in of the meter, and no wall "
            "shows both; put both on one wall, or ask whether their places are taken."
        )
        yield RULE.found(Outcome.ASK, source, message, objects=objects, line=line)
        return
    apart = max(measured)
    outcome = clearance_outcome(within, apart)
    fact = (
        f"Disconnect and meter stand {apart:.1f} in apart, from middle to middle; the utility asks "
        f"for {within:g} in at most"
    )
    yield RULE.found(
        outcome,
        source,
        sentence(outcome, fact, "move the disconnect nearer"),
        measured=apart,
        limit=within,
        unit="in",
        objects=objects,
        line=line,
    )


RULE = Rule(
    id="electrical.disconnect-near-meter",
    title="Disconnect near the meter",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
