"""Equipment on walls has its working space: depth, width and height."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.electrical.wall import (
    BEYOND_FRONT_IN,
    WorkingSpace,
    working_spaces,
)
from planset.finding import Finding, Outcome
from planset.job.electrical.wall import EquipmentWall
from planset.rules.circuits import cite_nec, nec
from planset.rules.limits import clearance_outcome
from planset.rules.rule import Rule, sentence

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Measure what is free before each piece, what stands into its space, and the room above."""
    for number, wall in enumerate(design.inputs.job.electrical.walls):
        line = design.inputs.line_of("electrical", "walls", number)
        for space in working_spaces(design, wall):
            yield _depth(wall, space, citation, line)
            yield from _width(wall, space, cite_nec("working_width", edition), line)
            yield from _height(wall, space, cite_nec("working_height", edition), line)


def _depth(wall: EquipmentWall, space: WorkingSpace, citation: str, line: int) -> Finding:
    outcome = clearance_outcome(space.free, space.depth)
    fact = (
        f"{space.item.tag} on {wall.name} has {space.free:g} in free before it; "
        f"{space.volts:.0f} V to ground and condition {wall.condition} ask for {space.depth:g} in"
    )
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "move it to where more is free"),
        measured=space.free,
        limit=space.depth,
        unit="in",
        objects=(space.item.tag,),
        line=line,
    )


def _width(wall: EquipmentWall, space: WorkingSpace, citation: str, line: int) -> Iterator[Finding]:
    tag, width = space.item.tag, f"{space.width:g} in wide"
    if space.intruders:
        others = ", ".join(space.intruders)
        fact = (
            f"The working space of {tag}, {width}, has {others} in it more than "
            f"{BEYOND_FRONT_IN:g} in beyond its front"
        )
        yield _found(Outcome.FAIL, citation, fact, "move them farther apart", space, line)
    elif space.doubtful:
        others = ", ".join(space.doubtful)
        fact = (
            f"The working space of {tag}, {width}, has {others} beside it and farther out than "
            f"its front; the code lets equipment above and below do so by {BEYOND_FRONT_IN:g} in "
            "and says nothing of what is beside"
        )
        yield _found(
            Outcome.ASK, citation, fact, "move them apart, or ask whether it is taken", space, line
        )
    if not space.on_wall:
        fact = f"The working space of {tag}, {width}, reaches past an end of {wall.name}"
        change = "move it inward, or ask whether what is free beyond the end is taken"
        yield _found(Outcome.ASK, citation, fact, change, space, line)


def _height(
    wall: EquipmentWall, space: WorkingSpace, citation: str, line: int
) -> Iterator[Finding]:
    if space.height > wall.height:
        fact = (
            f"{space.item.tag} asks for {space.height:g} in of height before it, and {wall.name} "
            f"is {wall.height:g} in high"
        )
        change = "hang it on a higher wall, or lower where its top decides"
        yield _found(Outcome.FAIL, citation, fact, change, space, line)


def _found(
    outcome: Outcome, citation: str, fact: str, change: str, space: WorkingSpace, line: int
) -> Finding:
    message = sentence(outcome, fact, change)
    return RULE.found(outcome, citation, message, objects=(space.item.tag,), line=line)


RULE = Rule(
    id="electrical.working-space",
    title="Working space",
    subject="electrical",
    held_by="electrical",
    clauses=nec("working_depth"),
    check=check,
)
