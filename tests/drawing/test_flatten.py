"""From primitives to strokes and words on paper."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.dimension import dimension, leader
from planset.drawing.flatten import SAGITTA, course, strokes, texts
from planset.drawing.geometry import Placement, distance
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import (
    Area,
    Attribute,
    Block,
    Circle,
    Insert,
    Line,
    Link,
    Polyline,
    Primitive,
    Text,
)

ON_PAPER = Placement()
OUTLINE, NOTE = "A-ROOF-OTLN", "A-ANNO-NOTE"


def test_straight_shapes_keep_their_points() -> None:
    triangle = ((0.0, 0.0), (4.0, 0.0), (0.0, 3.0))
    assert course(Line((0, 0), (1, 2), OUTLINE), 1.0) == [(0, 0), (1, 2)]
    assert course(Polyline(triangle, OUTLINE), 1.0) == list(triangle)
    assert course(Polyline(triangle, OUTLINE, closed=True), 1.0) == [*triangle, triangle[0]]
    assert course(Area(triangle, OUTLINE), 1.0) == [*triangle, triangle[0]]


@given(st.floats(0.01, 500), st.floats(0.005, 1))
def test_a_circle_stands_no_further_off_than_its_sagitta(radius: float, scale: float) -> None:
    points = course(Circle((3.0, -2.0), radius, OUTLINE), scale)
    assert points[0] == pytest.approx(points[-1], abs=1e-9 * radius)
    for a, b in zip(points, points[1:], strict=False):
        assert distance(a, (3.0, -2.0)) == pytest.approx(radius)
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        off = (radius - distance(middle, (3.0, -2.0))) * scale
        assert off <= max(SAGITTA, radius * scale if radius * scale < 2 * SAGITTA else 0) + 1e-9


@pytest.mark.parametrize(
    ("bulge", "center", "side"),
    [
        (1.0, (1.0, 0.0), -1),  # half a circle, counterclockwise from left to right: below
        (-1.0, (1.0, 0.0), 1),
        (math.tan(math.pi / 8), (1.0, 1.0), -1),  # a quarter
        (-math.tan(math.pi / 8), (1.0, -1.0), 1),
    ],
)
def test_bulges_are_arcs(bulge: float, center: tuple[float, float], side: int) -> None:
    """A bulge is the tangent of a quarter of the arc (DXF reference, LWPOLYLINE group 42)."""
    points = course(Polyline(((0, 0), (2, 0), (3, 0)), OUTLINE, bulges=(bulge, 0.0, 0.0)), 1.0)
    assert points[0] == (0, 0)
    assert points[-2:] == [(2, 0), (3, 0)]
    arc = points[1:-2]
    assert len(arc) > 10
    assert all(distance(p, center) == pytest.approx(distance((0, 0), center)) for p in arc)
    assert all(p[1] * side > 0 for p in arc)


def test_a_closed_polyline_may_end_in_an_arc() -> None:
    half = Polyline(((0, 0), (2, 0)), OUTLINE, closed=True, bulges=(0.0, 1.0))
    points = course(half, 1.0)
    assert points[-1] == (0, 0)
    assert max(y for _, y in points) == pytest.approx(1.0, abs=SAGITTA)


# --- blocks --------------------------------------------------------------------------------

SQUARE = Block(
    "SQUARE", (Polyline(((0, 0), (1, 0), (1, 1)), INHERITED), Line((0, 0), (1, 1), NOTE))
)
ROW = Block("ROW", (Insert("SQUARE", (10.0, 0.0), INHERITED, 90.0, 2.0),))
BLOCKS = {"SQUARE": SQUARE, "ROW": ROW}


def test_blocks_are_expanded_where_they_stand() -> None:
    made = list(strokes([Insert("ROW", (100.0, 0.0), OUTLINE)], Placement((1, 1), 0, 0.5), BLOCKS))
    assert [(round(x, 9), round(y, 9)) for x, y in made[0].points] == [(56, 1), (56, 2), (55, 2)]


def test_what_is_on_layer_0_takes_the_layer_of_the_insertion() -> None:
    made = list(strokes([Insert("ROW", (0, 0), OUTLINE)], ON_PAPER, BLOCKS))
    assert [stroke.layer.name for stroke in made] == [OUTLINE, NOTE]


def test_what_is_not_plotted_leaves_no_stroke() -> None:
    assert list(strokes([Line((0, 0), (1, 1), "G-ANNO-NPLT")], ON_PAPER, {})) == []
    made = list(strokes([Insert("SQUARE", (0, 0), "G-ANNO-NPLT")], ON_PAPER, BLOCKS))
    assert [stroke.layer.name for stroke in made] == [NOTE], (
        "what has a layer of its own is plotted"
    )


def test_dimensions_and_leaders_are_their_marks() -> None:
    measured = dimension((0, 0), (3, 0), 0.5, "A-ANNO-DIMS", 96.0)
    led = leader(((0, 0), (1, 1)), NOTE)
    parts: list[Primitive] = [measured, led]
    made = list(strokes(parts, ON_PAPER, {}))
    assert len(made) == len(measured.marks) - 1 + len(led.marks)


def test_text_and_links_are_no_strokes() -> None:
    parts: list[Primitive] = [Text("A", (0, 0), 0.1, NOTE), Link((0, 0), (1, 1), "A-101")]
    assert list(strokes(parts, ON_PAPER, {})) == []


def test_words_are_found_wherever_they_stand() -> None:
    inner = Block("INNER", (Text("INSIDE", (2.0, 0.0), 1.0, INHERITED, "left", 10.0),))
    shown = Attribute("TAG", "M1", Text("SHOWN", (7.0, 7.0), 0.2, NOTE))
    carried = Attribute("ID", "M1")
    parts: list[Primitive] = [
        Text("PLAIN", (1.0, 1.0), 0.2, NOTE),
        Insert("INNER", (5.0, 5.0), NOTE, 90.0, 0.1, (shown, carried)),
        dimension((0, 0), (3, 0), 0.5, "A-ANNO-DIMS", 96.0),
        Line((0, 0), (1, 1), NOTE),
    ]
    made = {text.text: text for text in texts(parts, Placement((0, 0), 0, 0.5), {"INNER": inner})}
    assert set(made) == {"PLAIN", "INSIDE", "SHOWN", "24'-0\""}
    assert made["PLAIN"].at == (0.5, 0.5)
    assert made["PLAIN"].height == 0.1
    assert made["INSIDE"].at == pytest.approx((2.5, 2.6))
    assert made["INSIDE"].height == pytest.approx(0.05)
    assert made["INSIDE"].rotation_deg == 100.0
    assert made["SHOWN"].at == (3.5, 3.5)
