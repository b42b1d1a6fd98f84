"""Modules keep the clearance the designer states around each obstruction."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.containment import plan_distance_in, room_in
from planset.design.layout import PlacedObstruction
from planset.drawing.geometry import Box
from planset.finding import Finding
from planset.rules.gaps import gap_in
from planset.rules.limits import clearance_outcome
from planset.rules.lines import obstruction_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

STATED = "clearance stated by the designer; common practice, no source"


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure from each obstruction to the nearest module frame of its plane."""
    for item in design.obstructions:
        distances = _distances(design, item)
        if not distances:
            continue
        nearest = min(distances, key=distances.__getitem__)
        measured = distances[nearest]
        outcome = clearance_outcome(measured, item.clearance_in)
        kept = format_feet_inches(measured, rounding="down")
        least = format_feet_inches(item.clearance_in, rounding="up")
        fact = f"Module {nearest} stays {kept} from {item.id}, where {least} is stated"
        change = f"move the array to keep more than {least}, or take module {nearest} out"
        yield RULE.found(
            outcome,
            STATED,
            sentence(outcome, fact, change),
            measured=measured,
            limit=item.clearance_in,
            unit="in",
            objects=(item.id, nearest),
            line=obstruction_line(design, item.id, "clearance"),
        )


def _distances(design: Design, item: PlacedObstruction) -> dict[str, float]:
    """Distance to every module that it can come near, by tag [in].

    One that reaches over an edge, as a chimney across a ridge does, is held against the modules
    of the other planes as well, in plan, which is never more than the way over the roof.
    """
    across = room_in(item.plane, item.surface) < 0
    found: dict[str, float] = {}
    for array in design.arrays:
        same = array.plane.id == item.plane.id
        for module in array.modules if same or across else ():
            frame = module.surface
            found[module.id] = (
                distance_in(item, frame)
                if same
                else plan_distance_in(item.plane, item.surface, array.plane, frame)
            )
    return found


def distance_in(item: PlacedObstruction, frame: Box) -> float:
    """Return the distance from an obstruction to a frame on the surface, negative inside [in]."""
    if item.round:
        (u, v), radius = item.surface.center, item.surface.width / 2
        return gap_in(Box(u, v, u, v), frame) - radius
    return gap_in(item.surface, frame)


RULE = Rule(
    id="layout.obstruction-clearance",
    title="Clearance around obstructions",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
