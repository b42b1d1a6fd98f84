"""Every attachment stands on a rafter or seam of its plane, where that line is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.mounted import Mounted
from planset.design.support_lines import SupportLine, lines_for
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare attachments with the lines under them, and how far lag screws may be off center."""
    for one in design.mounts:
        if not one.racking.attachments:
            continue
        found = lines_for(design.inputs, one.array.plane, one.array.system)
        lines = {line.number: line for line in found}
        yield _beside(design, citation, one, lines) or _on(design, citation, one, lines)


def _beside(
    design: Design, citation: str, one: Mounted, lines: dict[int, SupportLine]
) -> Finding | None:
    """The finding on attachments past the ends of their lines, None where there are none."""
    lost = [
        item
        for item in one.racking.attachments
        if item.line not in lines or not lines[item.line].reaches(item.v_in)
    ]
    if not lost:
        return None
    first, name = lost[0], _name(one)
    message = (
        f"{len(lost)} attachments of array {one.id} ({first.id} first, "
        f"{format_feet_inches(first.v_in)} from the eave) stand where {name} {first.line} is not "
        f"on the roof; shift the array, or choose other {name}s."
    )
    line = array_line(design, one.id, "mounting")
    return RULE.found(
        Outcome.FAIL, citation, message, objects=(one.id, *(i.id for i in lost)), line=line
    )


def _on(design: Design, citation: str, one: Mounted, lines: dict[int, SupportLine]) -> Finding:
    off, worst = max(
        ((abs(item.u_in - lines[item.line].u_in), item) for item in one.racking.attachments),
        key=lambda pair: pair[0],
    )
    room = max(one.fastening.side_room_in, 0.0) if one.fastening else 0.0
    outcome = at_most_outcome(off, room)
    name = _name(one)
    fact = (
        f"Each of the {len(one.racking.attachments)} attachments of array {one.id} stands on a "
        f"{name}, {format_feet_inches(off, rounding='up')} off its middle at most; "
        f"{format_feet_inches(room, rounding='down')} is allowed"
    )
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, f"set {worst.id} on the {name}"),
        measured=off,
        limit=room,
        unit="in",
        objects=(one.id, worst.id),
        line=array_line(design, one.id, "mounting"),
    )


def _name(one: Mounted) -> str:
    return "rafter" if one.fastening else "seam"


RULE = Rule(
    id="layout.rafter-hit",
    title="Attachments on rafters or seams",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
