"""Clouds go around what they mark in even arcs that bulge outward; deltas hold their number."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.along_box import above_and_below, across, anywhere_in, beside, inside
from planset.drawing.flatten import course, rotated_text_box
from planset.drawing.geometry import Box, box_around, distance
from planset.drawing.primitives import Polyline
from planset.drawing.revision_marks import (
    CLOUD_LAYER,
    DELTA_HEIGHT,
    cloud,
    delta,
    delta_block,
    delta_box,
    delta_that_fits,
)
from planset.drawing.text import MINIMUM_HEIGHT

ROOM = Box(0.0, 0.0, 27.0, 22.0)  # the drawing area of a 24x36 sheet [in]
sides = st.floats(0.2, 12.0)
places = st.floats(0.5, 9.0)
boxes = st.builds(lambda x, y, w, h: Box(x, y, x + w, y + h), places, places, sides, sides)
sizes = st.sampled_from([1.0, 1.25])
numbers = st.integers(1, 99)


def area(drawn: Polyline) -> shapely.Polygon:
    """What a cloud goes around, its arcs as fine chords."""
    return shapely.Polygon(course(drawn, 1.0))


@given(boxes, sizes)
def test_a_cloud_encloses_what_it_marks(box: Box, size: float) -> None:
    drawn = cloud(box, ROOM, size)
    assert drawn.closed
    assert drawn.layer == CLOUD_LAYER
    assert area(drawn).is_valid  # it does not cross itself
    assert area(drawn).buffer(1e-6).contains(shapely.box(*box))


@given(boxes, sizes)
def test_every_arc_bulges_outward(box: Box, size: float) -> None:
    """The middle of each arc lies outside of the polygon of its ends."""
    drawn = cloud(box, ROOM, size)
    within = shapely.Polygon(drawn.points)
    assert len(drawn.bulges) == len(drawn.points)
    for (a, b), bulge in zip(pairwise([*drawn.points, drawn.points[0]]), drawn.bulges, strict=True):
        arc = course(Polyline((a, b), CLOUD_LAYER, bulges=(bulge, 0.0)), 1.0)
        off = shapely.Point(arc[len(arc) // 2]).distance(shapely.LineString([a, b]))
        assert off > 0.15 * distance(a, b)
        assert not within.contains(shapely.Point(arc[len(arc) // 2]))


@given(boxes, sizes)
def test_arcs_are_of_even_size(box: Box, size: float) -> None:
    points = cloud(box, ROOM, size).points
    chords = [distance(a, b) for a, b in pairwise([*points, points[0]])]
    assert max(chords) <= 1.4 * min(chords)
    assert 0.1 * size <= min(chords)
    assert max(chords) <= 0.32 * size


@given(boxes, sizes)
def test_a_cloud_keeps_to_its_room(box: Box, size: float) -> None:
    """Even one around what lies outside of it."""
    room = Box(3.0, 3.0, 6.0, 6.0)
    drawn = cloud(box, room, size)
    assert room.contains(box_around(course(drawn, 1.0)))
    assert area(drawn).is_valid


@given(numbers, st.floats(DELTA_HEIGHT, 0.5))
def test_the_number_stands_within_its_delta(number: int, height: float) -> None:
    """It is high enough to be read and touches none of the three sides."""
    made = delta(number, (2.0, 3.0), height)
    (outline,) = delta_block(number).primitives
    (carried,) = made.attributes
    assert isinstance(outline, Polyline)
    triangle = shapely.Polygon(
        [(2 + x * made.scale, 3 + y * made.scale) for x, y in outline.points]
    )
    assert (carried.tag, carried.value) == ("NUMBER", str(number))
    assert carried.tag in delta_block(number).attribute_tags
    assert made.block == delta_block(number).name
    assert carried.text is not None
    assert carried.text.height >= MINIMUM_HEIGHT - 1e-9
    words = shapely.box(*rotated_text_box(carried.text))
    assert triangle.contains(words)
    assert triangle.exterior.distance(words) > 0.007  # more than half a thin pen and a hair


@given(numbers)
def test_a_delta_covers_its_box(number: int) -> None:
    (outline,) = delta_block(number).primitives
    assert isinstance(outline, Polyline)
    assert delta_box(number, DELTA_HEIGHT) == pytest.approx(box_around(outline.points))


def test_a_delta_of_one_digit_has_three_equal_sides() -> None:
    (outline,) = delta_block(7).primitives
    assert isinstance(outline, Polyline)
    a, b, c = outline.points
    assert distance(a, b) == pytest.approx(distance(b, c)) == pytest.approx(distance(c, a))


@pytest.mark.parametrize(
    ("box", "height"),
    [
        (Box(0, 0, 0.77, 0.28), 0.28),
        (Box(0, 0, 0.77, 0.2), 0.0),  # the number would be too small to read
        (Box(0, 0, 0.2, 0.4), 0.0),
    ],
)
def test_which_delta_fits_a_field(box: Box, height: float) -> None:
    assert delta_that_fits(1, box) == pytest.approx(height)


@given(boxes, st.floats(0.1, 0.5), st.floats(0.1, 0.5))
def test_places_along_a_box(box: Box, width: float, height: float) -> None:
    size = Box(0.0, 0.0, width, height)
    around = [*beside(box, size), *above_and_below(box, size)]
    assert around
    for place in around:
        assert not box.grown(-1e-9).overlaps(place)
        assert box.grown(1e-9).overlaps(place)
        assert (place.width, place.height) == pytest.approx((width, height))
    for place in [*inside(box, size), *anywhere_in(box, size)]:
        assert box.contains(place)
    for place in across(box, size, 0.35):
        assert math.isclose(place.y0 + 0.35 * height, box.center[1])
        assert box.height <= height
