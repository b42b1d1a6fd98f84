"""Courses of curved tile, in both sections of a detail.

Block frame along the slope: s from the nose of the course that the attachment leaves over.
"""

from __future__ import annotations

import math

from planset.design.buildup import TileCourse
from planset.design.post_courses import BATTEN_WIDTH_IN
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Line, Polyline, Primitive
from planset.job.covering import CurvedTile
from planset.sheets.details.detail import Detail
from planset.sheets.details.sketch import (
    BEYOND,
    CUT,
    HIDDEN,
    Note,
    Sketch,
    framing_lumber,
    rectangle,
)
from planset.sheets.words import inches

_STEPS_PER_PAN = 24


def tile_and_course(detail: Detail) -> tuple[CurvedTile, TileCourse]:
    """The tile of a detail, and how its courses lie.

    Raises:
        ValueError: The roof has another covering.
    """
    course = detail.build_up.course
    if course is None or not isinstance(detail.covering, CurvedTile):
        msg = f"the roof is covered with {detail.covering.kind}"
        raise ValueError(msg)
    return detail.covering, course


def along_courses(
    detail: Detail,
    left: float,
    right: float,
    opening: tuple[float, float],
    notch: float | None,
    plate: tuple[float, float] = (0.0, 0.0),
) -> Sketch:
    """Courses cut in the pan, their covers beyond, battens at their heads.

    Args:
        detail: The detail.
        left: Lower end of the section [model in].
        right: Upper end [model in].
        opening: Where courses are cut for an attachment; empty when both are alike.
        notch: To where the course above is notched, None where it is whole.
        plate: Where a plate lies that no batten may be under; empty when both are alike.
    """
    tile, course = tile_and_course(detail)
    built = detail.build_up
    made: list[Primitive] = []
    first = math.floor((left - course.length_in) / course.exposure_in) + 1
    for number in range(first, math.ceil(right / course.exposure_in)):
        nose = number * course.exposure_in
        head = nose + course.length_in
        cut = notch is not None and number == 1
        start, end = max(notch if cut and notch else nose, left), min(head, right)
        pieces = [(start, end)]
        if start < opening[1] and end > opening[0]:
            pieces = [(a, b) for a, b in ((start, opening[0]), (opening[1], end)) if b > a]
        made += [
            _pan(course, nose, a, b, CUT, closed=b < right or head <= right) for a, b in pieces
        ]
        if cut and notch:
            made.append(_pan(course, nose, nose, notch, HIDDEN, closed=True))
        if head <= right:
            made += _batten(
                Box(head - BATTEN_WIDTH_IN, built.underlayment_in, head, built.batten_in), plate
            )
        made += _cover(course, nose, left, min(nose + course.exposure_in, right))
    near_right = right - 1.0
    over_nose = near_right % course.exposure_in
    batten = (course.length_in - course.exposure_in - BATTEN_WIDTH_IN, built.batten_in - 0.3)
    words = (
        f"{tile.material.upper()}, {inches(tile.length)} LONG, {inches(tile.thickness)} THICK, "
        f"LAID {inches(tile.exposure)} TO THE COURSE"
    )
    beyond = f"TILE COVER BEYOND, {inches(tile.rise)} ABOVE THE PAN"
    notes = (
        Note(words, (near_right, course.pan_top_in(over_nose))),
        Note(beyond, (2.5, course.pan_top_in(2.5) + course.rise_in)),
        Note(_batten_words(detail, plate), batten),
    )
    return Sketch(tuple(made), notes)


def _batten(box: Box, plate: tuple[float, float]) -> list[Primitive]:
    """A batten cut across; where a plate meets it, the outline of what is cut out."""
    if box.x0 < plate[1] and box.x1 > plate[0]:
        return [rectangle(box, HIDDEN)]
    return framing_lumber(box)


def _batten_words(detail: Detail, plate: tuple[float, float]) -> str:
    tile, _ = tile_and_course(detail)
    words = f"BATTEN {inches(tile.batten)}"
    cut = ", WHERE A PLATE MEETS IT CUT OUT AND BLOCKED TO THE DECK ON BOTH SIDES"
    return words + cut if plate[1] > plate[0] else words


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


def across_tile(detail: Detail, half: float, s_in: float, opening: float) -> Sketch:
    """The tile's S from pan to cover to pan, a pan in its middle.

    Args:
        detail: The detail.
        half: To either side [model in].
        s_in: Where up the course it is cut [in].
        opening: Half of the hole in the middle, 0 for none [model in].
    """
    _, course = tile_and_course(detail)
    made: list[Primitive] = []
    for level in (course.underside_in(s_in), course.pan_top_in(s_in)):
        if opening:
            made += [
                Polyline(wave(detail, a, b, level), CUT)
                for a, b in ((-half, -opening), (opening, half))
            ]
        else:
            made.append(Polyline(wave(detail, -half, half, level), CUT))
    return Sketch(tuple(made))


def wave(detail: Detail, start: float, end: float, low: float) -> tuple[Point, ...]:
    """Points along the S across the slope, its pans at a height."""
    tile, _ = tile_and_course(detail)
    steps = max(round((end - start) / tile.pan_pitch * _STEPS_PER_PAN), 1)
    return tuple(wave_at(tile, start + (end - start) * n / steps, low) for n in range(steps + 1))


def wave_at(tile: CurvedTile, x: float, low: float) -> Point:
    """A point of the S at x."""
    return (x, low + tile.rise / 2 * (1 - math.cos(2 * math.pi * x / tile.pan_pitch)))
