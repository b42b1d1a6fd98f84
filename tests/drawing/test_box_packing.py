"""Packed boxes: all of them, on their pages, none over another."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.box_packing import Packed, packed
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box

PAGE = Box(1.0, 2.0, 13.0, 11.0)
GAP = 0.2
SIZES = st.lists(st.tuples(st.floats(0.5, 12.0), st.floats(0.5, 9.0)), max_size=12)


def box(size: tuple[float, float], place: Packed) -> Box:
    """What a placed box covers."""
    (width, height), (x, top) = size, place.corner
    return Box(x, top - height, x + width, top)


@given(SIZES)
def test_boxes_stand_apart_on_their_pages(sizes: list[tuple[float, float]]) -> None:
    placed = packed(sizes, PAGE, GAP)
    boxes = [(place.page, box(size, place)) for size, place in zip(sizes, placed, strict=True)]
    assert all(PAGE.contains(one) for _, one in boxes)
    for (page, one), (other_page, other) in combinations(boxes, 2):
        assert page != other_page or not one.grown(GAP - 1e-6).overlaps(other)
    assert {page for page, _ in boxes} == set(range(len({page for page, _ in boxes})))


@given(SIZES)
def test_what_is_free_on_a_page_before_is_used(sizes: list[tuple[float, float]]) -> None:
    rest = Box(1.0, 2.0, 13.0, 6.0)
    placed = packed(sizes, PAGE, GAP, [rest])
    for size, place in zip(sizes, placed, strict=True):
        assert (rest if place.page == 0 else PAGE).contains(box(size, place))
    assert any(place.page == 0 for place in placed) == any(height <= 4 for _, height in sizes)


def test_a_low_box_stands_under_another() -> None:
    high, low, lower = packed([(5.0, 6.0), (5.0, 3.0), (4.0, 2.0)], PAGE, GAP)
    assert (high.corner, low.corner) == ((1.0, 11.0), (6.2, 11.0))
    assert lower == Packed(0, (6.2, 11.0 - 3.0 - GAP))


def test_what_is_larger_than_a_page_is_told() -> None:
    with pytest.raises(ViewTooLargeError, match=r"12\.5 x 1\.0 in does not fit 12\.0 x 9\.0 in"):
        packed([(12.5, 1.0)], PAGE, GAP)
