"""Section across the slope through a hook on curved tile, looking up the slope.

Block frame: x across from the rafter's centerline, n normal to the roof from its top [in].
"""

from __future__ import annotations

import math

from planset.design.buildup import BuildUp
from planset.design.layout import PlacedArray
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Block, Line, Polyline, Primitive
from planset.job.framing import Framing
from planset.sheets.detail_parts import (
    BEYOND,
    CUT,
    HIDDEN,
    OUTLINE,
    PATTERN,
    DrawnSection,
    break_line,
    framing_lumber,
    hook_of,
    passing,
    rectangle,
)

NAME = "DETAIL-ACROSS"
_PANS_EACH_SIDE = 1.0
_STEPS_PER_PAN = 24
_BESIDE_ARM = 0.4  # where a note about the pan points, clear of the arm [in]


def across_section(
    array: PlacedArray, build_up: BuildUp, framing: Framing, pan_pitch_in: float
) -> DrawnSection:
    """Draw the section with the pan centered on the rafter; a note tells how far off it is."""
    half = pan_pitch_in * _PANS_EACH_SIDE
    made: list[Primitive] = []
    made += _deck(build_up, framing, half)
    made += _tile(build_up, half, pan_pitch_in)
    made += _hook(array, build_up)
    made += _rail_and_module(array, build_up, half)
    top = build_up.module_top_in + 0.3
    made += [break_line(x, -0.3, top) for x in (-half, half)]
    extent = Box(-half - 0.4, -framing.member_depth_in - 0.3, half + 0.4, top)
    block = Block(NAME, tuple(made), "Hook on curved tile, section across the slope")
    return DrawnSection(block, extent, _points(array, build_up, framing, half))


def _deck(build_up: BuildUp, framing: Framing, half: float) -> list[Primitive]:
    width, depth = framing.member_width_in, framing.member_depth_in
    made = framing_lumber(Box(-width / 2, -depth, width / 2, 0.0))
    levels = (0.0, build_up.deck_in, build_up.underlayment_in)
    made += [Line((-half, n), (half, n), CUT) for n in levels]
    made += [
        Line((-half, build_up.deck_in * share), (half, build_up.deck_in * share), PATTERN)
        for share in (1 / 3, 2 / 3)
    ]
    return made


def _tile(build_up: BuildUp, half: float, pitch: float) -> list[Primitive]:
    """The tile's S from pan to cover to pan, cut just below the nose of the upper course."""
    course = passing(build_up)[0]
    low = course.underside_in(course.exposure_in)
    steps = round(2 * half / pitch * _STEPS_PER_PAN)
    lower = [
        _wave(-half + 2 * half * n / steps, low, course.rise_in, pitch) for n in range(steps + 1)
    ]
    upper = [(x, n + course.thickness_in) for x, n in lower]
    return [Polyline(tuple(lower), CUT), Polyline(tuple(upper), CUT)]


def _wave(x: float, low: float, rise: float, pitch: float) -> Point:
    return (x, low + rise / 2 * (1 - math.cos(2 * math.pi * x / pitch)))


def _hook(array: PlacedArray, build_up: BuildUp) -> list[Primitive]:
    hook = hook_of(array)
    arm, plate = hook.arm_width / 2, hook.plate_width / 2
    lag = hook.lags.diameter / 2
    under = passing(build_up)[1].arm_underside_in
    point = build_up.plate_in - hook.lags.length
    return [
        rectangle(
            Box(-plate, build_up.underlayment_in, plate, build_up.plate_in),
            OUTLINE,
        ),
        rectangle(Box(-arm, under, arm, build_up.rail_under_in), OUTLINE),
        Line((-arm, build_up.plate_in), (-arm, under), HIDDEN),
        Line((arm, build_up.plate_in), (arm, under), HIDDEN),
        Polyline(
            (
                (-lag, build_up.plate_in),
                (-lag, point + 0.2),
                (0.0, point),
                (lag, point + 0.2),
                (lag, build_up.plate_in),
            ),
            BEYOND,
        ),
    ]


def _rail_and_module(array: PlacedArray, build_up: BuildUp, half: float) -> list[Primitive]:
    rail = array.system.rail.width / 2
    bottom, top, module = build_up.rail_under_in, build_up.rail_top_in, build_up.module_top_in
    return [
        rectangle(Box(-rail, bottom, rail, top), OUTLINE),
        rectangle(Box(-rail + 0.1, bottom + 0.1, rail - 0.1, top - 0.1), BEYOND),
        Line((-half, top), (half, top), OUTLINE),
        Line((-half, module), (half, module), OUTLINE),
        Line((-half, module - 0.15), (half, module - 0.15), BEYOND),
    ]


def _points(
    array: PlacedArray, build_up: BuildUp, framing: Framing, half: float
) -> dict[str, Point]:
    course = passing(build_up)[0]
    pan = course.pan_top_in(course.exposure_in)
    beside = hook_of(array).arm_width / 2 + _BESIDE_ARM
    return {
        "pan": _wave(beside, pan, course.rise_in, half / _PANS_EACH_SIDE),
        "rail": (array.system.rail.width / 2, build_up.rail_under_in + 1.2),
        "arm": (hook_of(array).arm_width / 2, build_up.rail_under_in - 0.9),
        "plate": (hook_of(array).plate_width / 2, build_up.plate_in - 0.1),
        "lag": (hook_of(array).lags.diameter / 2, -1.6),
        "rafter": (framing.member_width_in / 2, -framing.member_depth_in * 0.8),
    }
