"""Words and diagrams drawn larger as a whole."""

from __future__ import annotations

import pytest

from planset.drawing.dimension import dimension, leader
from planset.drawing.enlarge import enlarged, reduced
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import (
    Area,
    Attribute,
    Circle,
    Insert,
    Leader,
    Line,
    Link,
    Polyline,
    Primitive,
    Text,
)

LAYER = "G-ANNO-TEXT"


def labeled(at: Point, height: float) -> Attribute:
    return Attribute("ID", "X", Text("X", at, height, LAYER))


@pytest.mark.parametrize(
    ("part", "larger"),
    [
        (Line((1, 2), (3, 4), LAYER), Line((2, 4), (6, 8), LAYER)),
        (
            # half a circle stays half a circle
            Polyline(((1, 1), (2, 1)), LAYER, closed=True, bulges=(1.0, 0.0)),
            Polyline(((2, 2), (4, 2)), LAYER, closed=True, bulges=(1.0, 0.0)),
        ),
        (Circle((1, 2), 0.5, LAYER), Circle((2, 4), 1.0, LAYER)),
        (Area(((0, 0), (1, 0), (0, 1)), LAYER), Area(((0, 0), (2, 0), (0, 2)), LAYER)),
        (
            Text("A", (1, 2), 0.1, LAYER, "middle", 90.0),
            Text("A", (2, 4), 0.2, LAYER, "middle", 90.0),
        ),
        (
            Insert("BOX", (1, 2), LAYER, 30.0, 0.5, (Attribute("ID", "X"),), "X"),
            Insert("BOX", (2, 4), LAYER, 30.0, 1.0, (Attribute("ID", "X"),), "X"),
        ),
        (
            Insert("BOX", (0, 0), LAYER, attributes=(labeled((1, 1), 0.1),)),
            Insert("BOX", (0, 0), LAYER, scale=2.0, attributes=(labeled((2, 2), 0.2),)),
        ),
        (Link((1, 1), (2, 2), "A-101"), Link((2, 2), (4, 4), "A-101")),
    ],
    ids=lambda part: type(part).__name__,
)  # fmt: skip
def test_everything_grows_alike(part: Primitive, larger: Primitive) -> None:
    assert enlarged((part,), 2.0) == (larger,)
    assert enlarged((part,), 1.0) == (part,)


def test_a_leader_grows_with_its_arrow() -> None:
    small = leader(((1, 1), (2, 1)), LAYER, names="X")
    (large,) = enlarged((small,), 2.0)
    assert isinstance(large, Leader)
    assert (large.points, large.names, large.end) == (((2, 2), (4, 2)), "X", "arrow")
    assert large.marks == enlarged(small.marks, 2.0)
    (tip, *feet) = next(mark for mark in large.marks if isinstance(mark, Area)).points
    assert tip == (4, 2)
    # an arrow is 1/8 in long on the smallest sheet
    assert [foot[0] for foot in feet] == pytest.approx([4 - 2 / 8] * 2)


def test_a_dimension_is_refused() -> None:
    measured = dimension((0, 0), (1, 0), 0.3, LAYER, 48.0)
    with pytest.raises(TypeError, match="the dimension 4'-0\" cannot be enlarged"):
        enlarged((measured,), 1.25)


def test_a_reduced_box_is_enlarged_to_the_box() -> None:
    small = reduced(Box(1, 2, 3, 6), 2.0)
    assert small == Box(0.5, 1, 1.5, 3)
    assert reduced(small, 0.5) == Box(1, 2, 3, 6)
