"""Notes flow down columns: nothing below a foot, no heading alone, no word lost."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain, repeat

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.columns import PagesFullError
from planset.drawing.geometry import Box
from planset.drawing.notes import Section, flow
from planset.drawing.primitives import Line, Primitive, Text
from planset.drawing.text import NOTE_HEIGHT, SLACK, SUBTITLE_HEIGHT, text_box
from tests.drawing.shapes import of_kind

FIRST = (Box(0, 4, 3, 6), Box(4, 0, 7, 8))
FOLLOWING = (Box(0, 0, 3, 9), Box(4, 0, 7, 9))

sentences = st.lists(st.text("abcdefg", min_size=1, max_size=9), min_size=1, max_size=60).map(
    " ".join
)
sections = st.builds(
    Section,
    st.sampled_from(["CAUTIONS", "GENERAL NOTES", "PUT TO THE BUILDING DEPARTMENT OF THE TOWN"]),
    st.lists(sentences, min_size=1, max_size=6).map(tuple),
    st.booleans(),
)


def pages(first: tuple[Box, ...] = FIRST) -> Iterable[tuple[Box, ...]]:
    return chain([first], repeat(FOLLOWING))


def written(
    sections: Iterable[Section], first: tuple[Box, ...] = FIRST
) -> list[tuple[Primitive, ...]]:
    return list(flow(sections, pages(first), "G-ANNO-TEXT", "G-ANNO-TABL").pages)


def columns_of(
    made: list[tuple[Primitive, ...]], first: tuple[Box, ...] = FIRST
) -> list[list[Text]]:
    """The lines of each column, from the top, empty columns left out."""
    found = []
    for number, page in enumerate(made):
        for box in FOLLOWING if number else first:
            inside = [t for t in of_kind(page, Text) if box.x0 - 0.01 <= t.at[0] <= box.x1]
            if inside:
                found.append(sorted(inside, key=lambda text: (-text.at[1], text.at[0])))
    return found


def is_heading(text: Text) -> bool:
    return text.height == SUBTITLE_HEIGHT


def note_words(texts: Iterable[Text]) -> list[str]:
    """Words of the notes, their numbers left out."""
    return [w for t in texts if t.height == NOTE_HEIGHT for w in t.text.split() if w[-1] != "."]


@given(st.lists(sections, min_size=1, max_size=6))
def test_no_word_is_lost_and_the_order_is_kept(sections: list[Section]) -> None:
    lines = [text for column in columns_of(written(sections)) for text in column]
    wanted = [word for section in sections for note in section.notes for word in note.split()]
    assert note_words(lines) == wanted


@given(st.lists(sections, min_size=1, max_size=6))
def test_nothing_stands_outside_a_column(sections: list[Section]) -> None:
    for number, page in enumerate(written(sections)):
        columns = FOLLOWING if number else FIRST
        for text in of_kind(page, Text):
            box = text_box(text.text, text.at, text.height, slack=SLACK)
            assert any(column.contains(box) for column in columns), text.text
        for rule in of_kind(page, Line):
            box = Box(rule.a[0], rule.a[1], rule.b[0], rule.b[1])
            assert any(column.contains(box) for column in columns)


@given(st.lists(sections, min_size=1, max_size=6))
def test_no_line_stands_on_another(sections: list[Section]) -> None:
    for column in columns_of(written(sections)):
        boxes = [text_box(t.text, t.at, t.height) for t in column]
        assert not any(a.overlaps(b) for n, a in enumerate(boxes) for b in boxes[:n])


@given(st.lists(sections, min_size=1, max_size=6))
def test_no_heading_stands_alone_at_a_foot(sections: list[Section]) -> None:
    for column in columns_of(written(sections)):
        assert not is_heading(column[-1])


@given(st.lists(sections, min_size=1, max_size=6))
def test_a_note_that_fits_a_column_is_not_broken(sections: list[Section]) -> None:
    for column in columns_of(written(sections))[1:]:
        begins = is_heading(column[0]) or column[0].text.endswith(".")
        numbered = [section for section in sections if section.numbered]
        if len(numbered) == len(sections):
            assert begins, "a column begins with a heading or a note's number"


def test_notes_are_numbered_from_one_in_each_section() -> None:
    made = written([Section("A", ("one", "two")), Section("B", ("three",))])
    numbers = [t.text for t in of_kind(made[0], Text) if t.text.endswith(".")]
    assert numbers == ["1.", "2.", "1."]


def test_unnumbered_notes_begin_at_the_margin() -> None:
    made = written([Section("A", ("one",), numbered=False)])
    assert [(t.text, t.at[0]) for t in of_kind(made[0], Text)] == [("A", 0), ("one", 0)]


def test_a_note_taller_than_a_column_is_broken_between_lines() -> None:
    long = " ".join(f"w{n}" for n in range(1500))
    made = written([Section("A", (long, "after"))])
    columns = columns_of(made)
    assert len(columns) > 2
    lines = [text for column in columns for text in column]
    assert note_words(lines) == [*long.split(), "after"]
    assert is_heading(columns[0][0])
    assert not is_heading(columns[0][-1]), "its heading is not left alone"


def test_a_section_without_notes_is_left_out() -> None:
    assert written([Section("A", ()), Section("B", ("b",))]) == written([Section("B", ("b",))])


@pytest.mark.parametrize("left", [0.0, 0.05, 0.3, 0.38])
def test_a_rest_too_short_for_a_heading_and_its_note_stays_empty(left: float) -> None:
    first = (Box(0, 0, 3, left), Box(4, 0, 7, 8))
    made = written([Section("A", ("one",))], first)
    assert {t.at[0] >= 4 for t in of_kind(made[0], Text)} == {True}


def test_a_section_that_goes_on_in_another_column_has_its_heading_again() -> None:
    made = written([Section("CAUTIONS", ("one two three " * 8,) * 6)])
    first, *others = columns_of(made)
    assert first[0].text == "CAUTIONS"
    assert [column[0].text for column in others] == ["CAUTIONS, CONT."] * len(others)
    assert others
    assert all(is_heading(column[0]) for column in (first, *others))


def test_notes_run_over_to_further_pages() -> None:
    made = written([Section(f"S{n}", ("a b c",) * 6) for n in range(20)])
    assert len(made) == 3
    assert all(of_kind(page, Text) for page in made)


def test_a_page_whose_columns_are_full_is_an_empty_page() -> None:
    made = written([Section("A", ("one",))], (Box(0, 0, 3, 0),))
    assert made[0] == ()
    assert len(made) == 2


def test_too_few_pages_are_told() -> None:
    with pytest.raises(PagesFullError):
        flow([Section("A", ("one two",) * 99)], [FIRST], "G-ANNO-TEXT", "G-ANNO-TABL")
