"""Hatching fills its polygon, leaves its holes and keeps to one grid."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import union_all
from shapely.geometry import Polygon

from planset.drawing.geometry import Box
from planset.drawing.hatching import hatch, outside
from planset.drawing.primitives import Line
from tests.drawing.shapes import line_shape

LAYER = "F-ROOF-ACCS-PATT"
SQUARE = Box(0, 0, 10, 10).corners
# The line y = 5 touches the lower of two peaks and crosses the other.
PEAKS = ((0, 0), (10, 0), (10, 10), (6, 10), (6, 3), (4, 5), (2, 3))

angles = st.sampled_from([0.0, 30.0, 45.0, 90.0, -45.0, 137.0])


@st.composite
def stars(draw: st.DrawFn) -> Polygon:
    """Polygons with corners at any distance round a middle, most of them not convex."""
    count = draw(st.integers(3, 9))
    reach = draw(st.lists(st.floats(2, 12), min_size=count, max_size=count))
    turns = [2 * math.pi * n / count for n in range(count)]
    return Polygon([(r * math.cos(t), r * math.sin(t)) for r, t in zip(reach, turns, strict=True)])


def corners(area: Polygon) -> tuple[tuple[float, float], ...]:
    return tuple((x, y) for x, y in area.exterior.coords[:-1])


def level(line: Line, angle_deg: float) -> float:
    """How far a line lies to the left of the direction through the origin."""
    angle = math.radians(angle_deg)
    return line.a[1] * math.cos(angle) - line.a[0] * math.sin(angle)


@given(stars(), st.floats(0.4, 3), angles)
def test_lines_lie_inside_and_fill_the_polygon(area: Polygon, spacing: float, angle: float) -> None:
    made = hatch(corners(area), spacing, angle, LAYER)
    grown = area.buffer(1e-6)
    shapes = [line_shape(line) for line in made]
    assert all(grown.covers(shape) for shape in shapes)
    covered = sum(shape.length for shape in shapes) * spacing
    # A line stands for half a spacing to each side of it: off by the outline's length at most.
    assert covered == pytest.approx(area.area, abs=area.length * spacing)
    unfilled = area.buffer(-spacing).difference(union_all(shapes).buffer(spacing))
    assert unfilled.is_empty


@given(stars(), st.floats(0.4, 3), angles)
def test_all_lines_are_on_one_grid(area: Polygon, spacing: float, angle: float) -> None:
    made = hatch(corners(area), spacing, angle, LAYER)
    for line in made:
        steps = level(line, angle) / spacing
        assert steps == pytest.approx(round(steps), abs=1e-6)
        turn = math.degrees(math.atan2(line.b[1] - line.a[1], line.b[0] - line.a[0])) - angle
        assert math.sin(math.radians(turn)) == pytest.approx(0, abs=1e-6)


# A hole's edge and a hatch line that all but coincide may fall either way: keep them apart.
places = st.integers(-300, 300).map(lambda hundredths: hundredths / 100 + 0.003)


@given(places, places, angles)
def test_a_hole_stays_free(x: float, y: float, angle: float) -> None:
    hole = Box(x + 4, y + 4, x + 6, y + 6)
    made = hatch(SQUARE, 0.5, angle, LAYER, (hole.corners,))
    inside = Polygon(hole.corners).buffer(-1e-6)
    assert all(line_shape(line).disjoint(inside) for line in made)
    whole = hatch(SQUARE, 0.5, angle, LAYER)
    length = sum(line_shape(line).difference(inside).length for line in whole)
    assert sum(line_shape(line).length for line in made) == pytest.approx(length, abs=1e-3)


def test_a_line_that_touches_a_corner_is_not_lost() -> None:
    made = hatch(PEAKS, 1.0, 0.0, LAYER)
    through = [line for line in made if line.a[1] == 5]
    assert sum(line_shape(line).length for line in through) == pytest.approx(4)


def test_a_corner_alone_makes_no_line() -> None:
    triangle = ((0.0, 0.0), (4.0, 0.0), (2.0, 2.0))
    assert all(line_shape(line).length > 0 for line in hatch(triangle, 1.0, 0.0, LAYER))


def test_a_polygon_between_two_lines_stays_empty() -> None:
    assert hatch(Box(0, 0.2, 5, 0.8).corners, 1.0, 0.0, LAYER) == ()


def test_every_line_of_the_grid_is_drawn() -> None:
    made = hatch(Box(0, 0.5, 4, 4.5).corners, 1.0, 0.0, LAYER)
    assert [line.a[1] for line in made] == pytest.approx([1, 2, 3, 4])
    assert [line_shape(line).length for line in made] == pytest.approx([4] * 4)


def test_neighbors_read_as_one_field() -> None:
    left, right = Box(0, 0, 5, 8), Box(5, 0, 9, 8)
    levels = [
        {round(level(line, 45.0), 6) for line in hatch(box.corners, 0.7, 45.0, LAYER)}
        for box in (left, right)
    ]
    shared = {round(n * 0.7, 6) for n in range(-20, 20)}
    assert levels[0] <= shared
    assert levels[1] <= shared


def test_lines_are_left_out_in_holes_and_scraps_of_them_dropped() -> None:
    lines = [Line((0, y), (10, y), LAYER) for y in (1.0, 5.0, 9.0)]
    holes = [Box(2, 4, 4, 6).corners, Box(4.2, 4, 9.9, 6).corners]
    assert outside(lines, holes, 0.3) == [lines[0], Line((0, 5), (2, 5), LAYER), lines[2]]
    assert len(outside(lines, holes, 0.15)) == 4  # the 0.2 in between the holes is kept
    assert outside(lines, [], 0.3) == lines
