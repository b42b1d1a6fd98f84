"""A hook on curved tile, in both sections."""

from __future__ import annotations

from dataclasses import replace

from planset.catalog.attachment import HookAttachment
from planset.design.buildup import HookOnTile
from planset.design.tile_courses import TileFit
from planset.drawing.geometry import Box
from planset.drawing.primitives import Line, Polyline, Primitive
from planset.sheets.attachment_mark import as_laid_out, lags_from_mark, window_words
from planset.sheets.details.deck import across_deck, along_deck, below_in, shown_depth_in
from planset.sheets.details.detail import Detail
from planset.sheets.details.rail import seen_across, seen_along
from planset.sheets.details.screws import (
    across_lag,
    along_lags,
    lag_positions,
    lag_words,
    side_room_words,
)
from planset.sheets.details.sketch import (
    HIDDEN,
    OUTLINE,
    Measure,
    Note,
    Run,
    Section,
    Sketch,
    joined,
    rectangle,
    witness,
)
from planset.sheets.details.tile import across_tile, along_courses, tile_and_course, wave_at
from planset.sheets.words import inches
from planset.units import format_feet_inches

_BEFORE_NOSE = 1.75
_PAST_PLATE = 3.0
_TAB_LENGTH = 2.0
_NOTCH_ROOM = 0.4
_BESIDE_ARM = 0.4  # where a note about the pan points, clear of the arm [in]
_GAP_AT = 3.5  # of the modules drawn, where the hook leaves room for a foot [in]


def along(detail: Detail) -> Section:
    """The section along the rafter."""
    hook, passed = _hook_and_place(detail)
    left = -_BEFORE_NOSE
    right = passed.plate_foot_s_in + hook.plate_length + _PAST_PLATE
    notch = passed.plate_foot_s_in + _NOTCH_ROOM
    rail = seen_along(detail, passed.arm_s_in + _TAB_LENGTH / 2, left, right, _GAP_AT)
    parts = (
        along_deck(detail, left, right),
        along_courses(detail, left, right, (0.0, 0.0), notch),
        _arm_and_plate(detail),
        rail,
    )
    lags = lags_from_mark(hook).upper().replace("ABOVE IT", "ABOVE THE ARM'S FACE")
    remark = f"RUNNING DIMENSIONS FROM THE LOWER TILE'S NOSE; {lags}"
    cut = Box(left, -shown_depth_in(detail), right, _top(detail))
    return Section(joined(parts), cut, remark, passed.plate_foot_s_in - hook.arm_reach / 2)


def across(detail: Detail) -> Section:
    """The section across the slope, looking up it, with the pan centered on the rafter.

    A note tells how far off the pans are.
    """
    tile, course = tile_and_course(detail)
    hook, passed = _hook_and_place(detail)
    half, built = tile.pan_pitch, detail.build_up
    arm, plate = hook.arm_width / 2, hook.plate_width / 2
    under = passed.arm_underside_in
    drawn: list[Primitive] = [
        rectangle(Box(-plate, built.underlayment_in, plate, built.plate_in), OUTLINE),
        rectangle(Box(-arm, under, arm, built.rail_under_in), OUTLINE),
        Line((-arm, built.plate_in), (-arm, under), HIDDEN),
        Line((arm, built.plate_in), (arm, under), HIDDEN),
    ]
    pan = course.lowest_pan_in
    adjustment = format_feet_inches(hook.side_adjustment, rounding="down")
    notes = (
        Note(
            f"HOOK ARM IN THE PAN, {adjustment} OFF ITS PLATE AT MOST",
            (arm, built.rail_under_in - 0.9),
        ),
        Note(_pan_words(detail), wave_at(tile, arm + _BESIDE_ARM, pan)),
        Note(side_room_words(detail), (hook.lags.diameter / 2, -1.6)),
    )
    height = Measure((-half, pan), (-half, built.module_top_in), 0.2)
    rail = seen_across(detail, half, half / 2)
    parts = (
        across_deck(detail, half),
        across_tile(detail, half, course.exposure_in, 0.0),
        Sketch((*drawn, *across_lag(detail, 0.0)), notes, (height,)),
        rail,
    )
    return Section(joined(parts), Box(-half, -shown_depth_in(detail), half, _top(detail)))


def _top(detail: Detail) -> float:
    return detail.build_up.module_top_in


def _hook_and_place(detail: Detail) -> tuple[HookAttachment, HookOnTile]:
    """The hook, and how it passes the tile at the place of the layout with the least room.

    Raises:
        ValueError: The attachment is no hook in tile.
    """
    hook, passed = detail.attachment, detail.build_up.hook
    if passed is None or not isinstance(hook, HookAttachment):
        msg = f"{detail.attachment.name} is no hook in tile"
        raise ValueError(msg)
    _, course = tile_and_course(detail)
    arm = course.exposure_in - _drawn_below_in(detail)
    return hook, replace(
        passed,
        plate_foot_s_in=arm + hook.arm_reach,
        arm_s_in=arm,
        arm_underside_in=course.pan_top_in(arm) + hook.clearance,
    )


def _drawn_below_in(detail: Detail) -> float:
    """Below its nose the arm that is nearest to an end of its window, within the window [in]."""
    fits = _fits(detail)
    laps = fits[0].laps
    least, most = laps.least_below_in, max(laps.most_below_in, laps.least_below_in)
    below = [hook.below_in for fit in fits for hook in fit.hooks]
    worst = min(below, key=lambda one: min(one - least, most - one), default=most)
    return min(max(worst, least), most)


def _arm_and_plate(detail: Detail) -> Sketch:
    """The hook from the side, its screws, and what is said about it."""
    hook, passed = _hook_and_place(detail)
    built = detail.build_up
    _, course = tile_and_course(detail)
    foot, t = passed.plate_foot_s_in, hook.arm_thickness
    under, plate = built.underlayment_in, built.plate_in
    run, top, arm = passed.arm_underside_in, built.rail_under_in, passed.arm_s_in
    outline = (
        (foot + hook.plate_length, under),
        (foot + hook.plate_length, plate),
        (foot + t, plate),
        (foot + t, run + t),
        (arm + t, run + t),
        (arm + t, top - t),
        (arm + _TAB_LENGTH, top - t),
        (arm + _TAB_LENGTH, top),
        (arm, top),
        (arm, run),
        (foot, run),
        (foot, under),
    )
    lags = lag_positions(detail, foot + hook.plate_length / 2)
    bolt = arm + (_TAB_LENGTH + t) / 2
    drawn: list[Primitive] = [
        Polyline(outline, OUTLINE, closed=True),
        *along_lags(detail, lags),
        witness((0.0, course.underside_in(0.0)), below_in(detail)),
        witness((course.exposure_in, course.underside_in(0.0)), below_in(detail)),
        rectangle(Box(bolt - 0.28, top - t - 0.28, bolt + 0.28, top - t), OUTLINE),
        rectangle(Box(bolt - 0.15, top - t - 0.42, bolt + 0.15, top - t - 0.28), OUTLINE),
    ]
    datum = below_in(detail)
    marked = tuple((s, datum) for s in (course.exposure_in, *lags))
    return Sketch(tuple(drawn), _notes(detail, lags[-1]), runs=(Run((0.0, datum), marked),))


def _notes(detail: Detail, last_lag: float) -> tuple[Note, ...]:
    hook, passed = _hook_and_place(detail)
    built = detail.build_up
    _, course = tile_and_course(detail)
    arm, end = passed.arm_s_in, passed.plate_foot_s_in + hook.plate_length
    size = " x ".join(map(inches, (hook.plate_width, hook.plate_length, hook.plate_thickness)))
    arm_size = f"{inches(hook.arm_width)} x {inches(hook.arm_thickness)}"
    return (
        Note(f"ARM {arm_size}, {_below_the_nose(detail)}", (arm, built.rail_under_in - 0.2)),
        Note(hook.torque.upper(), (arm + _TAB_LENGTH / 2, built.rail_under_in - 0.5)),
        Note(
            "NOTCH UPPER TILE AT THE ARM; NO TILE RESTS ON IT",
            (course.exposure_in + 0.6, course.pan_top_in(0.6)),
        ),
        Note(
            f"CLEAR ABOVE TILE {inches(hook.clearance)} MIN.",
            (arm + 1.0, passed.arm_underside_in),
        ),
        Note(f"PLATE {size}, SEALED AS LISTED UNDER WEATHERPROOFING", (end, built.plate_in)),
        Note(lag_words(detail), (last_lag + hook.lags.diameter / 2, -1.2)),
    )


def _fits(detail: Detail) -> tuple[TileFit, ...]:
    return tuple(one.tile_fit for one in detail.mounts if one.tile_fit)


def _below_the_nose(detail: Detail) -> str:
    """Where along the slope an arm may leave, and where those of this roof do."""
    fits = _fits(detail)
    there = as_laid_out(fits)
    return f"{window_words(fits)}{f', {there} on this roof' if there else ''}".upper()


def _pan_words(detail: Detail) -> str:
    """How far the nearest pans are from the rafters; every array of the detail counts."""
    sides = [hook.side_in for fit in _fits(detail) for hook in fit.hooks]
    left = format_feet_inches(-min([*sides, 0.0]), rounding="up")
    right = format_feet_inches(max([*sides, 0.0]), rounding="up")
    return f"PAN AS DRAWN; ON THE ROOF {left} LEFT TO {right} RIGHT"
