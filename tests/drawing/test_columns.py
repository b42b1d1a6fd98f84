"""Going down columns and over pages."""

from __future__ import annotations

import pytest

from planset.drawing.columns import ColumnCursor, PagesFullError
from planset.drawing.geometry import Box

PAGES = (
    (Box(0, 6, 3, 10), Box(4, 0, 7, 10)),
    (Box(0, 0, 3, 8),),
)


def test_it_begins_at_the_top_of_the_first_column() -> None:
    cursor = ColumnCursor(PAGES)
    assert (cursor.page, cursor.box, cursor.corner, cursor.room) == (0, PAGES[0][0], (0, 10), 4)


def test_it_goes_through_columns_and_pages_in_order() -> None:
    cursor = ColumnCursor(PAGES)
    passed = []
    for _ in range(3):
        passed.append((cursor.page, cursor.box))
        if len(passed) < 3:
            cursor.advance()
    assert passed == [(0, PAGES[0][0]), (0, PAGES[0][1]), (1, PAGES[1][0])]
    with pytest.raises(PagesFullError, match="give more pages"):
        cursor.advance()


@pytest.mark.parametrize(
    ("used", "height", "page", "box"),
    [
        (0, 4, 0, PAGES[0][0]),  # all of the first column
        (1, 4, 0, PAGES[0][1]),  # too little is left of it
        (0, 6, 0, PAGES[0][1]),  # the first column is too short whatever is left
        (5, 1, 0, PAGES[0][1]),  # the first column is overrun
    ],
)
def test_it_finds_the_column_with_room(used: float, height: float, page: int, box: Box) -> None:
    cursor = ColumnCursor(PAGES)
    cursor.y -= used
    assert cursor.room_for(height)
    assert (cursor.page, cursor.box) == (page, box)


def test_what_no_column_holds_is_told_at_the_top_of_a_column() -> None:
    cursor = ColumnCursor(PAGES)
    cursor.advance()
    cursor.y -= 1
    assert not cursor.room_for(20)
    assert (cursor.page, cursor.y) == (1, 8)


def test_a_page_without_columns_is_passed_over() -> None:
    cursor = ColumnCursor([(), (Box(0, 0, 1, 1),)])
    assert cursor.page == 1


def test_what_is_left_of_the_page() -> None:
    cursor = ColumnCursor(PAGES)
    cursor.y = 7.5
    assert cursor.take_rest_of_page() == (Box(0, 6, 3, 7.5), PAGES[0][1])


def test_an_overrun_column_has_nothing_left() -> None:
    cursor = ColumnCursor(PAGES)
    cursor.y = 5.0
    assert cursor.take_rest_of_page()[0].height == 0
