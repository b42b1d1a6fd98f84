"""What on a page names another sheet or view."""

from __future__ import annotations

import math

import pytest

from planset.drawing.callouts import Callout, callouts
from planset.drawing.furniture import BUBBLE_RADIUS, bubble
from planset.drawing.geometry import Box
from planset.drawing.primitives import Text
from planset.drawing.text import text_width

LAYER = "G-ANNO-TEXT"


def named(words: str) -> list[tuple[str, int]]:
    return [(found.sheet, found.view) for found in callouts([Text(words, (1, 1), 0.1, LAYER)])]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("SEE S-501", [("S-501", 0)]),
        ("TYPICAL, 2/S-501; LOADS ON S-601.1.", [("S-501", 2), ("S-601.1", 0)]),
        ("What loads rest on is listed on S-601.", [("S-601", 0)]),
        ("SEE D-2", [("D-2", 0)]),
        ("MODEL XS-501, S-5012, 10-S-501, R-2/D-4", []),
        ("A-101/S-501", []),
        ("", []),
    ],
)
def test_words(words: str, expected: list[tuple[str, int]]) -> None:
    assert named(words) == expected


def test_the_place_of_a_name_in_its_line() -> None:
    (found,) = callouts([Text("SEE S-501 AND MORE", (2, 3), 0.1, LAYER)])
    assert found.box.x0 == pytest.approx(2 + text_width("SEE ", 0.1))
    assert found.box.width == pytest.approx(text_width("S-501", 0.1))
    assert found.box.y0 < 3 < found.box.y1 == pytest.approx(3.1)


@pytest.mark.parametrize("align", ["center", "middle", "right"])
def test_a_line_set_otherwise(align: str) -> None:
    (found,) = callouts([Text("S-501", (2, 3), 0.1, LAYER, align)])
    width = text_width("S-501", 0.1)
    assert found.box.x0 == pytest.approx(2 - (width if align == "right" else width / 2))


def test_a_line_turned() -> None:
    (found,) = callouts([Text("S-501", (2, 3), 0.1, LAYER, "left", 90.0)])
    assert found.box.height == pytest.approx(text_width("S-501", 0.1))
    assert math.isclose(found.box.y0, 3)


def test_a_bubble_is_one_callout() -> None:
    (found,) = callouts(bubble((3, 4), "2", "S-501"))
    assert found == Callout("S-501", 2, Box(3, 4, 3, 4).grown(BUBBLE_RADIUS), is_bubble=True)


def test_two_bubbles_side_by_side() -> None:
    found = callouts([*bubble((3, 4), "1", "S-501"), *bubble((3.7, 4), "2", "A-101")])
    assert [(callout.sheet, callout.view) for callout in found] == [("S-501", 1), ("A-101", 2)]
