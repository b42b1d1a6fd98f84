"""Keynotes: words inside their column, leaders that never cross."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString

from planset.drawing.geometry import Box, Point
from planset.drawing.keynotes import ColumnFullError, Keynote, keynote_column, notes_fit
from planset.drawing.primitives import Leader, Primitive, Text
from planset.drawing.text import SLACK, text_box
from tests.drawing.shapes import box_shape, of_kind

COLUMN = Box(6.0, 0.0, 8.0, 6.0)
TEXT, LEADER = "S-ANNO-TEXT", "S-ANNO-NOTE"

texts = st.lists(st.text("abcdefg", min_size=1, max_size=9), min_size=1, max_size=14).map(" ".join)
# Hundredths of an inch: anchors that differ by less are one place to a drafter.
anchors = st.tuples(
    st.integers(0, 570).map(lambda n: n / 100), st.integers(-100, 700).map(lambda n: n / 100)
)


@st.composite
def keynotes(draw: st.DrawFn) -> list[Keynote]:
    places = draw(st.lists(anchors, min_size=1, max_size=9, unique=True))
    return [Keynote(draw(texts), place) for place in places]


def mirrored(column: Box) -> Box:
    return Box(-column.x1, column.y0, -column.x0, column.y1)


def placed(notes: list[Keynote], column: Box = COLUMN) -> tuple[Primitive, ...]:
    return keynote_column(notes, column, TEXT, LEADER)


def courses(made: tuple[Primitive, ...]) -> list[LineString]:
    return [LineString(line.points) for line in of_kind(made, Leader)]


@given(keynotes())
def test_no_two_leaders_cross(notes: list[Keynote]) -> None:
    made = courses(placed(notes))
    assert len(made) == len(notes)
    assert not any(one.crosses(other) for one, other in combinations(made, 2))


@given(keynotes())
def test_a_column_at_the_left_is_the_mirror_of_one_at_the_right(notes: list[Keynote]) -> None:
    turned = [Keynote(note.words, (-note.anchor[0], note.anchor[1])) for note in notes]
    here, there = placed(notes), placed(turned, mirrored(COLUMN))
    assert [text.text for text in of_kind(here, Text)] == [t.text for t in of_kind(there, Text)]
    for one, other in zip(of_kind(here, Leader), of_kind(there, Leader), strict=True):
        for (x, y), point in zip(one.points, other.points, strict=True):
            assert point == pytest.approx((-x, y))


@given(keynotes())
def test_words_stand_inside_the_column_and_clear_of_one_another(notes: list[Keynote]) -> None:
    found = of_kind(placed(notes), Text)
    boxes = [text_box(t.text, t.at, t.height, t.align, slack=SLACK) for t in found]
    assert all(COLUMN.contains(box) for box in boxes)
    assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))
    words = sorted(word for text in found for word in text.text.split())
    assert words == sorted(word for note in notes for word in note.words.split())


@given(keynotes())
def test_each_leader_runs_from_its_note_to_what_it_names(notes: list[Keynote]) -> None:
    made = placed(notes)
    ends = {line.points[-1] for line in of_kind(made, Leader)}
    assert ends == {note.anchor for note in notes}
    firsts = [text for text in of_kind(made, Text)]
    for line in of_kind(made, Leader):
        (x, y), (knee, level), _ = line.points
        assert y == level
        assert knee < x < COLUMN.x0, "the shoulder leads out of the column"
        assert any(text.at[1] < y < text.at[1] + text.height for text in firsts)


@given(keynotes())
def test_leaders_run_clear_of_all_words(notes: list[Keynote]) -> None:
    made = placed(notes)
    shapes = [box_shape(text_box(t.text, t.at, t.height, t.align)) for t in of_kind(made, Text)]
    assert all(course.disjoint(shape) for course in courses(made) for shape in shapes)


@pytest.mark.parametrize(
    "places",
    [
        [(5.0, 5.0), (1.0, 4.9), (5.2, 4.8), (0.5, 4.7), (5.4, 4.6)],
        [(5.6, 3.0 + n / 100) for n in range(8)],  # all on one upright line, close together
        [(n / 2, 3.0) for n in range(8)],  # all on one level
        [(1.0 + n / 4, 6.9 - n * 0.95) for n in range(8)],
        [(1.0 + n / 4, -0.9 + n * 0.95) for n in range(8)],
    ],
)
def test_hard_arrangements(places: list[Point]) -> None:
    notes = [
        Keynote(" ".join(["WORDS"] * (1 + 7 * (n % 2))), place) for n, place in enumerate(places)
    ]
    made = courses(placed(notes))
    assert not any(one.crosses(other) for one, other in combinations(made, 2))


@pytest.mark.parametrize(
    "notes",
    [
        [(8, (3.7, -0.9)), (16, (2.5, -0.9)), (8, (3.4, -0.9)), (8, (5.6, 1.6))],
        [(8, (4.8, -0.3)), (1, (2.9, 0.4)), (8, (4.6, -0.3)), (1, (5.2, 0.1))],
        [(16, (1.5, 0.2)), (16, (2.4, 0.3)), (1, (5.4, 1.5)), (8, (4.1, 6.0))],
    ],
)
def test_arrangements_that_changing_places_does_not_mend(notes: list[tuple[int, Point]]) -> None:
    made = courses(placed([Keynote(" ".join(["WORDS"] * n), place) for n, place in notes]))
    assert not any(one.crosses(other) for one, other in combinations(made, 2))


def test_a_note_stands_level_with_what_it_names() -> None:
    made = placed([Keynote("RAIL", (2.0, 3.0)), Keynote("RAFTER", (2.0, 1.0))])
    levels = [line.points[0][1] for line in of_kind(made, Leader)]
    assert levels == pytest.approx([3.0, 1.0])


def test_words_are_flush_toward_the_drawing() -> None:
    right = of_kind(placed([Keynote("RAIL", (2.0, 3.0))]), Text)
    left = of_kind(placed([Keynote("RAIL", (2.0, 3.0))], Box(-2, 0, 0, 6)), Text)
    assert [(text.at[0], text.align) for text in right] == [(6.0, "left")]
    assert [(text.at[0], text.align) for text in left] == [(0.0, "right")]


def test_the_end_and_the_layers_are_those_asked_for() -> None:
    made = placed([Keynote("RAIL", (2.0, 3.0), "dot"), Keynote("LAG", (3.0, 2.0))])
    assert [line.end for line in of_kind(made, Leader)] == ["dot", "arrow"]
    assert {line.layer for line in of_kind(made, Leader)} == {LEADER}
    assert {text.layer for text in of_kind(made, Text)} == {TEXT}


def test_too_many_notes_are_told() -> None:
    notes = [Keynote(f"NOTE {n}", (2.0, n / 10)) for n in range(40)]
    with pytest.raises(ColumnFullError, match="40 notes"):
        placed(notes)


def test_a_full_column_is_filled_to_its_ends() -> None:
    notes = [Keynote(f"NOTE {n}", (2.0, n / 10)) for n in range(31)]
    boxes = [text_box(t.text, t.at, t.height, t.align) for t in of_kind(placed(notes), Text)]
    assert all(COLUMN.contains(box) for box in boxes)
    with pytest.raises(ColumnFullError):
        placed([*notes, Keynote("ONE MORE", (2.0, 5.0))])


@given(keynotes(), st.floats(0.1, 6.0))
def test_notes_fit_a_column_that_takes_them(notes: list[Keynote], height: float) -> None:
    column = Box(COLUMN.x0, 0.0, COLUMN.x1, height)
    try:
        placed(notes, column)
    except ColumnFullError:
        assert not notes_fit(notes, column)
    else:
        assert notes_fit(notes, column)
