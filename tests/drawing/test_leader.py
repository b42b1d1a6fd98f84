"""Leaders: from the note to the thing, an arrow on an edge or a dot on a surface."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from planset.drawing.dimension import ARROW_LENGTH, DOT_RADIUS, leader
from planset.drawing.geometry import distance
from planset.drawing.primitives import Area, Line
from tests.drawing.shapes import of_kind

LAYER = "A-ANNO-NOTE"
COURSE = ((1.0, 5.0), (1.5, 5.0), (3.0, 2.0))


@pytest.mark.parametrize("end", ["arrow", "dot"])
def test_a_leader_runs_along_its_points_to_the_thing(end: str) -> None:
    made = leader(COURSE, LAYER, end=end, names="SK1")
    assert [(line.a, line.b) for line in of_kind(made.marks, Line)] == [COURSE[:2], COURSE[1:]]
    assert (made.points, made.end, made.names) == (COURSE, end, "SK1")
    assert {mark.layer for mark in made.marks} == {made.layer} == {LAYER}


@given(st.floats(-6, 6), st.floats(-6, 6))
def test_an_arrow_points_at_the_thing(x: float, y: float) -> None:
    if distance((0, 0), (x, y)) < ARROW_LENGTH:
        return
    made = leader(((x, y), (0.0, 0.0)), LAYER)
    (head,) = of_kind(made.marks, Area)
    tip, *barbs = head.points
    assert tip == (0.0, 0.0)
    assert distance(*barbs) == pytest.approx(ARROW_LENGTH / 3)  # three times as long as wide
    foot = ((barbs[0][0] + barbs[1][0]) / 2, (barbs[0][1] + barbs[1][1]) / 2)
    assert distance(tip, foot) == pytest.approx(ARROW_LENGTH)
    assert distance(foot, (x, y)) == pytest.approx(distance(tip, (x, y)) - ARROW_LENGTH, abs=1e-6)


def test_a_dot_lies_round_the_place() -> None:
    (dot,) = of_kind(leader(COURSE, LAYER, end="dot").marks, Area)
    assert Polygon(dot.points).centroid.distance(Point(COURSE[-1])) < 1e-9
    assert [distance(corner, COURSE[-1]) for corner in dot.points] == pytest.approx(
        [DOT_RADIUS] * len(dot.points)
    )
