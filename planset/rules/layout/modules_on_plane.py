"""Every module lies inside its roof plane."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.containment import room_in, sides_crossed
from planset.design.layout import PlacedArray
from planset.finding import Finding, Outcome
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
            fact = f"{_listed(off)} run over {_crossed(design, array, off)} by up to {over}"
        else:
            room = format_feet_inches(least, rounding="down")
            fact = f"Modules of array {array.id} stay {room} inside plane {array.plane.id}"
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, _change(array)),
            measured=least,
            limit=0.0,
            unit="in",
            objects=off or (array.id,),
            line=array_line(design, array.id, "corner"),
        )


def _change(array: PlacedArray) -> str:
    return f"move the corner of array {array.id}, omit those modules, or take out rows or columns"


def _crossed(design: Design, array: PlacedArray, off: tuple[str, ...]) -> str:
    """The roof edges that modules lie across, by name; the plane where none is near."""
    frames = [module.surface for module in array.modules if module.id in off]
    edges = design.roof.edges_of(array.plane.id)
    names = sides_crossed(array.plane, edges, frames)
    return " and ".join(f"the {name}" for name in names) or f"the edge of plane {array.plane.id}"


def _listed(tags: tuple[str, ...]) -> str:
    more = f" and {len(tags) - _LISTED} more" if len(tags) > _LISTED else ""
    return ", ".join(tags[:_LISTED]) + more


RULE = Rule(
    id="layout.modules-on-plane",
    title="Modules inside the roof plane",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
