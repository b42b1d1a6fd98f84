"""Data sheets and attachments in the file of a set."""

from __future__ import annotations

import dataclasses
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from typing import Any

import odd_pdfs as odd
import pytest
from hash_seeds import digests
from pages import DRAWING, NOTES_PAGE
from pypdf import PdfReader

from planset.drawing.page import DataSheet, DrawingSet
from planset.drawing.primitives import Link
from planset.formats.pdf_read import read_pdf_pages
from planset.formats.pdf_write import pdf_bytes


def data_sheet(folder: Path, number: int, content: bytes) -> DataSheet:
    path = folder / f"{number}.pdf"
    path.write_bytes(content)
    pages = read_pdf_pages(path)
    return DataSheet(f"D-{number}", f"SHEET {number}", pages.sizes, pages.content)


@pytest.fixture
def with_two(tmp_path: Path) -> DrawingSet:
    """The small set, a link to its first data sheet, and two of them: of three pages and of one."""
    two = (
        data_sheet(tmp_path, 1, odd.document(3)),
        data_sheet(tmp_path, 2, odd.document(1, (792.0, 612.0))),
    )
    notes = dataclasses.replace(NOTES_PAGE, paper=(*NOTES_PAGE.paper, Link((1, 1), (2, 2), "D-2")))
    pages = (DRAWING.pages[0], notes)
    return dataclasses.replace(DRAWING, pages=pages, data_sheets=two)


def test_their_pages_follow_ours(with_two: DrawingSet) -> None:
    reader = PdfReader(BytesIO(pdf_bytes(with_two)))
    assert reader.page_labels == ["A-101", "S-501", "D-1", "D-1.1", "D-1.2", "D-2"]
    theirs = [page.extract_text().strip() for page in reader.pages[2:]]
    assert theirs == [f"{odd.WORDS}, PAGE {n}" for n in (1, 2, 3, 1)]
    sizes = [tuple(map(float, page.mediabox[2:])) for page in reader.pages[2:]]
    assert sizes == [(612, 792)] * 3 + [(792, 612)]


def test_bookmarks_and_links_lead_to_them(with_two: DrawingSet) -> None:
    reader = PdfReader(BytesIO(pdf_bytes(with_two)))
    outline: list[Any] = reader.outline
    assert [entry.title for entry in outline[2:]] == ["D-1 SHEET 1", "D-2 SHEET 2"]
    assert [reader.get_destination_page_number(entry) for entry in outline[2:]] == [2, 5]
    ends = [
        note.get_object()["/Dest"][0].get_object() for note in reader.pages[1].annotations or ()
    ]
    assert reader.get_page_number(ends[-1]) == 5


def test_our_pages_stay_byte_by_byte(with_two: DrawingSet) -> None:
    plain = PdfReader(BytesIO(pdf_bytes(dataclasses.replace(with_two, data_sheets=()))))
    finished = PdfReader(BytesIO(pdf_bytes(with_two, attachments={"job.yaml": b"planset: 1\n"})))
    for before, after in zip(plain.pages, finished.pages[:2], strict=True):
        assert before.get_contents().get_data() == after.get_contents().get_data()  # type: ignore[union-attr]
        assert before["/MediaBox"] == after["/MediaBox"]
        assert ("/VP" in before) == ("/VP" in after)
        fonts = [page["/Resources"]["/Font"] for page in (before, after)]  # type: ignore[index]
        files = [
            next(iter(font.values())).get_object()["/FontDescriptor"]["/FontFile2"].get_data()
            for font in fonts
        ]
        assert files[0] == files[1]
    for key in ("/Lang", "/ViewerPreferences", "/PageMode"):
        assert plain.trailer["/Root"][key] == finished.trailer["/Root"][key]  # type: ignore[index]


def test_attachments_are_in_the_file() -> None:
    reader = PdfReader(BytesIO(pdf_bytes(DRAWING, attachments={"job.yaml": b"planset: 1\n"})))
    assert reader.attachments == {"job.yaml": [b"planset: 1\n"]}


def test_a_set_without_them_does_not_load_the_library() -> None:
    script = "import sys, planset.pipeline; sys.exit('pikepdf' in sys.modules)"
    subprocess.run([sys.executable, "-c", script], check=True)


def test_the_same_bytes_under_any_hash_seed(tmp_path: Path) -> None:
    (tmp_path / "data.pdf").write_bytes(odd.changed(odd.with_form, odd.document(3)))
    script = f"""
import dataclasses
from pathlib import Path
from planset.drawing.page import DataSheet
from planset.formats.pdf_read import read_pdf_pages
from planset.formats.pdf_write import pdf_bytes
pages = read_pdf_pages(Path({str(tmp_path / "data.pdf")!r}))
sheet = DataSheet("D-1", "ONE", pages.sizes, pages.content)
drawing = dataclasses.replace(DRAWING, data_sheets=(sheet,))
out.write_bytes(pdf_bytes(drawing, attachments={{"b": b"2", "a": b"1"}}))
"""
    assert len(digests(script, tmp_path, ("0", "1", "2"))) == 1
