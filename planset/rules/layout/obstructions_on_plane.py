"""What the survey puts on a plane lies on it: a slip of the pen would move a clearance away."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.containment import point_room_in, room_in
from planset.design.layout import PlacedObstruction
from planset.finding import Finding, Outcome
from planset.rules.limits import NOISE
from planset.rules.lines import obstruction_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure how far the middle of each obstruction lies inside its plane.

    A chimney may stand across a ridge: then its middle is on the plane all the same.
    """
    for item in design.obstructions:
        if item.is_array:
            yield _whole_array(design, citation, item)
            continue
        inside = point_room_in(item.plane, item.surface.center)
        off = inside < -NOISE
        if off:
            away = format_feet_inches(-inside, rounding="up")
            message = (
                f"The middle of {item.id} lies {away} off plane {item.plane.id}; correct its "
                "plane or center."
            )
        else:
            message = f"The middle of {item.id} lies on plane {item.plane.id}."
        yield RULE.found(
            Outcome.FAIL if off else Outcome.PASS,
            citation,
            message,
            measured=inside,
            limit=0.0,
            unit="in",
            objects=(item.id,),
            line=obstruction_line(design, item.id, "center"),
        )


def _whole_array(design: Design, citation: str, item: PlacedObstruction) -> Finding:
    """An existing array lies on its plane whole: its area counts for fire access."""
    inside = room_in(item.plane, item.surface)
    outcome = Outcome.FAIL if inside < -NOISE else Outcome.PASS
    fact = f"Existing array {item.id} lies on plane {item.plane.id}"
    if outcome is Outcome.FAIL:
        past = format_feet_inches(-inside, rounding="up")
        fact = f"Existing array {item.id} reaches {past} past plane {item.plane.id}"
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "correct its plane, center, width or height"),
        measured=inside,
        limit=0.0,
        unit="in",
        objects=(item.id,),
        line=obstruction_line(design, item.id, "center"),
    )


RULE = Rule(
    id="layout.obstructions-on-plane",
    title="Obstructions on their plane",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
