"""A lag screw keeps its distance from the side of the rafter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.codes.nds.clauses import nds_clauses
from planset.finding import Finding
from planset.rules.ratios import use_outcome, use_ratio
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare half the rafter's thickness with the edge distance; the rest is room to drift."""
    for fastening in design.fastenings:
        half_in = fastening.edge_distance_in + fastening.side_room_in
        outcome = use_outcome(use_ratio(fastening.edge_distance_in, half_in))
        room = format_feet_inches(max(fastening.side_room_in, 0.0), rounding="down")
        fact = (
            f"Lag screws of array {fastening.array} stand {half_in:.3g} in from the rafter's side "
            f"on its centerline, {fastening.edge_distance_in:.3g} in at least; "
            f"they may stand {room} off center"
        )
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, "choose thinner lag screws or double the rafter"),
            measured=half_in,
            limit=fastening.edge_distance_in,
            unit="in",
            objects=(fastening.array,),
            line=design.inputs.line_of("framing", "member"),
        )


RULE = Rule(
    id="structure.side-room",
    title="Lag screw to the side of the rafter",
    subject="structure",
    held_by="wood",
    clauses=nds_clauses("Tables 12.5.1A to 12.5.1E"),
    check=check,
)
