"""The PDF file is sheets at true size, searchable, labeled and linked."""

from __future__ import annotations

import dataclasses
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from hash_seeds import digests
from pages import DRAWING, NOTES_PAGE, PLAN_VIEW, TITLEBLOCK
from pdf_checks import marks
from pypdf import PdfReader
from reportlab import rl_config

from planset.drawing.geometry import Box
from planset.formats.pdf_write import write_pdf


def test_pages_are_sheets_at_true_size(reader: PdfReader) -> None:
    for page in reader.pages:
        assert [float(n) for n in page.mediabox] == [0, 0, 17 * 72, 11 * 72]
        assert page.rotation == 0
        assert page.cropbox == page.mediabox
    assert len(reader.pages) == 2


def test_each_page_has_the_size_of_its_own_sheet(tmp_path: Path) -> None:
    large = dataclasses.replace(TITLEBLOCK, width=36.0, height=24.0)
    second = dataclasses.replace(NOTES_PAGE, sheet="S-502", titleblock="LARGE")
    blocks = {**DRAWING.titleblocks, "LARGE": large}
    drawing = dataclasses.replace(DRAWING, titleblocks=blocks, pages=(NOTES_PAGE, second))
    write_pdf(drawing, tmp_path / "two.pdf")
    pages = PdfReader(tmp_path / "two.pdf").pages
    assert [tuple(map(float, page.mediabox[2:])) for page in pages] == [(1224, 792), (2592, 1728)]


def test_says_what_it_is(reader: PdfReader) -> None:
    assert reader.metadata is not None
    assert reader.metadata.title == "SAMPLE RESIDENCE"
    assert reader.metadata.author == "A. DRAFTER"
    assert reader.metadata.subject == "Two sheets to try the writers on"
    root: Any = reader.trailer["/Root"]
    assert root["/Lang"] == "en-US"
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert not reader.is_encrypted
    assert "/OCProperties" not in root


def test_labels_and_bookmarks_are_the_sheets(reader: PdfReader) -> None:
    assert reader.page_labels == ["A-101", "S-501"]
    outline: list[Any] = reader.outline
    assert [entry.title for entry in outline] == ["A-101 ROOF PLAN", "S-501 DETAILS"]
    assert [reader.get_destination_page_number(entry) for entry in outline] == [0, 1]


def test_links_lead_to_their_sheets(reader: PdfReader) -> None:
    targets = []
    for page in reader.pages:
        for reference in page.annotations or ():
            link = reference.get_object()
            assert link["/Subtype"] == "/Link"
            assert [float(n) for n in link["/Border"]] == [0, 0, 0]
            target, fit = link["/Dest"]
            assert fit == "/Fit"
            number = reader.get_page_number(target.get_object())
            targets.append(([float(n) for n in link["/Rect"]], number))
    assert [number for _, number in targets] == [1, 0]  # the one to another file is left out
    assert targets[0][0] == pytest.approx([720, 104.4, 777.6, 118.8])


def test_one_face_is_embedded_and_searchable(reader: PdfReader) -> None:
    pages: list[Any] = list(reader.pages)
    fonts = {
        str(font.get_object()["/BaseFont"]): font.get_object()
        for page in pages
        for font in page["/Resources"]["/Font"].values()
    }
    ((name, font),) = fonts.items()
    assert name.endswith("+Arimo-Regular")
    assert "/FontFile2" in font["/FontDescriptor"]
    assert "/ToUnicode" in font


def test_the_same_bytes_under_any_hash_seed(tmp_path: Path) -> None:
    script = "from planset.formats.pdf_write import write_pdf; write_pdf(DRAWING, out)"
    assert len(digests(script, tmp_path, ("0", "1"))) == 1


def test_a_second_file_of_one_process_is_the_same(
    pdf_path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rl_config, "useA85", 1)
    write_pdf(DRAWING, tmp_path / "again.pdf")
    assert (tmp_path / "again.pdf").read_bytes() == pdf_path.read_bytes()
    assert rl_config.useA85 == 1  # put back for whoever else uses the library


def test_views_are_clipped_to_their_frames(reader: PdfReader) -> None:
    painted = marks(reader.pages[0], reader)
    wall = next(m for m in painted if m.points[0][1] < 144 and m.points[1][1] > 576)
    assert PLAN_VIEW.frame == Box(1, 2, 9, 8)
    assert wall.pen["clip"] == [(72, 144), (648, 576)]
    border = next(m for m in painted if m.points[0] == (36, 36))
    assert border.pen["clip"] is None


def test_special_characters_are_searchable(reader: PdfReader) -> None:
    assert "WIDTH ± 1/8 in^2, 100% Ø" in reader.pages[1].extract_text()


@pytest.mark.readers
def test_other_readers_find_nothing_wrong(pdf_path: Path) -> None:
    for command in (["qpdf", "--check"], ["pdffonts"], ["pdftotext", "-layout"]):
        program = shutil.which(command[0])
        assert program, f"install {command[0]}"
        out = ["-"] if command[0] == "pdftotext" else []
        done = subprocess.run(
            [program, *command[1:], str(pdf_path), *out], capture_output=True, text=True, check=True
        )
        assert done.stderr == ""
        if out:
            assert "WIDTH ± 1/8" in done.stdout
