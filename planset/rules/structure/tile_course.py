"""Hooks leave the tile at a lap of two courses."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from planset.design.lap_moves import moved_clear_of_eave
from planset.design.layout import PlacedArray
from planset.design.racking import Racking
from planset.design.tile_courses import HookPlace, TileFit, all_at_laps
from planset.finding import Finding, Outcome
from planset.rules.limits import at_most_outcome
from planset.rules.lines import array_line
from planset.rules.rule import Rule, sentence
from planset.units import format_feet_inches

if TYPE_CHECKING:
    from planset.design.design import Design


def check(design: Design, citation: str, edition: int) -> Iterator[Finding]:
    """Name the hook of each array that is farthest from a lap."""
    for one in design.mounts:
        array, rack, fit = one.array, one.racking, one.tile_fit
        if fit is None:
            continue
        if not fit.laps.reachable:
            yield _too_short(design, citation, array, fit)
            continue
        if not fit.hooks:
            continue
        worst = max(fit.hooks, key=lambda hook: abs(hook.shift_in))
        outcome = at_most_outcome(abs(worst.shift_in), 0.0)
        passes = outcome is Outcome.PASS
        fact = _all_leave(fit) if passes else _must_shift(fit, worst)
        change = "" if passes else _change(design, array, rack, fit)
        yield RULE.found(
            outcome,
            citation,
            sentence(outcome, fact, change),
            measured=abs(worst.shift_in),
            limit=0.0,
            unit="in",
            objects=(array.id,) if passes else (array.id, worst.attachment),
            line=_line(design, array),
        )


def _line(design: Design, array: PlacedArray) -> int | None:
    if array.system.across:
        return array_line(design, array.id, "corner")
    return array_line(design, array.id, "mounting", "first_attachment")


def _too_short(design: Design, citation: str, array: PlacedArray, fit: TileFit) -> Finding:
    hook = fit.hook
    needed = hook.arm_reach + fit.laps.least_below_in - fit.laps.most_below_in
    fact = (
        f"The arm of {hook.name} reaches {format_feet_inches(hook.arm_reach, rounding='down')} "
        f"down the slope; from behind the lower tile past the nose of the upper one it takes "
        f"{format_feet_inches(needed, rounding='up')}"
    )
    return RULE.found(
        Outcome.FAIL,
        citation,
        sentence(Outcome.FAIL, fact, "choose a hook with a longer arm"),
        measured=hook.arm_reach,
        limit=needed,
        unit="in",
        objects=(array.id,),
        line=array_line(design, array.id, "mounting", "system"),
    )


def _all_leave(fit: TileFit) -> str:
    course = format_feet_inches(fit.laps.exposure_in)
    return f"Each hook of array {fit.array} leaves at a lap of the courses, {course} apart"


def _must_shift(fit: TileFit, worst: HookPlace) -> str:
    shift = format_feet_inches(abs(worst.shift_in), rounding="up")
    way = "up" if worst.shift_in > 0 else "down"
    count = sum(1 for hook in fit.hooks if hook.shift_in)
    return (
        f"{count} of {len(fit.hooks)} hooks of array {fit.array} come out between the laps of the "
        f"tile; {worst.attachment} must shift {shift} {way} the slope to leave at one"
    )


def _change(design: Design, array: PlacedArray, rack: Racking, fit: TileFit) -> str:
    stated = array.stated_mounting
    if array.system.across:
        fields = moved_clear_of_eave(array, fit.laps, design.inputs.job.survey)
        if fields:
            return f"with {fields} all of them do"
        return "no corner.up, rail_inset or row_gap near those stated suits all of its rails"
    if stated.first_attachment is None or stated.attachment_spacing is None:
        return "move the array so that its hooks meet the laps"
    found = all_at_laps(fit.laps, rack, stated.first_attachment, stated.attachment_spacing)
    if found is None:
        return (
            "no first_attachment suits all of its rails, whose lower ends are not whole courses "
            "apart; move the array or its rows"
        )
    first, spacing = (format_feet_inches(value) for value in found)
    return (
        f"with first_attachment {first} and attachment_spacing {spacing} all of them do, or move "
        "the array"
    )


RULE = Rule(
    id="structure.tile-course",
    title="Shift of hooks to the laps of the tile",
    subject="structure",
    held_by="",
    clauses={},
    check=check,
)
