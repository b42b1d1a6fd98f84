"""A-101 of a house that is wide and low: the plan stands over its tables, at a larger scale."""

from __future__ import annotations

import pytest

from planset.drawing.fit import Margins
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box
from planset.drawing.primitives import Text
from planset.sheets.roof_plan_places import places_over_tables
from tests.sheets.drawn_sets import on_sheet, own_sheet

SHEET = "A-101"
WIDE = "cross-gable"
AREA = Box(1.0, 1.0, 13.0, 10.5)  # about what an 11x17 sheet has [in]
MARGINS = Margins(left=1.2, right=0.8, top=0.5, bottom=0.5)


def roof(long_ft: float, deep_ft: float) -> Box:
    return Box(0.0, 0.0, long_ft * 12, deep_ft * 12)


# --- places --------------------------------------------------------------------------------


def test_the_largest_scale_comes_first_and_its_place_lies_at_the_top() -> None:
    # 80 ft are 10 in at 1/8", 96 to one; with 2 in of margins that is the whole area.
    first = next(places_over_tables(roof(80, 30), MARGINS, AREA, beside=192))
    assert (first.frame.x0, first.frame.y1) == (AREA.x0, AREA.y1)
    assert first.frame.width == pytest.approx(80 * 12 / 96 + 2.0)
    assert first.frame.height == pytest.approx(30 * 12 / 96 + 1.0)
    assert not first.tight


def test_no_place_is_offered_at_the_scale_beside_the_tables() -> None:
    assert not list(places_over_tables(roof(80, 30), MARGINS, AREA, beside=96))


def test_sides_get_less_than_they_ask_for_only_where_that_brings_a_larger_scale() -> None:
    # 84 ft are 10.5 in at 1/8": 0.75 in are left for each side, a quarter less than they ask for.
    first, *others = places_over_tables(roof(84, 30), MARGINS, AREA, beside=192)
    assert first.tight
    assert first.margins.left == first.margins.right == pytest.approx(0.75, abs=1e-5)
    assert not any(place.tight for place in others)
    # A foot more leaves less than two lines of dimensions need.
    assert not any(p.tight for p in places_over_tables(roof(85, 30), MARGINS, AREA, beside=192))


def test_a_house_as_deep_as_the_sheet_leaves_no_room_for_the_title() -> None:
    assert not list(places_over_tables(roof(40, 75), MARGINS, AREA, beside=128))


# --- the example ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("size", "scale"),
    # 88 ft of roof: 22 of 27.2 in, 16.5 of 18 in and 8.25 of 12.3 in; a scale more would be
    # 33, 22 and 11 in, which leaves no side of the last its 3/4 in.
    [("24x36", '1/4" = 1\'-0"'), ("18x24", '3/16" = 1\'-0"'), ("11x17", '3/32" = 1\'-0"')],
)
def test_the_scale_is_the_largest_at_which_the_roof_fits_the_sheet(size: str, scale: str) -> None:
    (view,) = on_sheet(WIDE, size).page(SHEET).views
    assert view.scale.label == scale


@pytest.mark.parametrize("size", ["24x36", "18x24", "11x17"])
def test_fire_access_and_the_legend_stand_on_the_sheet_of_the_plan(size: str) -> None:
    words = on_sheet(WIDE, size).lines(SHEET)
    assert {"FIRE ACCESS", "LEGEND"} <= set(words)


@pytest.mark.parametrize("size", ["24x36", "18x24", "11x17"])
def test_no_table_reaches_into_the_plan(size: str) -> None:
    page = on_sheet(WIDE, size).page(SHEET)
    (view,) = page.views
    inside = [
        part.text
        for part in page.paper
        if isinstance(part, Text) and rotated_text_box(part).overlaps(view.frame)
    ]
    assert not inside


@pytest.mark.parametrize("name", [WIDE, "shingle-hip", "battery-retrofit", "flat-commercial"])
def test_on_its_own_sheet_the_plan_names_and_measures_all(name: str) -> None:
    words = own_sheet(name).lines(SHEET)
    assert "ROOF PLANES" in words
    assert not {"NOT NAMED ON THE PLAN", "DIMENSIONS NOT DRAWN"} & set(words)
