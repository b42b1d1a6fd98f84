"""Dimensions: the figure, its words and place, ticks and extension lines."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point

from planset.drawing import primitives
from planset.drawing.dimension import (
    EXTENSION_GAP,
    EXTENSION_OVERRUN,
    ON_SLOPE,
    OVERRUN,
    TEXT_GAP,
    TEXT_HEIGHT,
    dimension,
    run_together,
)
from planset.drawing.geometry import distance, offset_left
from planset.drawing.text import MINIMUM_HEIGHT, text_width
from planset.units import FLOAT_NOISE_IN, Rounding, parse_length
from tests.drawing.shapes import line_shape, of_kind, text_shape

LAYER = "A-ANNO-DIMS"
PLAN = 64.0  # 3/16" = 1'-0"
TICK = 1 / 8  # whole length; common practice, no source

roundings = st.sampled_from(["nearest", "down", "up"])
denominators = st.sampled_from([1, 2, 4, 8, 16])


def across(length: float, offset: float = 0.5, **choices: Any) -> primitives.Dimension:
    """A dimension from the left to the right, its line above."""
    return dimension((1, 1), (1 + length, 1), offset, LAYER, PLAN, **choices)


def turned(degrees: float, length: float = 4.0, offset: float = 0.5) -> primitives.Dimension:
    angle = math.radians(degrees)
    end = (6 + length * math.cos(angle), 6 + length * math.sin(angle))
    return dimension((6, 6), end, offset, LAYER, PLAN)


def figure_of(made: primitives.Dimension) -> primitives.Text:
    (text,) = of_kind(made.marks, primitives.Text)
    return text


def lines_of(made: primitives.Dimension) -> list[primitives.Line]:
    return of_kind(made.marks, primitives.Line)


# --- the figure ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "choices", "text"),
    [
        (3.0, {}, "16'-0\""),
        (3.0, {"suffix": "IN PLAN"}, "16'-0\" IN PLAN"),
        (3.0, {"slope_factor": 13 / 12}, "17'-4\" ON SLOPE"),  # 5:12 lengthens 12 to 13
        (3.0, {"slope_factor": 13 / 12, "suffix": "CLEAR"}, "17'-4\" ON SLOPE CLEAR"),
        (3.0, {"slope_factor": 1.0}, "16'-0\""),
        (17.8 / PLAN, {"denominator": 2}, "1'-6\""),
        (17.8 / PLAN, {"denominator": 2, "rounding": "down"}, "1'-5 1/2\""),  # never 1'-6"
        (17.8 / PLAN, {"denominator": 16, "rounding": "up"}, "1'-5 13/16\""),
    ],
)
def test_the_figure(length: float, choices: dict[str, Any], text: str) -> None:
    made = across(length, **choices)
    assert made.text == figure_of(made).text == text
    assert made.on_slope == (ON_SLOPE in text)


def test_the_value_is_the_distance_on_the_plane() -> None:
    made = across(3.0, slope_factor=1.25)
    assert made.value_in == pytest.approx(3.0 * PLAN * 1.25)


@given(
    st.floats(0.01, 20), st.floats(1, 192), st.floats(1, 1.5), roundings, denominators, st.data()
)
def test_the_printed_figure_is_the_value_on_the_safe_side(
    length: float,
    scale: float,
    slope: float,
    rounding: Rounding,
    denominator: int,
    data: st.DataObject,
) -> None:
    x, y = data.draw(st.floats(-20, 20)), data.draw(st.floats(-20, 20))
    made = dimension(
        (x, y),
        (x, y + length),
        0.375,
        LAYER,
        scale,
        slope_factor=slope,
        rounding=rounding,
        denominator=denominator,
    )
    printed = parse_length(made.text.removesuffix(ON_SLOPE).strip())
    step = 1 / denominator
    assert abs(printed - made.value_in) <= (step / 2 if rounding == "nearest" else step) + 1e-6
    if rounding == "down":
        assert printed <= made.value_in + 2 * FLOAT_NOISE_IN
    if rounding == "up":
        assert printed >= made.value_in - 2 * FLOAT_NOISE_IN
    assert made.value_in == pytest.approx(length * scale * slope, rel=1e-6)


def test_two_points_that_are_one_are_refused() -> None:
    with pytest.raises(ValueError, match="two points that are apart"):
        dimension((1, 1), (1, 1), 0.5, LAYER, PLAN)


# --- where its figure stands along it -------------------------------------------------------


@given(st.floats(0.0, 1.0))
def test_a_figure_stands_at_its_share_of_the_line_or_as_near_as_fits(share: float) -> None:
    made = across(3.0, share=share)
    figure = figure_of(made)
    half = text_width(figure.text, figure.height) / 2
    least, most = made.line_a[0] + half, made.line_b[0] - half
    assert least < figure.at[0] < most
    wanted = made.line_a[0] + share * 3.0
    if least + 0.2 < wanted < most - 0.2:
        assert figure.at[0] == pytest.approx(wanted)


# --- where it stands -----------------------------------------------------------------------


@pytest.mark.parametrize("degrees", [*range(-180, 360, 15), 89.5, 90.5, -89.5, -90.5, 179.5])
def test_text_reads_from_the_bottom_or_the_right(degrees: float) -> None:
    """Upright, so a reader at the bottom or, for what runs up the sheet, at the right reads it."""
    turn = figure_of(turned(degrees)).rotation_deg
    assert -90 < turn <= 90 + 1e-6
    assert math.isclose(math.sin(math.radians(turn - degrees)), 0, abs_tol=1e-9), "along its line"


@pytest.mark.parametrize("degrees", range(-180, 360, 15))
@pytest.mark.parametrize("offset", [0.5, -0.5])
def test_the_figure_stands_above_its_line(degrees: int, offset: float) -> None:
    made = turned(degrees, offset=offset)
    text = figure_of(made)
    along = LineString([made.line_a, made.line_b])
    capitals = text_shape(text).distance(along)
    assert 0 < capitals <= TEXT_GAP, "near its line, on it with no part"
    up = math.radians(text.rotation_deg + 90)  # above, as one reads it
    foot = along.interpolate(along.project(Point(text.at)))
    rise = (text.at[0] - foot.x) * math.cos(up) + (text.at[1] - foot.y) * math.sin(up)
    assert rise == pytest.approx(TEXT_GAP + TEXT_HEIGHT / 2)
    assert text.at == made.text_at


@pytest.mark.parametrize("degrees", range(-180, 360, 15))
def test_a_figure_with_room_stands_in_the_middle(degrees: int) -> None:
    made = turned(degrees)
    along = LineString([made.line_a, made.line_b])
    assert along.project(Point(made.text_at)) == pytest.approx(along.length / 2)


@pytest.mark.parametrize("degrees", [0, 90, 180, 270, 30])
@pytest.mark.parametrize("beyond", ["a", "b"])
def test_a_figure_wider_than_its_line_stands_beyond_one_end(degrees: int, beyond: str) -> None:
    angle = math.radians(degrees)
    a, b = (6.0, 6.0), (6 + 0.2 * math.cos(angle), 6 + 0.2 * math.sin(angle))
    made = dimension(a, b, 0.5, LAYER, PLAN, beyond=beyond)
    near, far = (made.line_a, made.line_b) if beyond == "a" else (made.line_b, made.line_a)
    text = text_shape(figure_of(made))
    assert text_width(made.text, TEXT_HEIGHT) > 0.2
    assert text.distance(Point(near)) < text.distance(Point(far))
    ticks = [line_shape(line) for line in lines_of(made) if is_tick(line)]
    assert all(text.disjoint(tick) for tick in ticks)
    assert text.disjoint(LineString([made.line_a, made.line_b]))


@given(st.floats(0.02, 6), st.integers(0, 11), st.sampled_from([0.375, -0.375, 0.0]))
def test_no_line_of_a_dimension_runs_through_its_figure(
    length: float, step: int, offset: float
) -> None:
    made = turned(step * 30, length, offset)
    text = text_shape(figure_of(made)).buffer(-1e-6)
    assert all(text.disjoint(line_shape(line)) for line in lines_of(made))


def test_the_figure_is_large_enough_to_read() -> None:
    text = figure_of(across(3.0))
    assert text.height == TEXT_HEIGHT >= MINIMUM_HEIGHT
    assert text.layer == LAYER


# --- its lines -----------------------------------------------------------------------------


def is_tick(line: primitives.Line) -> bool:
    return math.isclose(distance(line.a, line.b), TICK)


@given(st.floats(0.3, 10), st.floats(-math.pi, math.pi), st.floats(-1, 1))
def test_the_line_is_parallel_to_what_it_measures(
    length: float, angle: float, offset: float
) -> None:
    made = turned(math.degrees(angle), length, offset)
    dx, dy = offset_left(made.a, made.b, offset)
    assert made.line_a == pytest.approx((made.a[0] + dx, made.a[1] + dy))
    assert made.line_b == pytest.approx((made.b[0] + dx, made.b[1] + dy))
    (first, *_) = lines_of(made)
    assert distance(first.a, first.b) == pytest.approx(length + 2 * OVERRUN)


def test_an_offset_to_the_left_is_up_for_a_line_to_the_right() -> None:
    assert across(3.0, 0.5).line_a == pytest.approx((1, 1.5))
    assert across(3.0, -0.5).line_a == pytest.approx((1, 0.5))


@pytest.mark.parametrize("degrees", range(0, 360, 30))
def test_ticks_slant_across_both_ends(degrees: int) -> None:
    made = turned(degrees)
    ticks = [line for line in lines_of(made) if is_tick(line)]
    assert len(ticks) == 2
    for tick, end in zip(ticks, (made.line_a, made.line_b), strict=True):
        assert ((tick.a[0] + tick.b[0]) / 2, (tick.a[1] + tick.b[1]) / 2) == pytest.approx(end)
        slant = math.degrees(math.atan2(tick.b[1] - tick.a[1], tick.b[0] - tick.a[0])) - degrees
        assert math.cos(math.radians(slant)) == pytest.approx(math.sqrt(0.5))


@pytest.mark.parametrize("offset", [0.5, -0.5, 1.25])
def test_extension_lines_leave_a_gap_and_run_on(offset: float) -> None:
    made = turned(20, offset=offset)
    extensions = [line for line in lines_of(made)[1:] if not is_tick(line)]
    assert len(extensions) == 2
    for line, point, end in zip(
        extensions, (made.a, made.b), (made.line_a, made.line_b), strict=True
    ):
        assert distance(point, line.a) == pytest.approx(EXTENSION_GAP)
        assert distance(point, line.b) == pytest.approx(abs(offset) + EXTENSION_OVERRUN)
        assert distance(line.b, end) == pytest.approx(EXTENSION_OVERRUN)


def test_a_line_at_the_object_needs_no_extension() -> None:
    assert len(lines_of(across(3.0, 0.0))) == 3  # its own line and two ticks


@given(st.floats(0.05, 10), st.floats(0, 6.28), st.floats(-1, 1))
def test_all_marks_are_on_the_layer(length: float, angle: float, offset: float) -> None:
    assume(length > 0)
    made = turned(math.degrees(angle), length, offset)
    assert {mark.layer for mark in made.marks} == {LAYER}
    assert re.fullmatch(r"(\d+'-)?\d+( \d/\d)?\"|\d/\d\"", made.text)


@pytest.mark.parametrize(
    ("start", "end", "height", "together"),
    [
        (2.0, 4.0, 0.0, True),  # over the middle of the other
        (0.0, 5.0, 0.0, True),  # the other lies within it
        (3.0, 5.0, 0.0, False),  # the next of a chain
        (2.0, 4.0, 0.2, False),  # in the next row
        (4.0, 2.0, 0.03, True),  # the other way around, too near to be told apart
    ],
)
def test_lines_run_together_where_they_lie_in_each_other(
    start: float, end: float, height: float, together: bool
) -> None:
    one = dimension((1, 1), (3, 1), 0.5, LAYER, PLAN)
    side = 0.5 if end > start else -0.5
    other = dimension((start, 1 + height), (end, 1 + height), side, LAYER, PLAN)
    assert run_together(one, other) is together
    assert run_together(other, one) is together
