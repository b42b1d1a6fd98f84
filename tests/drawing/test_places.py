"""Places for a box, all at once: the same as those asked about one by one, nearest first."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.geometry import Box
from planset.drawing.occupancy import CELL, Occupancy
from planset.drawing.places import Places
from planset.drawing.steps import STEP, Steps, steps_around

AREA = Box(1.0, 2.0, 3.0, 3.4)

# On and beside the lines of the grid.
_xs = st.one_of(st.floats(1.0, 3.0), st.integers(0, 100).map(lambda n: 1.0 + n * CELL))
_ys = st.one_of(st.floats(2.0, 3.4), st.integers(0, 70).map(lambda n: 2.0 + n * CELL))
_points = st.tuples(_xs, _ys)
_sizes = st.one_of(st.floats(0.0, 0.9), st.integers(0, 45).map(lambda n: n * CELL))
_strides = st.integers(1, 2)


def every_one(steps: Steps) -> list[tuple[int, int]]:
    return [*steps.first, *steps.after_first(np.ones(len(steps), np.bool_))]


@given(
    st.lists(st.tuples(_points, _points), max_size=6),
    _sizes,
    _sizes,
    _points,
    st.floats(0.1, 1.5),
    _strides,
    st.sampled_from((0.0, 0.01, 0.03)),
)
def test_the_places_found_are_those_free_one_by_one(
    lines: list[tuple[tuple[float, float], tuple[float, float]]],
    width: float,
    height: float,
    anchor: tuple[float, float],
    reach: float,
    stride: int,
    clear: float,
) -> None:
    occupancy = Occupancy(AREA)
    for line in lines:
        occupancy.mark_path(line)
    steps = steps_around(width, height, reach, stride)
    places = Places(occupancy, Box(0, 0, width, height), steps, AREA, anchor, clear)

    def is_free(across: int, up: int) -> bool:
        x, y = anchor[0] + across * STEP, anchor[1] + up * STEP
        box = Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
        return AREA.contains(box, tolerance=0.0) and occupancy.box_is_free(box.grown(clear))

    free = [step for step in every_one(steps) if is_free(*step)]
    assert [
        (round((box.center[0] - anchor[0]) / STEP), round((box.center[1] - anchor[1]) / STEP))
        for box in places.free()
    ] == free
    assert places.any_free == bool(free)


@given(_sizes, _sizes, st.floats(0.05, 1.5), _strides)
def test_steps_that_bring_the_box_nearest_go_first(
    width: float, height: float, reach: float, stride: int
) -> None:
    def rank(step: tuple[int, int]) -> tuple[float, int, int, int]:
        across, up = step
        beside = max(abs(across) * STEP - width / 2, 0.0)
        over = max(abs(up) * STEP - height / 2, 0.0)
        return (round(math.hypot(beside, over), 3), abs(across) + abs(up), across, -up)

    columns, rows = (int((reach + size / 2) / STEP) // stride * stride for size in (width, height))
    every = product(range(-columns, columns + 1, stride), range(-rows, rows + 1, stride))
    steps = steps_around(width, height, reach, stride)
    assert every_one(steps) == sorted(every, key=rank)
