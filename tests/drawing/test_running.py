"""Running dimensions: every figure is the distance from the one datum."""

from __future__ import annotations

import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing import primitives
from planset.drawing.dimension import ON_SLOPE
from planset.drawing.geometry import Point, distance
from planset.drawing.running import running_dimensions
from planset.units import parse_length
from tests.drawing.shapes import line_shape, of_kind, text_shape

LAYER = "A-ANNO-DIMS"
SCALE = 48.0
DATUM = (2.0, 2.0)

# Places along the tape, at least a figure's height apart, as attachments and rails are.
stations = st.lists(st.integers(1, 40), min_size=1, max_size=8, unique=True).map(
    lambda steps: [step * 0.25 for step in steps]
)
directions = st.sampled_from([0.0, 90.0, 180.0, 270.0])
offsets = st.sampled_from([0.4, -0.4])


def at(along: float, degrees: float) -> Point:
    angle = math.radians(degrees)
    return (DATUM[0] + along * math.cos(angle), DATUM[1] + along * math.sin(angle))


def figures(made: tuple[primitives.Dimension, ...]) -> list[primitives.Text]:
    return [text for part in made for text in of_kind(part.marks, primitives.Text)]


@given(stations, directions, offsets, st.floats(1.0, 1.4))
def test_figures_are_distances_from_the_datum(
    stations: list[float], degrees: float, offset: float, slope: float
) -> None:
    points = [at(along, degrees) for along in stations]
    made = running_dimensions(DATUM, points, offset, LAYER, SCALE, slope_factor=slope)
    assert [part.a for part in made] == [DATUM] * len(points)
    assert [part.b for part in made] == sorted(points, key=lambda point: distance(DATUM, point))
    for part, along in zip(made, sorted(stations), strict=True):
        assert part.value_in == pytest.approx(along * SCALE * slope)
        printed = parse_length(part.text.removesuffix(ON_SLOPE).strip())
        assert printed == pytest.approx(part.value_in, abs=1 / 32 + 1e-9)
        assert part.on_slope == (ON_SLOPE in part.text) == (slope > 1)


@given(stations, directions, offsets)
def test_figures_read_from_the_bottom_or_the_right_and_keep_apart(
    stations: list[float], degrees: float, offset: float
) -> None:
    points = [at(along, degrees) for along in stations]
    texts = figures(running_dimensions(DATUM, points, offset, LAYER, SCALE))
    assert len(texts) == len(points)
    assert all(-90 < text.rotation_deg <= 90 + 1e-9 for text in texts)
    shapes = [text_shape(text).buffer(-1e-6) for text in texts]
    assert not any(one.intersects(other) for one, other in combinations(shapes, 2))


@given(stations, directions, offsets)
def test_figures_lie_on_no_line(stations: list[float], degrees: float, offset: float) -> None:
    points = [at(along, degrees) for along in stations]
    made = running_dimensions(DATUM, points, offset, LAYER, SCALE)
    lines = [line_shape(line) for part in made for line in of_kind(part.marks, primitives.Line)]
    for text in figures(made):
        shape = text_shape(text).buffer(-1e-6)
        assert all(shape.disjoint(line) for line in lines)


def test_the_datum_is_marked_once() -> None:
    made = running_dimensions(DATUM, [at(1, 0), at(3, 0), at(2, 0)], 0.4, LAYER, SCALE)
    circles = [mark for part in made for mark in of_kind(part.marks, primitives.Circle)]
    assert [circle.center for circle in circles] == [(2.0, 2.4)]


def test_arrows_run_on_from_point_to_point() -> None:
    made = running_dimensions(DATUM, [at(1, 0), at(3, 0)], 0.4, LAYER, SCALE)
    tips = [of_kind(part.marks, primitives.Area)[0].points[0] for part in made]
    assert tips == [part.line_b for part in made] == [(3.0, 2.4), (5.0, 2.4)]


def test_figures_stand_along_the_line_where_there_is_room() -> None:
    wide = running_dimensions(DATUM, [at(2, 0), at(4, 0)], 0.4, LAYER, SCALE)
    tight = running_dimensions(DATUM, [at(2, 0), at(2.2, 0)], 0.4, LAYER, SCALE)
    assert [text.rotation_deg for text in figures(wide)] == [0.0, 0.0]
    assert [text.rotation_deg for text in figures(tight)] == pytest.approx([90.0, 90.0])
