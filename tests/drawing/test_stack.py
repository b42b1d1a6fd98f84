"""Tables one below another over columns and pages."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain, repeat

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.columns import PagesFullError
from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.primitives import Polyline, Text
from planset.drawing.stack import TableAt, filled, merged, stack
from planset.drawing.table import Column, Table, table
from tests.drawing.shapes import of_kind

GAP = 0.2
FIRST = (Box(0, 3, 2, 8), Box(3, 0, 5, 8))
FOLLOWING = (Box(0, 0, 2, 9), Box(3, 0, 5, 9))


def pages() -> Iterable[tuple[Box, ...]]:
    return chain([FIRST], repeat(FOLLOWING))


def rows(title: str, count: int) -> TableAt:
    """A table of so many rows, each with a number of its own."""

    def lay(at: Point, width: float) -> Table:
        columns = (Column("NO.", 0.6), Column("WORDS", width - 0.6))
        body = [(str(n), f"{title}{n}") for n in range(count)]
        return table(title, columns, body, at, 0.1, "G-ANNO-TABL", "G-ANNO-TEXT")

    return lay


def height(lay: TableAt) -> float:
    return lay((0, 0), 2.0).box.height


def frames(page: tuple[object, ...]) -> list[Box]:
    return [box_around(part.points) for part in page if isinstance(part, Polyline)]


def printed(page: tuple[object, ...]) -> list[str]:
    return [part.text for part in page if isinstance(part, Text)]


def test_tables_stand_below_one_another() -> None:
    made = stack([rows("A", 2), rows("B", 2)], pages(), GAP)
    assert len(made.pages) == 1
    first, second = frames(made.pages[0])
    assert first.x0 == second.x0 == 0
    title = next(t for t in of_kind(made.pages[0], Text) if t.text == "B")
    assert title.at[1] + title.height == pytest.approx(first.y0 - GAP)
    assert made.rest == (Box(0, 3, 2, second.y0 - GAP), FIRST[1])


def test_what_does_not_fit_starts_the_next_column() -> None:
    made = stack([rows("A", 11), rows("B", 11), rows("C", 11)], pages(), GAP)
    assert [frame.x0 for frame in frames(made.pages[0])] == [0, 3, 3]
    assert made.rest[0].x0 == 3
    assert len(made.rest) == 1


def test_a_small_table_goes_back_to_a_column_with_room() -> None:
    made = stack([rows("A", 12), rows("B", 20), rows("C", 2)], pages(), GAP)
    assert [frame.x0 for frame in frames(made.pages[0])] == [0, 3, 0]
    assert made.rest[0].x0 == 3


def test_what_no_column_of_a_page_holds_begins_on_it_when_the_page_is_blank() -> None:
    count = next(n for n in range(1, 99) if height(rows("A", n)) > 8)
    assert height(rows("A", count)) < 9
    made = stack([rows("A", count)], pages(), GAP)
    assert len(made.pages) == 1
    assert "A, CONT." in printed(made.pages[0])


def test_a_table_goes_whole_to_the_next_page_when_it_fits_there() -> None:
    count = next(n for n in range(1, 99) if height(rows("C", n)) > 8)
    assert height(rows("C", count)) < 9
    made = stack([rows("A", 10), rows("B", 25), rows("C", count)], pages(), GAP)
    assert len(made.pages) == 2
    assert not any(words.startswith("C") for words in printed(made.pages[0]))
    assert "C, CONT." not in printed(made.pages[1])


@given(st.lists(st.integers(1, 120), min_size=1, max_size=6))
def test_every_row_is_printed_once_and_inside_a_column(counts: list[int]) -> None:
    tables = [rows(chr(ord("A") + n), count) for n, count in enumerate(counts)]
    made = stack(tables, pages(), GAP)
    everything = [words for page in made.pages for words in printed(page)]
    for n, count in enumerate(counts):
        letter = chr(ord("A") + n)
        body = [words for words in everything if words[0] == letter and words[1:].isdigit()]
        assert body == [f"{letter}{number}" for number in range(count)]
    for number, page in enumerate(made.pages):
        columns = FOLLOWING if number else FIRST
        found = frames(page)
        assert all(any(column.contains(frame) for column in columns) for frame in found)
        assert not any(a.overlaps(b) for n, a in enumerate(found) for b in found[:n])


def test_a_table_taller_than_a_column_is_broken_under_repeated_headings() -> None:
    made = stack([rows("A", 100), rows("B", 2)], pages(), GAP)
    titles = [words for page in made.pages for words in printed(page) if words.startswith("A,")]
    pieces = sum(len(frames(page)) for page in made.pages) - 1
    assert pieces > 2
    assert titles == ["A, CONT."] * (pieces - 1)
    headings = [words for page in made.pages for words in printed(page) if words == "NO."]
    assert len(headings) == pieces + 1
    last = made.pages[-1]
    assert printed(last).index("B") > printed(last).index("A99"), "the next follows the last piece"


def test_a_row_taller_than_what_a_page_has_goes_on_to_one_with_room() -> None:
    def tall(at: Point, width: float) -> Table:
        body = [("1", "\n".join(["word"] * 20)), ("2", "\n".join(["word"] * 20))]
        columns = (Column("NO.", 0.6), Column("WORDS", width - 0.6))
        return table("A", columns, body, at, 0.1, "G-ANNO-TABL", "G-ANNO-TEXT")

    short = (Box(0, 7, 2, 9), Box(3, 7, 5, 9))
    columns = (Box(0, 0, 2, 6), Box(3, 0, 5, 6))
    made = stack([rows("B", 2), tall], chain([short], repeat(columns)), GAP)
    assert [len(frames(page)) for page in made.pages] == [1, 2]
    assert all(column.contains(f) for column, f in zip(columns, frames(made.pages[1]), strict=True))


def test_what_cannot_be_broken_is_kept_whole() -> None:
    def tall(at: Point, width: float) -> Table:
        box = Box(at[0], at[1] - 20, at[0] + width, at[1])
        return Table(box, (Polyline(box.corners, "G-ANNO-TABL", closed=True),))

    made = stack([tall, rows("B", 2)], pages(), GAP)
    assert [frame.height for frame in frames(made.pages[0])][:1] == [20]
    assert len(frames(made.pages[0])) == 2
    assert frames(made.pages[0])[1].x0 == 3


def test_nothing_is_left_of_a_column_that_is_full() -> None:
    def exact(at: Point, width: float) -> Table:
        return Table(Box(at[0], at[1] - 4.9, at[0] + width, at[1]), ())

    (first, second) = stack([exact], pages(), GAP).rest
    assert first.height == 0
    assert second == FIRST[1]


def test_a_page_is_filled_with_what_has_room_and_the_rest_is_handed_back() -> None:
    tables = [rows("A", 12), rows("B", 40), rows("C", 20), rows("D", 2)]
    drawn, rest = filled(tables, FIRST, GAP)
    assert [frame.x0 for frame in frames(drawn)] == [0, 3, 0]
    assert rest == (tables[1],)


def test_too_few_pages_are_told() -> None:
    with pytest.raises(PagesFullError):
        stack([rows("A", 100)], [FIRST], GAP)


def test_no_tables_leave_the_whole_page() -> None:
    assert stack([], pages(), GAP).rest == FIRST
    assert stack([], pages(), GAP).pages == ((),)


def test_pages_drawn_side_by_side_are_put_together() -> None:
    a, b, c = (Text(letter, (0, 0), 0.1, "G-ANNO-TEXT") for letter in "ABC")
    assert merged([(a,), (b,)], [(c,)]) == ((a, c), (b,))
