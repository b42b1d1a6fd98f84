"""Every module lies inside its roof plane."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.drawing.geometry import Box, Point
from planset.finding import Finding, Outcome
from planset.roof.plane import Plane
from planset.rules.limits import NOISE, clearance_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_LISTED = 6  # as many module tags as a sentence takes


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure how far the modules of each array stay inside the edges; below 0 is an overrun."""
    for array in design.arrays:
        rooms = {module.id: room_in(array.plane, module.surface) for module in array.modules}
        least = min(rooms.values())
        outcome = clearance_outcome(least, 0.0)
        off = tuple(tag for tag, room in rooms.items() if room < -NOISE)
        if outcome is Outcome.FAIL:
            over = format_feet_inches(-least, rounding="up")
            fact = f"{_listed(off)} run over the edge of plane {array.plane.id} by up to {over}"
        else:
            room = format_feet_inches(least, rounding="down")
            fact = f"Modules of array {array.id} stay {room} inside plane {array.plane.id}"
        change = f"move the corner of array {array.id}, or take out rows or columns"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=least,
            limit=0.0,
            unit="in",
            objects=off or (array.id,),
            line=array_line(design, array.id, "corner"),
        )


def _listed(tags: tuple[str, ...]) -> str:
    more = f" and {len(tags) - _LISTED} more" if len(tags) > _LISTED else ""
    return ", ".join(tags[:_LISTED]) + more


def room_in(plane: Plane, box: Box) -> float:
    """Return the least distance of a box inside the edges of a convex plane [in]."""
    corners = plane.surface_outline
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    return min(_left_of(start, end, corner) for start, end in sides for corner in box.corners)


def _left_of(start: Point, end: Point, point: Point) -> float:
    """Distance of a point to the left of a line, which is inside a counterclockwise outline."""
    along = (end[0] - start[0], end[1] - start[1])
    to_point = (point[0] - start[0], point[1] - start[1])
    return (along[0] * to_point[1] - along[1] * to_point[0]) / math.hypot(*along)


RULE = Rule(
    id="layout.modules-on-plane",
    title="Modules inside the roof plane",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
