"""Labels at full size: exact words, the colors an edition fixes, plain where it fixes none."""

from __future__ import annotations

import pytest

from planset.codes.nec.labels import labels
from planset.design.electrical.system import PlacedLabel
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box, box_around
from planset.drawing.primitives import Area, Polyline, Primitive, Text
from planset.drawing.text import text_box
from planset.sheets.label_face import Picture, face
from planset.sheets.label_words import notes

EDITIONS = (2017, 2020, 2023)
WORDED = [
    (name, year, words)
    for year in EDITIONS
    for name, label in labels(year).items()
    for words in label.words
]


def placed(name: str, edition: int, lines: tuple[str, ...] = ()) -> PlacedLabel:
    label = labels(edition)[name]
    return PlacedLabel("L1", name, label, lines or label.words[0], ("DISC1",), 1, "")


def drawn(label: PlacedLabel, picture: Picture | None = None) -> list[Primitive]:
    return face(label, picture, 12.0).at((1.0, 9.0))


def texts(parts: list[Primitive]) -> list[Text]:
    return [part for part in parts if isinstance(part, Text)]


def fills(parts: list[Primitive]) -> dict[str, Box]:
    """Per layer what it fills."""
    return {part.layer: box_around(part.points) for part in parts if isinstance(part, Area)}


@pytest.mark.parametrize(("name", "edition", "words"), WORDED)
def test_the_words_are_those_of_the_code_and_stay_inside(
    name: str, edition: int, words: tuple[str, ...]
) -> None:
    parts = drawn(placed(name, edition, words))
    lines = texts(parts)
    assert " ".join(line.text for line in lines) == " ".join(words)
    (outline,) = [box_around(p.points) for p in parts if isinstance(p, Polyline)]
    for line in lines:
        assert outline.contains(text_box(line.text, line.at, line.height, line.align))


@pytest.mark.parametrize(
    ("name", "edition", "layers", "background"),
    [
        # NEC 2020, 690.31(D)(2), 690.56(C)(2); NEC 2023, 230.85(E): white on red
        ("dc_raceway", 2020, ["E-LABL-WHTE"], ["E-LABL-REDB"]),
        ("rapid_shutdown_switch", 2020, ["E-LABL-WHTE"], ["E-LABL-REDB"]),
        ("emergency_disconnect", 2023, ["E-LABL-WHTE"], ["E-LABL-REDB"]),
        # NEC 2020, 690.56(C): title black on yellow, the rest black on white
        ("rapid_shutdown", 2020, ["E-LABL-BLCK"], ["E-LABL-YELB"]),
        # NEC 2023, 690.12(D)(1), and NEC 2020, 690.13(B), fix no color
        ("rapid_shutdown", 2023, ["E-LABL-BLCK"], []),
        ("pv_disconnect", 2020, ["E-LABL-BLCK"], []),
    ],
)
def test_colors_are_those_the_edition_fixes(
    name: str, edition: int, layers: list[str], background: list[str]
) -> None:
    parts = drawn(placed(name, edition))
    assert list(dict.fromkeys(line.layer for line in texts(parts))) == layers
    assert list(fills(parts)) == background


def test_white_letters_stand_on_the_fill_and_the_fill_is_drawn_first() -> None:
    """NEC 2017, 690.56(C)(1)(b) (from memory): title white on red, the rest black on white."""
    parts = drawn(placed("rapid_shutdown_outside_only", 2017))
    red = fills(parts)["E-LABL-REDB"]
    for line in texts(parts):
        on_red = red.contains(text_box(line.text, line.at, line.height, line.align))
        assert on_red == (line.layer == "E-LABL-WHTE")
    first = next(n for n, part in enumerate(parts) if isinstance(part, Text))
    assert any(isinstance(part, Area) for part in parts[:first])


def test_a_picture_stands_beside_the_words() -> None:
    boxes: list[Box] = []

    def draw(box: Box) -> list[Primitive]:
        boxes.append(box)
        return []

    parts = drawn(placed("rapid_shutdown", 2020), Picture(3.0, 2.0, draw))
    (box,) = boxes
    assert box.width == pytest.approx(3.0)
    assert box.height == pytest.approx(2.0)
    for line in texts(parts):
        assert not box.overlaps(text_box(line.text, line.at, line.height, line.align))


def test_a_word_wider_than_the_sheet_is_told() -> None:
    with pytest.raises(ViewTooLargeError, match="label L1 is at least"):
        face(placed("dc_raceway", 2020), None, 2.0)


def test_what_is_said_beside_a_label() -> None:
    """NEC 2020, 690.56(C)(2): reflective, 3/8 in, white on red, within 3 ft of the switch."""
    said = "\n".join(notes(placed("rapid_shutdown_switch", 2020)))
    for words in ("CAPITALS 3/8 in OR HIGHER", "WHITE ON RED; REFLECTIVE", "WITHIN 3 FT OF IT"):
        assert words in said
    assert "MEMORY" not in said
    plain = "\n".join(notes(placed("pv_disconnect", 2017)))
    assert "NO COLOR OR HEIGHT FIXED, DRAWN 1/4 in" in plain
