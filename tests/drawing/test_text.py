"""Widths of the face, wrapping, boxes."""

from __future__ import annotations

import csv
from pathlib import Path

import fontpkg_arimo
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase.ttfonts import TTFont

from planset.drawing import text as module
from planset.drawing.geometry import Box
from planset.drawing.text import (
    CAP_HEIGHT_UNITS,
    DESCENT,
    MINIMUM_HEIGHT,
    SLACK,
    UNITS_PER_EM,
    height_to_fit,
    text_box,
    text_width,
    wrap,
)
from planset.formats.pdf_write import FACE_FILE

FACE = TTFont("Face", str(fontpkg_arimo.ROOT / "files" / FACE_FILE)).face
TABLE = Path(module.__file__).with_name("face_widths.csv")
ROWS = [
    (chr(int(row["codepoint"], 16)), int(row["width"]))
    for row in csv.DictReader(
        line for line in TABLE.read_text(encoding="utf-8").splitlines() if line[0] != "#"
    )
]
CHARACTERS = "".join(character for character, _ in ROWS)
words = st.text(CHARACTERS, min_size=1, max_size=30)


def test_every_width_is_that_of_the_font_file() -> None:
    assert len(ROWS) > 150
    wrong = [
        (f"{ord(character):04X}", width, FACE.charWidths.get(ord(character)))
        for character, width in ROWS
        if round(FACE.charWidths.get(ord(character), -1) * UNITS_PER_EM / 1000, 6) != width
    ]
    assert wrong == []


def test_the_table_lists_each_character_once() -> None:
    assert len(set(CHARACTERS)) == len(CHARACTERS)
    assert {chr(code) for code in range(0x20, 0x7F)} <= set(CHARACTERS)


def test_heights_are_those_of_the_font_file() -> None:
    assert round(FACE.capHeight * UNITS_PER_EM / 1000) == CAP_HEIGHT_UNITS
    assert FACE.unitsPerEm == UNITS_PER_EM
    # The deepest letters, g j p q y, reach about as far below the line as the face says.
    assert pytest.approx(-FACE.descent / FACE.capHeight, abs=0.02) == DESCENT


@given(words, words, st.floats(0.05, 1.0))
def test_a_line_is_as_wide_as_its_characters(a: str, b: str, height: float) -> None:
    assert text_width(a + b, height) == pytest.approx(text_width(a, height) + text_width(b, height))
    assert text_width(a, 2 * height) == pytest.approx(2 * text_width(a, height))


def test_the_height_is_that_of_capitals() -> None:
    # H is 1479 units wide and 1409 high in the font file, so 0.1 in high it is 0.105 in wide.
    assert text_width("H", 0.1) == pytest.approx(0.1 * 1479 / 1409)


@pytest.mark.parametrize("stranger", ["Ж", "\u2192", "\U0001f600", "\t", "\n"])
def test_a_character_the_face_lacks_is_named(stranger: str) -> None:
    with pytest.raises(ValueError, match="use another spelling") as refused:
        text_width(f"A{stranger}", 0.1)
    assert repr(stranger) in str(refused.value)


paragraphs = st.lists(st.text(CHARACTERS, min_size=1, max_size=7), max_size=60).map(" ".join)


@given(
    st.one_of(st.text(CHARACTERS + "\n     ", max_size=300), paragraphs),
    st.floats(0.05, 0.3),
    st.floats(0.1, 8.0),
)
def test_wrapping_keeps_to_the_column_and_loses_no_word(
    text: str, height: float, width: float
) -> None:
    lines = wrap(text, height, width)
    assert " ".join(lines).split() == text.split()
    for line in lines:
        assert (
            text_width(line, height) * SLACK <= width * (1 + 1e-9)
            or len(wrap(line, height, 0.0)) == 1
        )


@given(st.lists(st.text("abcdefgh", min_size=1, max_size=8), min_size=2), st.floats(0.5, 4.0))
def test_no_line_is_broken_too_early(words: list[str], width: float) -> None:
    lines = wrap(" ".join(words), 0.1, width)
    for line, following in zip(lines, lines[1:], strict=False):
        longer = f"{line} {following.split()[0]}"
        assert text_width(longer, 0.1) * SLACK > width


@given(words, st.floats(0.1, 0.4), st.floats(0.05, 6.0))
def test_a_line_is_drawn_smaller_to_fit_but_never_too_small_to_read(
    line: str, height: float, width: float
) -> None:
    found = height_to_fit(line, height, width)
    assert MINIMUM_HEIGHT <= found <= height
    fits = text_width(line, found) * SLACK <= width * (1 + 1e-9)
    assert fits or found == MINIMUM_HEIGHT
    if text_width(line, height) * SLACK <= width:
        assert found == height


def test_what_is_asked_for_below_the_least_height_is_not_enlarged() -> None:
    assert height_to_fit("A LONG LINE OF WORDS", 0.05, 0.1) == 0.05


def test_a_line_break_is_kept() -> None:
    assert wrap("ONE TWO\nTHREE", 0.1, 5.0) == ["ONE TWO", "THREE"]
    assert wrap("ONE\n\nTWO", 0.1, 5.0) == ["ONE", "", "TWO"]


def test_a_word_wider_than_the_column_stays_whole() -> None:
    assert wrap("A WEATHERPROOFING B", 0.1, 0.5) == ["A", "WEATHERPROOFING", "B"]


@pytest.mark.parametrize(
    ("align", "left", "base"),
    [("left", 0.0, 0.0), ("center", -0.5, 0.0), ("right", -1.0, 0.0), ("middle", -0.5, -0.05)],
)
def test_the_box_of_a_line(align: str, left: float, base: float) -> None:
    width = text_width("RIDGE", 0.1)
    found = text_box("RIDGE", (2.0, 3.0), 0.1, align)
    x0, y0 = 2.0 + left * width, 3.0 + base
    expected = Box(x0, y0 - DESCENT * 0.1, x0 + width, y0 + 0.1)
    assert found.corners[0] == pytest.approx(expected.corners[0])
    assert found.corners[2] == pytest.approx(expected.corners[2])


@pytest.mark.parametrize("align", ["left", "center", "right", "middle"])
def test_slack_widens_the_box_about_its_anchor(align: str) -> None:
    tight = text_box("RIDGE", (0.0, 0.0), 0.1, align)
    slack = text_box("RIDGE", (0.0, 0.0), 0.1, align, slack=SLACK)
    assert slack.width == pytest.approx(tight.width * SLACK)
    assert slack.contains(tight)
    assert slack.height == tight.height


@pytest.mark.parametrize("width", [n / 10 for n in range(1, 25)])
@pytest.mark.parametrize(
    ("words", "whole"),
    [
        ("HOOK ARM 1 1/4 in x 1/4 in FLAT", ("1 1/4 in", "1/4 in")),
        ("AT 24 in O.C., 60 A FUSED", ("24 in", "60 A")),
        ("COVERS 26.3 % OF 1496 SQ FT", ("26.3 %",)),
    ],
)
def test_a_mixed_number_and_its_unit_stay_together(
    words: str, whole: tuple[str, ...], width: float
) -> None:
    """1 1/4 in broken after the 1 reads as 1/4 in."""
    lines = wrap(words, 0.1, width)
    assert " ".join(lines) == words
    for figure in whole:
        assert sum(line.count(figure) for line in lines) == words.count(figure)


def test_other_words_after_a_figure_may_go_on_below() -> None:
    assert wrap("4 ROWS", 0.1, 0.3) == ["4", "ROWS"]
    assert wrap("2 IN ALL", 0.1, 0.4) == ["2 IN", "ALL"]


def test_a_sign_stands_on_the_line_of_its_limit() -> None:
    """A line that ends in <= reads as if its limit were left out."""
    assert wrap("GAP, >= 0.25", 0.1, 0.6) == ["GAP,", ">= 0.25"]
    assert wrap("MAIN <= 1'-5 15/16\" HIGH", 0.1, 0.5) == ["MAIN", "<= 1'-5 15/16\"", "HIGH"]
