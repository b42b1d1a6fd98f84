"""Dimensions of access areas, on the plans of a shop and of a house with an escape window."""

from __future__ import annotations

import pytest

from planset.design.design import Design
from planset.drawing.geometry import Point, toward
from planset.drawing.page import View
from planset.drawing.primitives import Dimension
from planset.drawing.region import Region
from tests.sheets.drawn_sets import own_sheet

SHOP, HOUSE = "flat-commercial", "cross-gable"
END_IN = 1.0  # a CLEAR width is rounded down on paper and drawn to hardware, which ends in rails


def view(name: str) -> View:
    (only,) = own_sheet(name).page("A-101").views
    return only


def dimensions(name: str, words: str) -> list[Dimension]:
    parts = view(name).annotation
    return [d for d in parts if isinstance(d, Dimension) and d.text.endswith(words)]


def arrays_on_paper(design: Design, view: View) -> list[Region]:
    return [
        Region.of(
            view.on_paper.apply(array.plane.to_plan(corner)) for corner in array.hardware.corners
        )
        for array in design.arrays
    ]


def inner(ends: tuple[Point, Point]) -> tuple[Point, Point]:
    """A line without its ends, which may touch what bounds it."""
    a, b = ends
    return toward(a, b, 0.02), toward(b, a, 0.02)


@pytest.mark.parametrize("name", [SHOP, HOUSE])
def test_every_dimension_finds_room_on_a_large_sheet(name: str) -> None:
    assert "DIMENSIONS NOT DRAWN" not in own_sheet(name).lines("A-101")


@pytest.mark.parametrize("name", [SHOP, HOUSE])
def test_what_is_clear_runs_over_no_array(name: str) -> None:
    shown = dimensions(name, "CLEAR")
    assert shown
    for array in arrays_on_paper(own_sheet(name).design, view(name)):
        assert [d.text for d in shown if array.crossed_by(*inner((d.a, d.b)))] == []


def test_what_is_clear_on_a_flat_roof_ends_at_an_array() -> None:
    reach = END_IN / view(SHOP).scale.factor
    near = [array.grown(reach) for array in arrays_on_paper(own_sheet(SHOP).design, view(SHOP))]
    for shown in dimensions(SHOP, "CLEAR"):
        ends = (shown.a, shown.b)
        assert any(array.holds_point(end) for array in near for end in ends), shown.text


def test_each_side_of_the_perimeter_is_dimensioned_on_a_flat_roof() -> None:
    # From the inner face of a parapet 8 in thick to arrays 60 in within its outer face at the left
    # and in front, by the job: 52 in; 6 rows end 160 in from the back: 152 in.
    told = {d.text for d in dimensions(SHOP, "CLEAR")}
    assert {"4'-4\" CLEAR", "4'-4\" ON SLOPE CLEAR", "12'-8\" ON SLOPE CLEAR"} <= told


def test_a_way_from_a_hatch_is_dimensioned_as_wide_as_it_must_be() -> None:
    # 4 ft: IFC 2024 1205.3.2; what is clear beside it ends at no array and is not stated.
    assert [d.text for d in dimensions(SHOP, "MIN.")] == ["4'-0\" MIN."] * 2


def test_the_way_to_an_escape_opening_is_dimensioned_as_wide_as_it_must_be() -> None:
    # 36 in: CRC 2025 R329.6.3; what is clear is taken as far to either side of the opening.
    assert "3'-0\" MIN." in {d.text for d in dimensions(HOUSE, "MIN.")}


@pytest.mark.parametrize("name", [SHOP, HOUSE])
def test_no_two_lines_of_dimensions_lie_in_each_other(name: str) -> None:
    every = dimensions(name, "")
    along = [Region.of((*inner((d.line_a, d.line_b)), d.line_b)).grown(0.02) for d in every]
    for number, strip in enumerate(along):
        for other in every[number + 1 :]:
            ends = (other.line_a, other.line_b)
            assert strip.length_along(*ends) < 0.15, (every[number].text, other.text)
