"""The eave is not as straight as it is drawn: the array stays above it, hooks at their laps."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.lap_moves import moved_to_laps
from planset.design.mounted import Mounted
from planset.design.tile_courses import Laps
from planset.finding import Finding
from planset.rules.limits import at_least_outcome, clearance_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.rules.survey import not_surveyed
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design

_HOW = (
    "stretch a string between the ends of the eave's edge, and write the greatest distance of the "
    "edge from it"
)

_ON_A_TAPE_IN = 1 / 16


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Compare the front edge of each array, and the room of its hooks, with that of the eave."""
    survey = design.inputs.job.survey
    for one in design.mounts:
        off = survey.eave_out_of_straight_on(one.array.plane.id) if survey else None
        if off is None:
            yield not_surveyed(RULE, design, citation, one.array, "eave_out_of_straight", _HOW)
            continue
        yield _front(design, citation, one, off)
        yield from _hooks(design, citation, one, off)


def _front(design: Design, citation: str, one: Mounted, off: float) -> Finding:
    front = one.array.hardware.y0
    outcome = clearance_outcome(front, off)
    fact = (
        f"The front of array {one.id}, rails and trim included, is "
        f"{format_feet_inches(front, rounding='down')} above the eave's line, and the eave runs "
        f"{format_feet_inches(off, rounding='up')} out of straight"
    )
    return RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, "move its corner up"),
        measured=front,
        limit=off,
        unit="in",
        objects=(one.id,),
        line=array_line(design, one.id, "corner"),
    )


def _hooks(design: Design, citation: str, one: Mounted, off: float) -> Iterator[Finding]:
    """The hook with the least room at its lap, of those that stand at one as drawn."""
    fit = one.tile_fit
    if fit is None:
        return
    heights = {item.id: item.v_in for item in one.racking.attachments}
    at_lap = [hook.attachment for hook in fit.hooks if hook.shift_in == 0]
    if not at_lap:
        return
    least = min(at_lap, key=lambda tag: fit.laps.room_in(heights[tag]))
    room = fit.laps.room_in(heights[least])
    outcome = at_least_outcome(room, off)
    clear = f"{format_feet_inches(room, rounding='down')} from the end of its room at a lap"
    where = clear if room >= _ON_A_TAPE_IN else "at the very end of its room at a lap"
    fact = (
        f"{least} of array {one.id} leaves the tile {where}, the least of all, and courses that "
        f"follow the eave run {format_feet_inches(off, rounding='up')} off"
    )
    change = f"{_move(one, fit.laps, heights[least], off)}, or measure each hook's course"
    yield RULE.found(
        outcome,
        citation,
        sentence(outcome, fact, change),
        measured=room,
        limit=off,
        unit="in",
        objects=(one.id, least),
        line=array_line(design, one.id, *_field(one)),
    )


def _field(one: Mounted) -> tuple[str, ...]:
    """The field of the array that decides how high its hooks are."""
    return ("corner",) if one.array.system.across else ("mounting", "first_attachment")


def _move(one: Mounted, laps: Laps, v_in: float, off: float) -> str:
    """By how much that field moves the hook until the eave may run off that far."""
    shift = laps.shift_to_room_in(v_in, off)
    if one.array.system.across and (fields := moved_to_laps(one.array, laps, off)):
        return f"write {fields}, with which all hooks have that room"
    if shift is None:
        return "choose a hook with a longer arm, which has more room at a lap"
    way = "up" if shift > 0 else "down"
    far = format_feet_inches(abs(shift), rounding="up")
    if one.array.system.across:
        return f"move its rail {far} {way} the slope by corner.up, rail_inset or row_gap"
    return f"move first_attachment {far} {way} the slope"


RULE = Rule(
    id="layout.eave-line",
    title="Room for an eave out of straight",
    subject="layout",
    held_by="",
    clauses={},
    check=check,
)
