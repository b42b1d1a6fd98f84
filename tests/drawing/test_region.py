"""Outlines of neighboring parts of a plan, each stretch drawn once."""

from __future__ import annotations

from itertools import pairwise
from math import dist

from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.geometry import Box, Point
from planset.drawing.region import outlines_once


def length(lines: list[tuple[Point, ...]]) -> float:
    return sum(dist(a, b) for line in lines for a, b in pairwise(line))


def test_a_shared_side_is_drawn_once() -> None:
    left, right = Box(0, 0, 10, 20), Box(10, 0, 25, 20)
    assert length(outlines_once([left.corners, right.corners])) == 2 * 25 + 3 * 20


def test_one_that_meets_no_other_is_closed() -> None:
    (line,) = outlines_once([Box(0, 0, 3, 2).corners])
    assert line[0] == line[-1]
    assert len(line) == 5


def test_sides_that_meet_in_part_or_within_the_noise_of_sums_are_one() -> None:
    tall, low = Box(0, 0, 10, 20), Box(0.1 * 100 + 1e-9, 5, 30, 12)
    assert abs(length(outlines_once([tall.corners, low.corners])) - (60 + 20 + 20 + 7)) < 1e-3


@given(st.lists(st.integers(1, 40), min_size=1, max_size=4),
       st.lists(st.integers(1, 40), min_size=1, max_size=4))  # fmt: skip
def test_a_grid_of_boxes_is_its_lines(widths: list[int], heights: list[int]) -> None:
    xs = [sum(widths[:n]) for n in range(len(widths) + 1)]
    ys = [sum(heights[:n]) for n in range(len(heights) + 1)]
    boxes = [Box(x0, y0, x1, y1) for x0, x1 in pairwise(xs) for y0, y1 in pairwise(ys)]
    drawn = outlines_once([box.corners for box in boxes])
    assert abs(length(drawn) - (len(xs) * ys[-1] + len(ys) * xs[-1])) < 1e-6
