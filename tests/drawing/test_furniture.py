"""View titles, graphic scales, north arrows."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from planset.drawing.furniture import (
    BUBBLE,
    NORTH_ARROW,
    bubble,
    graphic_scale,
    north_arrow,
    view_title,
)
from planset.drawing.geometry import Placement, box_around, direction_deg
from planset.drawing.page import DETAIL_SCALES, NOT_TO_SCALE, PLAN_SCALES, Scale
from planset.drawing.primitives import Area, Insert, Line, Polyline, Text
from planset.drawing.text import SLACK, text_box, text_width
from planset.resources import all_symbols
from planset.units import parse_length
from tests.drawing.shapes import of_kind

SITE_SCALES = (Scale(120, "1\" = 10'"), Scale(240, "1\" = 20'"), Scale(360, "1\" = 30'"))
SCALES = (*PLAN_SCALES, *DETAIL_SCALES, *SITE_SCALES)


@pytest.mark.parametrize("scale", SCALES, ids=lambda scale: scale.label)
@pytest.mark.parametrize("target", [1.6, 2.0])
def test_a_graphic_scale_is_as_long_as_it_says(scale: Scale, target: float) -> None:
    made = graphic_scale(scale, (3.0, 1.0), target=target)
    parts = [box_around(part.points) for part in of_kind(made, Polyline)]
    assert len(parts) == 4
    assert len({round(part.width, 9) for part in parts}) == 1
    figures = of_kind(made, Text)
    assert figures[0].text == "0"
    assert figures[0].at[0] == pytest.approx(3.0)
    for figure in figures[1:]:
        stated = parse_length(figure.text)
        assert stated > 0
        assert (figure.at[0] - 3.0) * scale.factor == pytest.approx(stated)
    assert figures[-1].at[0] == pytest.approx(parts[-1].x1)
    least = 4 / scale.factor  # a part is an inch or more
    assert target / 2 <= parts[-1].x1 - 3.0 <= max(target, least)


@pytest.mark.parametrize("scale", SCALES, ids=lambda scale: scale.label)
def test_its_parts_alternate_and_its_figures_keep_apart(scale: Scale) -> None:
    made = graphic_scale(scale, (3.0, 1.0))
    filled = [box_around(part.points) for part in of_kind(made, Area)]
    parts = [box_around(part.points) for part in of_kind(made, Polyline)]
    assert filled == parts[::2]
    boxes = [text_box(t.text, t.at, t.height, t.align, slack=SLACK) for t in of_kind(made, Text)]
    assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))
    assert not any(box.overlaps(part) for box in boxes for part in parts)


@pytest.mark.parametrize("north", [0.0, 90.0, 100.0, 180.0, -45.0])
def test_the_north_arrow_points_north(north: float) -> None:
    made = north_arrow((5.0, 4.0), north)
    (insert,) = of_kind(made, Insert)
    assert insert.block == NORTH_ARROW
    shape = all_symbols()[NORTH_ARROW].block
    points = [
        point
        for part in shape.primitives
        for point in (
            (part.a, part.b)
            if isinstance(part, Line)
            else part.points
            if isinstance(part, Polyline | Area)
            else ()
        )
    ]
    tip = max(points, key=lambda point: math.hypot(*point))
    placed = Placement(insert.at, insert.rotation_deg, insert.scale).apply(tip)
    turn = direction_deg((5.0, 4.0), placed) - north
    assert math.cos(math.radians(turn)) == pytest.approx(1.0)
    assert [text.text for text in of_kind(made, Text)] == ["TRUE", "NORTH"]


def test_a_bubble_holds_the_view_over_its_sheet() -> None:
    made = bubble((2.0, 2.0), "3", "S-501")
    (insert,) = of_kind(made, Insert)
    upper, lower = of_kind(made, Text)
    assert (insert.block, insert.at) == (BUBBLE, (2.0, 2.0))
    assert (upper.text, lower.text) == ("3", "S-501")
    size = all_symbols()[BUBBLE].box
    for text in (upper, lower):
        half = text_width(text.text, text.height) / 2
        for level in (text.at[1] - text.height / 2, text.at[1] + text.height / 2):
            assert math.hypot(half, level - 2) < size.width / 2
    assert upper.at[1] > 2.0 > lower.at[1]


@pytest.mark.parametrize(
    ("scale", "words"),
    [(Scale(64, '3/16" = 1\'-0"'), 'SCALE: 3/16" = 1\'-0"'), (NOT_TO_SCALE, "NOT TO SCALE")],
)
def test_a_view_title_names_view_and_scale(scale: Scale, words: str) -> None:
    made = view_title(2, "A-101", "ROOF PLAN", scale, (1.0, 1.0))
    texts = {text.text: text for text in of_kind(made, Text)}
    assert set(texts) == {"2", "A-101", "ROOF PLAN", words}
    (rule,) = of_kind(made, Line)
    title = texts["ROOF PLAN"]
    box = text_box(title.text, title.at, title.height, slack=SLACK)
    assert box.y0 > rule.a[1] == rule.b[1] > texts[words].at[1] + texts[words].height
    assert rule.a[0] <= box.x0
    assert box.x1 <= rule.b[0]
