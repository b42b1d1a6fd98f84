"""The grid of taken cells, held against shapely."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st
from shapely import MultiLineString, union_all
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from planset.drawing.geometry import Box, Point
from planset.drawing.occupancy import CELL, Occupancy
from tests.drawing.shapes import box_shape

AREA = Box(1.0, 2.0, 3.0, 3.4)
NOISE = 1e-6
REACH = CELL * math.sqrt(2) + NOISE  # what is farther off can't share a cell

# On and beside the lines of the grid, inside and outside of the area.
xs = st.one_of(st.floats(0.5, 3.5), st.integers(0, 150).map(lambda n: 0.8 + n * CELL))
ys = st.one_of(st.floats(1.5, 4.0), st.integers(0, 120).map(lambda n: 1.8 + n * CELL))
points = st.tuples(xs, ys)
paths = st.lists(points, min_size=2, max_size=5, unique=True)


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    x0, y0 = draw(points)
    return Box(x0, y0, x0 + draw(st.floats(0.001, 2)), y0 + draw(st.floats(0.001, 2)))


def marked(
    taken_boxes: list[Box], taken_paths: list[list[Point]]
) -> tuple[Occupancy, BaseGeometry]:
    """A grid with things marked, and the same things as one shape."""
    grid = Occupancy(AREA)
    for box in taken_boxes:
        grid.mark_box(box)
    for path in taken_paths:
        grid.mark_path(path)
    shapes: list[BaseGeometry] = [box_shape(box) for box in taken_boxes]
    shapes += [LineString(path) for path in taken_paths]
    return grid, union_all(shapes)


def agrees(free: bool, asked: BaseGeometry, taken: BaseGeometry) -> bool:
    """Free when nothing is within a cell, taken when something is met; between these, either."""
    if taken.is_empty or asked.distance(taken) > REACH:
        return free
    met = asked.intersection(taken).intersects(box_shape(AREA.grown(-NOISE)))
    return not (free and met)


@given(st.lists(boxes(), max_size=4), st.lists(paths, max_size=4), boxes())
def test_boxes_are_free_where_nothing_is(
    taken_boxes: list[Box], taken_paths: list[list[Point]], asked: Box
) -> None:
    grid, taken = marked(taken_boxes, taken_paths)
    assert agrees(grid.box_is_free(asked), box_shape(asked), taken)


@given(st.lists(boxes(), max_size=4), st.lists(paths, max_size=4), paths)
def test_paths_are_free_where_nothing_is(
    taken_boxes: list[Box], taken_paths: list[list[Point]], asked: list[Point]
) -> None:
    grid, taken = marked(taken_boxes, taken_paths)
    free = grid.path_is_free(asked)
    shape = MultiLineString([pair for pair in zip(asked, asked[1:], strict=False)])
    assert agrees(free, shape, taken)


@given(st.lists(boxes(), max_size=4), st.lists(paths, max_size=4), boxes())
def test_rows_and_columns_asked_apart_have_the_same_answer(
    taken_boxes: list[Box], taken_paths: list[list[Point]], asked: Box
) -> None:
    grid, _ = marked(taken_boxes, taken_paths)
    taken, columns = (
        grid.taken_between(asked.y0, asked.y1),
        grid.columns_between(asked.x0, asked.x1),
    )
    assert (not taken & columns) == grid.box_is_free(asked)


@given(paths)
def test_a_path_is_never_free_of_itself(path: list[Point]) -> None:
    grid = Occupancy(AREA)
    grid.mark_path(path)
    inside = LineString(path).intersection(box_shape(AREA.grown(-NOISE)))
    if not inside.is_empty:
        assert not grid.path_is_free(path)


def test_nothing_is_taken_at_first() -> None:
    grid = Occupancy(AREA)
    assert grid.box_is_free(AREA)
    assert grid.path_is_free(AREA.corners)


def test_what_lies_outside_does_not_count() -> None:
    grid = Occupancy(AREA)
    grid.mark_box(Box(5, 5, 6, 6))
    grid.mark_path(((0, 0), (0.5, 9)))
    assert grid.box_is_free(AREA)
    grid.mark_box(AREA)
    assert grid.box_is_free(Box(5, 5, 6, 6))
    assert grid.path_is_free(((0, 0), (0.5, 9)))


def test_a_line_takes_the_cells_its_ends_lie_in() -> None:
    grid = Occupancy(Box(0, 0, 2, 1))
    grid.mark_path(((0.5199, 0.51), (1.0201, 0.51)))
    assert not grid.box_is_free(Box(0.505, 0.505, 0.515, 0.515))
    assert not grid.box_is_free(Box(1.025, 0.505, 1.035, 0.515))
    assert grid.box_is_free(Box(0.4, 0.505, 0.495, 0.515))
    assert grid.box_is_free(Box(1.045, 0.505, 1.1, 0.515))


def test_a_line_a_hair_off_level_is_no_trouble() -> None:
    grid = Occupancy(Box(0, 0, 2, 1))
    grid.mark_path(((0.0, 0.0), (2.0, 5e-324)))
    assert not grid.box_is_free(Box(1.0, 0.0, 1.1, 0.1))
    assert grid.box_is_free(Box(0.0, 0.5, 2.0, 1.0))
