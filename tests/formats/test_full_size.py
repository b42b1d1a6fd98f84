"""Letters of labels as high on paper as the code asks, read back from the PDF file."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from pages import DRAWING, NOTES_PAGE
from pdf_checks import texts
from pypdf import PdfReader

from planset.codes.nec.labels import labels
from planset.design.electrical.system import PlacedLabel
from planset.drawing.text import CAP_HEIGHT_EM
from planset.formats.pdf_write import write_pdf
from planset.sheets.label_face import face


def capitals(tmp_path: Path, name: str, edition: int) -> dict[str, float]:
    """Per line of a label the height of its capitals on paper [in]."""
    label = labels(edition)[name]
    placed = PlacedLabel("L1", name, label, label.words[0], ("MSP",), 1, "")
    paper = tuple(face(placed, None, 12.0).at((1.0, 9.0)))
    file = tmp_path / "label.pdf"
    page = dataclasses.replace(NOTES_PAGE, paper=paper)
    write_pdf(dataclasses.replace(DRAWING, pages=(page,), blocks={}), file)
    found = texts(PdfReader(file).pages[0])
    return {words: size * CAP_HEIGHT_EM / 72 for words, (size, _) in found.items()}


@pytest.mark.parametrize(
    ("name", "edition", "height_in"),
    [
        ("dc_raceway", 2017, 0.375),  # NEC 2017, 690.31(G)(4) (from memory)
        ("dc_raceway", 2020, 0.375),  # NEC 2020, 690.31(D)(2)
        ("rapid_shutdown_switch", 2020, 0.375),  # NEC 2020, 690.56(C)(2)
        ("rapid_shutdown_switch", 2023, 0.375),  # NEC 2023, 690.12(D)(2)
        ("emergency_disconnect", 2023, 0.5),  # NEC 2023, 230.85(E)
    ],
)
def test_all_letters_have_the_one_height_the_code_fixes(
    tmp_path: Path, name: str, edition: int, height_in: float
) -> None:
    heights = capitals(tmp_path, name, edition)
    assert heights
    assert list(heights.values()) == [pytest.approx(height_in, abs=1e-4)] * len(heights)


@pytest.mark.parametrize("edition", [2017, 2020])
def test_title_and_rest_have_the_heights_the_code_fixes(tmp_path: Path, edition: int) -> None:
    """NEC 2020, 690.56(C): title 3/8 in, all other text 3/16 in; NEC 2017 from memory."""
    heights = capitals(tmp_path, "rapid_shutdown", edition)
    assert " ".join(heights) == (
        "SOLAR PV SYSTEM IS EQUIPPED WITH RAPID SHUTDOWN TURN RAPID SHUTDOWN SWITCH TO THE 'OFF' "
        "POSITION TO SHUT DOWN PV SYSTEM AND REDUCE SHOCK HAZARD IN ARRAY"
    )
    title = [h for h in heights.values() if h > 0.3]
    assert title == [pytest.approx(0.375, abs=1e-4)] * 3
    rest = [h for h in heights.values() if h < 0.3]
    assert rest == [pytest.approx(0.1875, abs=1e-4)] * (len(heights) - 3)
