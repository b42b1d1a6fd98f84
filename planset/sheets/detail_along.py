"""Section along the rafter through a hook on curved tile, square to the roof.

Block frame: s up the slope from the nose of the tile the arm leaves over, n normal to the roof
from the top of the rafter, both in inches.
"""

from __future__ import annotations

from planset.design.buildup import BuildUp, TileCourse
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
    lag_screw,
    passing,
    rectangle,
)

NAME = "DETAIL-ALONG"
_BATTEN_WIDTH = 1.5  # a 1x2 batten laid flat
_BEFORE_NOSE = 1.75
_PAST_PLATE = 3.0
_TAB_LENGTH = 2.0
_NOTCH_ROOM = 0.4


def along_section(array: PlacedArray, build_up: BuildUp, framing: Framing) -> DrawnSection:
    """Draw the section from the job's own dimensions."""
    hook = hook_of(array)
    left = -_BEFORE_NOSE
    right = passing(build_up)[1].plate_foot_s_in + hook.plate_length + _PAST_PLATE
    depth = framing.member_depth_in
    made: list[Primitive] = []
    made += _deck(build_up, left, right, depth)
    made += _tiles(build_up, left, right)
    made += _hook(array, build_up)
    made += _rail_and_module(array, build_up, left, right)
    made += [break_line(x, -depth - 0.3, build_up.module_top_in + 0.3) for x in (left, right)]
    extent = Box(left - 0.4, -depth - 0.3, right + 0.4, build_up.module_top_in + 0.3)
    block = Block(NAME, tuple(made), "Hook on curved tile, section along the rafter")
    return DrawnSection(block, extent, _points(array, build_up, framing, right))


def lag_positions(array: PlacedArray, build_up: BuildUp) -> list[float]:
    """Axes of the lag screws, up the slope [in]."""
    hook = hook_of(array)
    middle = passing(build_up)[1].plate_foot_s_in + hook.plate_length / 2
    first = middle - (hook.lags.count - 1) * hook.lags.spacing / 2
    return [first + n * hook.lags.spacing for n in range(hook.lags.count)]


def _deck(build_up: BuildUp, left: float, right: float, depth: float) -> list[Primitive]:
    """Rafter cut along its length, sheathing, underlayment."""
    deck, under = build_up.deck_in, build_up.underlayment_in
    made: list[Primitive] = [
        Line((left, -depth), (right, -depth), CUT),
        Line((left, 0.0), (right, 0.0), CUT),
        Line((left, deck), (right, deck), CUT),
        Line((left, under), (right, under), CUT),
    ]
    for share in (0.18, 0.4, 0.62, 0.84):
        made.append(Line((left, -depth * share), (right, -depth * share), PATTERN))
    for share in (1 / 3, 2 / 3):
        made.append(Line((left, deck * share), (right, deck * share), PATTERN))
    return made


def _tiles(build_up: BuildUp, left: float, right: float) -> list[Primitive]:
    """Courses cut in the pan, their covers beyond, battens at their heads."""
    course = passing(build_up)[0]
    made: list[Primitive] = []
    for number in (-1, 0, 1):
        nose = number * course.exposure_in
        head = nose + course.length_in
        notch = passing(build_up)[1].plate_foot_s_in + _NOTCH_ROOM if number == 1 else nose
        start, end = max(notch, left), min(head, right)
        made.append(_pan(course, nose, start, end, CUT, closed=head <= right))
        if number == 1:
            made.append(_pan(course, nose, nose, notch, HIDDEN, closed=True))
        if head <= right:
            batten = Box(head - _BATTEN_WIDTH, build_up.underlayment_in, head, build_up.batten_in)
            made += framing_lumber(batten)
        made += _cover(course, nose, left, min(nose + course.exposure_in, right))
    return made


def _pan(
    course: TileCourse, nose: float, start: float, end: float, layer: str, *, closed: bool
) -> Polyline:
    lower, upper = course.underside_in, course.pan_top_in
    points = (
        (end, upper(end - nose)),
        (start, upper(start - nose)),
        (start, lower(start - nose)),
        (end, lower(end - nose)),
    )
    return Polyline(points, layer, closed=closed)


def _cover(course: TileCourse, nose: float, left: float, end: float) -> list[Primitive]:
    """The cover beyond the pan: its nose, and its top up to the next course's nose."""
    start = max(nose, left)
    if end <= start:
        return []
    low, high = course.pan_top_in(start - nose), course.pan_top_in(start - nose) + course.rise_in
    made: list[Primitive] = [
        Line((start, high), (end, course.pan_top_in(end - nose) + course.rise_in), BEYOND)
    ]
    if start == nose:
        made.append(Line((nose, low), (nose, high), BEYOND))
    return made


def _hook(array: PlacedArray, build_up: BuildUp) -> list[Primitive]:
    hook = hook_of(array)
    foot, t = passing(build_up)[1].plate_foot_s_in, hook.arm_thickness
    under, plate = build_up.underlayment_in, build_up.plate_in
    run, top = passing(build_up)[1].arm_underside_in, build_up.rail_under_in
    arm = passing(build_up)[1].arm_s_in
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
    made: list[Primitive] = [Polyline(outline, OUTLINE, closed=True)]
    for s in lag_positions(array, build_up):
        made += lag_screw(s, plate, hook.lags.length, hook.lags.diameter)
    bolt = arm + (_TAB_LENGTH + t) / 2
    made += [
        rectangle(Box(bolt - 0.28, top - t - 0.28, bolt + 0.28, top - t), OUTLINE),
        rectangle(Box(bolt - 0.15, top - t - 0.42, bolt + 0.15, top - t - 0.28), OUTLINE),
    ]
    return made


def _rail_and_module(
    array: PlacedArray, build_up: BuildUp, left: float, right: float
) -> list[Primitive]:
    bottom, top, module = build_up.rail_under_in, build_up.rail_top_in, build_up.module_top_in
    lines: list[Primitive] = [Line((left, n), (right, n), OUTLINE) for n in (bottom, top, module)]
    lines += [
        Line((left, bottom + 0.35), (right, bottom + 0.35), BEYOND),
        Line((left, top - 0.35), (right, top - 0.35), BEYOND),
        Line((left, module - 0.15), (right, module - 0.15), BEYOND),
    ]
    return lines


def _points(
    array: PlacedArray, build_up: BuildUp, framing: Framing, right: float
) -> dict[str, Point]:
    """What notes and dimensions point at."""
    hook = hook_of(array)
    course = passing(build_up)[0]
    lags = lag_positions(array, build_up)
    near_right = right - 1.0
    return {
        "module": (near_right, build_up.module_top_in),
        "rail": (near_right, (build_up.rail_under_in + build_up.rail_top_in) / 2),
        "tile": (near_right, course.pan_top_in(near_right - course.exposure_in)),
        "underlayment": (near_right - 0.3, build_up.underlayment_in),
        "sheathing": (near_right - 0.6, build_up.deck_in / 2),
        "rafter": (near_right - 0.9, -framing.member_depth_in * 0.72),
        "lag": (lags[-1] + hook.lags.diameter / 2, -1.2),
        "plate": (passing(build_up)[1].plate_foot_s_in + hook.plate_length, build_up.plate_in),
        "cover": (2.5, course.pan_top_in(2.5) + course.rise_in),
        "arm": (
            passing(build_up)[1].arm_s_in,
            build_up.rail_under_in - 0.2,
        ),
        "notch": (course.exposure_in + 0.6, course.pan_top_in(0.6)),
        "clearance": (passing(build_up)[1].arm_s_in + 1.0, passing(build_up)[1].arm_underside_in),
        "batten": (course.length_in - course.exposure_in - _BATTEN_WIDTH, build_up.batten_in - 0.3),
        "bolt": (passing(build_up)[1].arm_s_in + _TAB_LENGTH / 2, build_up.rail_under_in - 0.5),
    }
