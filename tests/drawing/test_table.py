"""Tables: words in their cells, rules between them, broken only between rows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.geometry import Box, box_around
from planset.drawing.primitives import Line, Polyline, Text
from planset.drawing.table import Column, Table, TableSpec, fitted, table
from planset.drawing.text import text_box, text_width, wrap
from tests.drawing.shapes import of_kind

RULES, WORDS = "G-ANNO-TABL", "G-ANNO-TEXT"
COLUMNS = (
    Column("CHECK", 1.4),
    Column("LIMIT", 0.8, "center"),
    Column("IS", 0.8, "right"),
)
words = st.lists(st.text("ABCDEFG", min_size=1, max_size=5), max_size=12).map(" ".join)
rows = st.lists(st.tuples(words, words, words), min_size=1, max_size=25)


def spec(rows: list[tuple[str, ...]], title: str = "CHECKS") -> TableSpec:
    return TableSpec(title, COLUMNS, tuple(rows), 0.1, RULES, WORDS)


def text_boxes(made: Table) -> list[Box]:
    return [
        text_box(text.text, text.at, text.height, text.align)
        for text in of_kind(made.primitives, Text)
    ]


def frame(made: Table) -> Box:
    (outline,) = of_kind(made.primitives, Polyline)
    return box_around(outline.points)


def level_rules(made: Table) -> list[float]:
    return [line.a[1] for line in of_kind(made.primitives, Line) if line.a[1] == line.b[1]]


def upright_rules(made: Table) -> list[float]:
    return [line.a[0] for line in of_kind(made.primitives, Line) if line.a[0] == line.b[0]]


def test_the_function_lays_out_what_the_spec_says() -> None:
    made = table("CHECKS", COLUMNS, [("A", "B", "C")], (1, 9), 0.1, RULES, WORDS)
    assert made == spec([("A", "B", "C")]).at((1, 9))


@given(rows)
def test_every_word_is_inside_its_cell(rows: list[tuple[str, ...]]) -> None:
    made = spec(rows).at((1.0, 9.0))
    outline = frame(made)
    edges = [outline.x0, *sorted(upright_rules(made)), outline.x1]
    levels = [outline.y1, *sorted(level_rules(made), reverse=True), outline.y0]
    cells = [
        Box(x0, y0, x1, y1)
        for x0, x1 in zip(edges, edges[1:], strict=False)
        for y1, y0 in zip(levels, levels[1:], strict=False)
    ]
    assert len(cells) == 3 * (len(rows) + 1)
    inside = text_boxes(made)[1:]  # the title stands above the frame
    for box in inside:
        assert sum(cell.contains(box) for cell in cells) == 1


@given(rows)
def test_it_covers_what_it_says(rows: list[tuple[str, ...]]) -> None:
    made = spec(rows).at((1.0, 9.0))
    assert (made.box.x0, made.box.y1) == (1.0, 9.0)
    assert made.box.width == pytest.approx(3.0)
    assert made.box.y0 == frame(made).y0
    assert all(made.box.contains(box) for box in text_boxes(made))


@given(rows)
def test_no_word_is_lost(rows: list[tuple[str, ...]]) -> None:
    printed = " ".join(text.text for text in of_kind(spec(rows).at((1, 9)).primitives, Text))
    wanted = " ".join([" ".join(row) for row in rows])
    assert sorted(printed.split()) == sorted(f"CHECKS CHECK LIMIT IS {wanted}".split())


def test_cells_are_aligned_by_their_column() -> None:
    made = spec([("LEFT", "MID", "END")]).at((1.0, 9.0))
    body = of_kind(made.primitives, Text)[-3:]
    assert [text.text for text in body] == ["LEFT", "MID", "END"]
    assert [text.align for text in body] == ["left", "center", "right"]
    assert [text.at[0] for text in body] == pytest.approx([1.06, 2.8, 3.94])


def test_without_titles_there_is_no_heading_row() -> None:
    plain = TableSpec("", (Column("", 1.0), Column("", 1.0)), (("A", "B"),), 0.1, RULES, WORDS)
    made = plain.at((0, 5))
    assert [text.text for text in of_kind(made.primitives, Text)] == ["A", "B"]
    assert made.box == frame(made)
    assert level_rules(made) == []


def test_layers() -> None:
    made = spec([("A", "B", "C")]).at((0, 5))
    assert {text.layer for text in of_kind(made.primitives, Text)} == {WORDS}
    assert {line.layer for line in of_kind(made.primitives, Line)} == {RULES}
    assert {line.layer for line in of_kind(made.primitives, Polyline)} == {RULES}


def test_a_row_of_the_wrong_length_is_refused() -> None:
    with pytest.raises(ValueError, match="longer"):
        spec([("A", "B")]).at((0, 5))


# --- broken between rows -------------------------------------------------------------------


@given(rows, st.floats(0.3, 6.0))
def test_pieces_fit_and_hold_every_row_once(rows: list[tuple[str, ...]], room: float) -> None:
    whole = spec(rows)
    rest: TableSpec | None = whole
    held: list[tuple[str, ...]] = []
    while rest is not None:
        piece, rest = rest.cut(room)
        assert piece.at((0, 9)).box.height <= room + 1e-6 or len(piece.rows) == 1
        if rest is not None:
            taller = TableSpec(piece.title, COLUMNS, piece.rows + rest.rows[:1], 0.1, RULES, WORDS)
            assert taller.at((0, 9)).box.height > room, "one row more would not have fitted"
        held += piece.rows
    assert held == rows


def test_the_heading_is_repeated() -> None:
    first, rest = spec([("A", "B", "C")] * 20).cut(3.0)
    assert rest is not None
    second, third = rest.cut(2.0)
    assert third is not None
    assert [piece.title for piece in (first, second, third)] == [
        "CHECKS",
        "CHECKS, CONT.",
        "CHECKS, CONT.",
    ]
    for piece in (first, second, third):
        printed = [text.text for text in of_kind(piece.at((0, 9)).primitives, Text)]
        assert printed[1:4] == ["CHECK", "LIMIT", "IS"]


def test_a_table_without_title_continues_without() -> None:
    _, rest = spec([("A", "B", "C")] * 20, title="").cut(3.0)
    assert rest is not None
    assert rest.title == ""


def test_what_fits_is_not_cut() -> None:
    whole = spec([("A", "B", "C")] * 5)
    height = whole.at((0, 9)).box.height
    assert whole.cut(height) == (whole, None)
    assert whole.cut(height - 0.01)[1] is not None


def test_columns_are_as_wide_as_their_words_ask_for() -> None:
    titles = (Column("NO.", 0.0), Column("WORDS", 0.0), Column("RESULT", 0.0, "center"))
    body = [(str(n), "a requirement of many words that has to go on " * 3, "PASS") for n in "123"]
    made = fitted(titles, body, 0.1, 5.0)
    number, words, result = (column.width for column in made)
    assert number + words + result == pytest.approx(5.0)
    assert [column.align for column in made] == ["left", "left", "center"]
    assert number < result < words
    assert len(wrap("RESULT", 0.1, result - 0.12)) == 1


@given(rows, st.floats(4.0, 20.0))
def test_no_word_leaves_a_fitted_column(body: list[tuple[str, ...]], width: float) -> None:
    made = fitted([Column(title, 0.0) for title in ("A", "B", "C")], body, 0.1, width)
    assert sum(column.width for column in made) == pytest.approx(width)
    for cells, column in zip(zip(*body, strict=True), made, strict=True):
        for word in " ".join(cells).split():
            assert text_width(word, 0.1) <= column.width
