"""Dimensions and leaders, computed once so that every format draws the same lines.

Proportions in plotted inches follow building practice: unbroken line, figure above it, 45 degree
ticks, extension lines with a gap at the object and a short overrun.
"""

from __future__ import annotations

import math

from planset.drawing.geometry import Point, direction_deg, distance, offset_left, readable, toward
from planset.drawing.primitives import Area, Circle, Dimension, Leader, Line, Text
from planset.drawing.text import text_width
from planset.units import Rounding, format_feet_inches

TEXT_HEIGHT = 0.096
FIRST_OFFSET = 3 / 8  # first dimension line from the object
NEXT_OFFSET = 5 / 16  # from one dimension line to the next
EXTENSION_GAP = 1 / 16
EXTENSION_OVERRUN = 3 / 32
TICK_REACH = 1 / 16  # of a tick, to each side of the point it marks, along the tick
TEXT_GAP = 3 / 64  # between figure and dimension line
OVERRUN = 1 / 16  # of the dimension line past its ends

ARROW_LENGTH = 1 / 8
_ARROW_HALF_WIDTH = ARROW_LENGTH / 6
DOT_RADIUS = 0.03

ON_SLOPE = "ON SLOPE"


def dimension(
    a: Point,
    b: Point,
    offset: float,
    layer: str,
    model_per_paper: float,
    *,
    slope_factor: float = 1.0,
    rounding: Rounding = "nearest",
    denominator: int = 2,
    suffix: str = "",
    beyond: str = "b",
    share: float = 0.5,
) -> Dimension:
    """A dimension of the distance from a to b, on a line `offset` to the left of a to b.

    Args:
        a: First point on paper [in].
        b: Second point on paper [in].
        offset: Distance of the dimension line from a-b; negative to the right [in].
        layer: Layer of its marks.
        model_per_paper: Scale factor of the view, unitless.
        slope_factor: Over 1 when a-b runs up a roof slope seen in plan: the figure then states
            the distance on the plane and says so.
        rounding: "nearest", "down" for what is available, "up" for what is required.
        denominator: Fractions of an inch in the figure.
        suffix: Words after the figure.
        beyond: Past which end, "a" or "b", a figure wider than its line stands.
        share: Part of the way from a to b at which the middle of a narrower figure stands, as far
            as its line reaches.

    Raises:
        ValueError: The two points are one.
    """
    if a == b:
        msg = f"nothing to dimension between {a} and {b}; give two points that are apart"
        raise ValueError(msg)
    value = distance(a, b) * model_per_paper * slope_factor
    figure = format_feet_inches(value, denominator=denominator, rounding=rounding)
    text = " ".join(part for part in (figure, ON_SLOPE if slope_factor > 1 else "", suffix) if part)
    dx, dy = offset_left(a, b, offset)
    line_a, line_b = (a[0] + dx, a[1] + dy), (b[0] + dx, b[1] + dy)
    label, text_at = _figure(line_a, line_b, text, layer, beyond, share)
    marks: tuple[Line | Text, ...] = (*_lines(a, b, line_a, line_b, layer), label)
    return Dimension(
        a, b, line_a, line_b, text, text_at, TEXT_HEIGHT, layer, value, slope_factor, marks
    )


def row_offset(number: int) -> float:
    """How far outside of an object the line of a dimension lies, counted from 0 [paper in]."""
    return FIRST_OFFSET + number * NEXT_OFFSET


def run_together(one: Dimension, other: Dimension) -> bool:
    """Whether the lines of two dimensions lie in each other, so that neither could be read."""
    a, b = one.line_a, one.line_b
    length = distance(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    ends = [(x - a[0], y - a[1]) for x, y in (other.line_a, other.line_b)]
    if any(abs(dx * uy - dy * ux) > TICK_REACH for dx, dy in ends):
        return False
    low, high = sorted(dx * ux + dy * uy for dx, dy in ends)
    return min(high, length) - max(low, 0.0) > TICK_REACH


def _lines(a: Point, b: Point, line_a: Point, line_b: Point, layer: str) -> list[Line]:
    marks = [Line(toward(line_a, line_b, -OVERRUN), toward(line_b, line_a, -OVERRUN), layer)]
    for start, end in ((a, line_a), (b, line_b)):
        if distance(start, end) > EXTENSION_GAP:
            near = toward(start, end, EXTENSION_GAP)
            far = toward(end, start, -EXTENSION_OVERRUN)
            marks.append(Line(near, far, layer))
    angle = math.radians(direction_deg(line_a, line_b) + 45)
    dx, dy = math.cos(angle) * TICK_REACH, math.sin(angle) * TICK_REACH
    marks += [Line((x - dx, y - dy), (x + dx, y + dy), layer) for x, y in (line_a, line_b)]
    return marks


def _figure(
    line_a: Point, line_b: Point, text: str, layer: str, beyond: str, share: float
) -> tuple[Text, Point]:
    """The figure above its line, read from the bottom or the right of the sheet."""
    past, back = (line_a, line_b) if beyond == "a" else (line_b, line_a)
    width, length = text_width(text, TEXT_HEIGHT), distance(line_a, line_b)
    if width + 2 * TICK_REACH > length:
        middle = toward(past, back, -(width / 2 + 1.5 * TICK_REACH))
    else:
        least = width / 2 + TICK_REACH
        middle = toward(line_a, line_b, min(max(share * length, least), length - least))
    line_a, line_b = readable(line_a, line_b)
    lift = TEXT_GAP + TEXT_HEIGHT / 2
    dx, dy = offset_left(line_a, line_b, lift)
    at = (middle[0] + dx, middle[1] + dy)
    return Text(text, at, TEXT_HEIGHT, layer, "middle", direction_deg(line_a, line_b)), at


def leader(points: tuple[Point, ...], layer: str, *, end: str = "arrow", names: str = "") -> Leader:
    """A leader along `points`, ending with an arrow on an edge or a dot on a surface.

    Args:
        points: From the note to the thing, at least two [paper in].
        layer: Layer of its marks.
        end: "arrow" or "dot".
        names: Id of the thing it ends on.
    """
    marks: list[Line | Area | Circle] = [
        Line(a, b, layer) for a, b in zip(points, points[1:], strict=False)
    ]
    tip, before = points[-1], points[-2]
    if end == "dot":
        marks.append(Area(_round(tip, DOT_RADIUS), layer))
    else:
        foot = toward(tip, before, ARROW_LENGTH)
        dx, dy = offset_left(tip, before, _ARROW_HALF_WIDTH)
        corners = (tip, (foot[0] + dx, foot[1] + dy), (foot[0] - dx, foot[1] - dy))
        marks.append(Area(corners, layer))
    return Leader(points, layer, end, tuple(marks), names)


def _round(center: Point, radius: float) -> tuple[Point, ...]:
    steps = 12
    return tuple(
        (
            center[0] + radius * math.cos(2 * math.pi * n / steps),
            center[1] + radius * math.sin(2 * math.pi * n / steps),
        )
        for n in range(steps)
    )
