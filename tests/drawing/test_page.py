"""Views on their page."""

from __future__ import annotations

import pytest

from planset.drawing.geometry import Box
from planset.drawing.page import NOT_TO_SCALE, FieldPlace, Page, Scale, View

PLAN = Scale(48, '1/4" = 1\'-0"')


def view(scale: Scale = PLAN) -> View:
    return View(1, "ROOF PLAN", scale, Box(-24, -48, 456, 240), (1.5, 2.0), (), ())


def test_a_view_covers_its_window_at_its_scale() -> None:
    assert view().frame == Box(1.5, 2.0, 11.5, 8.0)


def test_model_points_land_inside_the_frame() -> None:
    made = view()
    for corner, place in zip(made.window.corners, made.frame.corners, strict=True):
        assert made.on_paper.apply(corner) == pytest.approx(place)
    assert made.on_paper.apply((0.0, 0.0)) == pytest.approx((2.0, 3.0))


def test_a_view_that_is_not_to_scale_is_drawn_at_plotted_size() -> None:
    made = view(NOT_TO_SCALE)
    assert made.frame.width == made.window.width
    assert made.on_paper.scale == 1.0


@pytest.mark.parametrize(
    ("align", "x", "width"),
    [
        ("left", 2.25, 2.75),
        ("right", 4.5, 2.5),
        ("center", 3.0, 2.0),
        ("center", 4.5, 1.0),
        ("middle", 3.5, 3.0),
    ],
)
def test_the_line_a_field_has_room_for(align: str, x: float, width: float) -> None:
    place = FieldPlace((x, 1.2), 0.1, align, "G-ANNO-TTLB-TEXT", Box(2.0, 1.0, 5.0, 1.5))
    assert place.line_width == pytest.approx(width)


def test_a_bookmark_is_id_and_title() -> None:
    assert Page("A-101", "ROOF PLAN", "strip", (), ()).bookmark == "A-101 ROOF PLAN"
