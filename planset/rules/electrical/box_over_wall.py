"""A junction box whose raceway goes down into the attic stands over it, past the wall's plate."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.boxes import BOX_SIZE_IN, PlacedBox, from_line_in, placed_boxes
from planset.design.walls import outer_edges, overhang_in
from planset.finding import Finding
from planset.job.electrical.wiring import AtticPlace
from planset.roof.solid import Edge
from planset.rules.limits import at_least_outcome
from planset.rules.rule import COMMON_PRACTICE, Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design

PLATE_IN = 3.5
"""Width of the top plate of a wall of 2x4, none being stated (common practice, no source) [in]."""

_RUNS_OF_BOXES = ("dc", "branch")


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure each such box from the nearest wall line below, on the slope."""
    for number, placed in enumerate(placed_boxes(design)):
        if _into_attic(design, placed.id):
            line = design.inputs.line_of("electrical", "junction_boxes", number, "at")
            yield from _past_wall(design, placed, line)


def _into_attic(design: Design, box_id: str) -> bool:
    """Whether a run from the box has the attic for its first place."""
    wiring = design.inputs.job.electrical.wiring
    runs = (wiring.run(name, box_id) for name in _RUNS_OF_BOXES)
    return any(run is not None and isinstance(run.places[0], AtticPlace) for run in runs)


def _past_wall(design: Design, placed: PlacedBox, line: int) -> Iterator[Finding]:
    """Judge the box by the edge of its plane at which it has least to spare."""
    edges = [e for e in outer_edges(design.roof, placed.plane.building) if _bounds(e, placed)]
    reached = [
        (from_line_in(placed, edge.plan), _needed_in(design, edge, placed)) for edge in edges
    ]
    if not reached:  # no edge of its plane has a wall below
        return
    away, needed = min(reached, key=lambda pair: pair[0] - pair[1])
    outcome = at_least_outcome(away, needed)
    fact = (
        f"The middle of junction box {placed.id} stands {away:.1f} in from the edge of its roof, "
        f"on the slope; past the overhang, {PLATE_IN:g} in of plate and half of the box its "
        f"raceway needs {needed:.1f} in to come out in the attic"
    )
    change = "move the box up the slope, or begin its run with another place than the attic"
    yield RULE.found(
        outcome,
        COMMON_PRACTICE,
        sentence(outcome, fact, change),
        measured=away,
        limit=needed,
        unit="in",
        objects=(placed.id,),
        line=line,
    )


def _bounds(edge: Edge, placed: PlacedBox) -> bool:
    return placed.plane.id in edge.planes


def _needed_in(design: Design, edge: Edge, placed: PlacedBox) -> float:
    """Overhang, plate and half of the box, from an edge on the slope; a level one lies across it.

    Both overhang and plate are stated in plan.
    """
    given = design.inputs.job.roof_over(placed.plane.building)
    level = edge.a[2] == edge.b[2]
    factor = placed.plane.slope_factor if level else 1.0
    return (overhang_in(given, edge) + PLATE_IN) * factor + BOX_SIZE_IN / 2


RULE = Rule(
    id="electrical.box-over-wall",
    title="Junction boxes over the attic",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
