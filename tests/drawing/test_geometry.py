"""Boxes and placements."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.geometry import (
    Box,
    Placement,
    Point,
    box_around,
    direction_deg,
    distance,
    offset_left,
    toward,
    united,
)
from tests.drawing.shapes import box_shape

coordinates = st.floats(-1000, 1000)
points = st.tuples(coordinates, coordinates)
placements = st.builds(Placement, points, st.floats(-360, 360), st.floats(0.01, 100))
whole = st.integers(-5, 5)


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    """Boxes on whole inches, so that many touch."""
    x0, y0 = draw(whole), draw(whole)
    return Box(x0, y0, x0 + draw(st.integers(1, 5)), y0 + draw(st.integers(1, 5)))


def test_a_placement_scales_then_turns_then_moves() -> None:
    placed = Placement((10.0, 20.0), 90.0, 2.0)
    assert placed.apply((1.0, 0.0)) == pytest.approx((10.0, 22.0))
    assert placed.apply((0.0, 1.0)) == pytest.approx((8.0, 20.0))


@given(placements, placements, points)
def test_within_is_one_placement_after_the_other(
    inner: Placement, outer: Placement, point: Point
) -> None:
    step_by_step = outer.apply(inner.apply(point))
    assert inner.within(outer).apply(point) == pytest.approx(step_by_step, rel=1e-6, abs=1e-4)


@given(placements, st.lists(points))
def test_points_are_placed_together_as_one_by_one(placement: Placement, many: list[Point]) -> None:
    assert placement.apply_all(many) == tuple(placement.apply(point) for point in many)


@given(placements, points, points)
def test_a_placement_keeps_shapes(placement: Placement, a: Point, b: Point) -> None:
    placed = distance(placement.apply(a), placement.apply(b))
    assert placed == pytest.approx(distance(a, b) * placement.scale, rel=1e-6, abs=1e-6)


def test_the_placement_without_arguments_changes_nothing() -> None:
    assert Placement().apply((3.25, -7.5)) == (3.25, -7.5)


@given(boxes(), boxes())
def test_overlap_and_containment_are_those_of_the_rectangles(a: Box, b: Box) -> None:
    shape, other = box_shape(a), box_shape(b)
    assert a.overlaps(b) == (shape.intersection(other).area > 0)
    assert a.contains(b) == shape.covers(other)


@given(boxes(), boxes())
def test_united_is_the_smallest_box_that_holds_both(a: Box, b: Box) -> None:
    assert united([a, b]) == Box(*(box_shape(a) | box_shape(b)).bounds)


def test_sizes_of_a_box() -> None:
    box = Box(1.0, 2.0, 4.0, 8.0)
    assert (box.width, box.height, box.center) == (3.0, 6.0, (2.5, 5.0))
    assert box.corners == ((1, 2), (4, 2), (4, 8), (1, 8))
    assert box.grown(1.0) == Box(0, 1, 5, 9)
    assert box.moved(1.0, -1.0) == Box(2, 1, 5, 7)
    assert box_around([(4, 2), (1, 8), (3, 3)]) == box


def test_no_box_around_nothing() -> None:
    with pytest.raises(ValueError, match="at least one point"):
        box_around([])


@given(points, points, st.floats(-100, 100))
def test_toward_goes_so_far_in_the_direction(a: Point, b: Point, length: float) -> None:
    if distance(a, b) < 1e-3:
        return
    reached = toward(a, b, length)
    assert distance(a, reached) == pytest.approx(abs(length), abs=1e-6)
    along = (reached[0] - a[0]) * (b[0] - a[0]) + (reached[1] - a[1]) * (b[1] - a[1])
    assert along == pytest.approx(length * distance(a, b), rel=1e-6, abs=1e-4)


def test_toward_a_point_that_is_there_already() -> None:
    assert toward((1.0, 2.0), (1.0, 2.0), 5.0) == (1.0, 2.0)


@pytest.mark.parametrize(
    ("b", "left"),
    [((1, 0), (0, 2)), ((0, 1), (-2, 0)), ((-1, 0), (0, -2)), ((0, -3), (2, 0))],
)
def test_left_of_a_direction(b: Point, left: Point) -> None:
    assert offset_left((0.0, 0.0), b, 2.0) == pytest.approx(left)


@given(st.floats(-179.9, 180))
def test_directions_are_counterclockwise_from_the_right(degrees: float) -> None:
    angle = math.radians(degrees)
    assert direction_deg((3, 4), (3 + math.cos(angle), 4 + math.sin(angle))) == pytest.approx(
        degrees
    )
