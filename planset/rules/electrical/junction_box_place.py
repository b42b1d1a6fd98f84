"""A junction box stands at the edge of its array, off its modules and out of what is kept free."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.boxes import PlacedBox, from_edge_in, placed_boxes
from planset.drawing.region import Region
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.rule import COMMON_PRACTICE, Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design

FARTHEST_IN = 12.0
"""How far from its array a box may stand, as its leads are to run under modules until there [in]
(common practice, no source)."""

_TOUCH_IN = 1e-6


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure each box from the frames of its array, and hold it against access areas."""
    for number, placed in enumerate(placed_boxes(design)):
        line = design.inputs.line_of("electrical", "junction_boxes", number, "at")
        yield _at_array(design, placed, line)
        yield from _in_the_way(design, placed, line)


def _at_array(design: Design, placed: PlacedBox, line: int) -> Finding:
    away = from_edge_in(next(a for a in design.arrays if a.id == placed.array), placed)
    outcome = at_most_outcome(away, FARTHEST_IN)
    fact = (
        f"Junction box {placed.id} stands {away:.1f} in from the edge of array {placed.array}; "
        f"{FARTHEST_IN:g} in is the most"
    )
    return RULE.found(
        outcome,
        COMMON_PRACTICE,
        sentence(outcome, fact, "move it to the edge of the array"),
        measured=away,
        limit=FARTHEST_IN,
        unit="in",
        objects=(placed.id, placed.array),
        line=line,
    )


def _in_the_way(design: Design, placed: PlacedBox, line: int) -> Iterator[Finding]:
    covered = placed.surface
    met = [
        (area.kind.value, area.required_in)
        for area in design.access_areas
        if area.plane == placed.plane.id
        and Region.of(area.outline).meets(covered.grown(-_TOUCH_IN))
    ]
    obstructions = [
        item.id
        for item in design.obstructions
        if item.plane is placed.plane and item.surface.overlaps(covered)
    ]
    off = not Region(placed.plane.surface_polygon).holds(covered)
    problems = [f"stands in the {kind} of {width:g} in that is kept free" for kind, width in met]
    problems += [f"stands on obstruction {tag}" for tag in obstructions]
    problems += ["does not lie on its plane"] if off else []
    for problem in problems:
        message = f"Junction box {placed.id} {problem}; move it beside or under its array's edge."
        yield RULE.found(Outcome.FAIL, COMMON_PRACTICE, message, objects=(placed.id,), line=line)


RULE = Rule(
    id="electrical.junction-box-place",
    title="Places of junction boxes",
    subject="electrical",
    held_by="",
    clauses={},
    check=check,
)
