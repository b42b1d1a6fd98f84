"""PDF files of others: what is taken from them, and which are refused."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import odd_pdfs as odd
import pikepdf
import pytest
from pypdf import PdfReader

from planset.formats.pdf_read import MOST_PAGES, PdfPages, read_pdf_pages
from planset.formats.refused import RefusedError


def read(tmp_path: Path, content: bytes) -> PdfPages:
    path = tmp_path / "data.pdf"
    path.write_bytes(content)
    return read_pdf_pages(path)


def refusal(tmp_path: Path, content: bytes) -> str:
    with pytest.raises(RefusedError) as caught:
        read(tmp_path, content)
    assert caught.value.mend
    return caught.value.message


def words(content: bytes) -> list[str]:
    return [page.extract_text().strip() for page in PdfReader(BytesIO(content)).pages]


def test_the_pages_are_taken_as_they_are(tmp_path: Path) -> None:
    original = odd.document(3)
    pages = read(tmp_path, original)
    assert pages.sizes == ((8.5, 11.0),) * 3
    assert words(pages.content) == words(original)
    for ours, theirs in zip(
        PdfReader(BytesIO(pages.content)).pages, PdfReader(BytesIO(original)).pages, strict=True
    ):
        assert ours.get_contents().get_data() == theirs.get_contents().get_data()  # type: ignore[union-attr]


def test_equal_files_give_equal_bytes(tmp_path: Path) -> None:
    assert read(tmp_path, odd.document(2)) == read(tmp_path, odd.document(2))


@pytest.mark.parametrize(
    ("change", "gone"),
    [
        (odd.with_javascript, ["JavaScript", "/JS", "/AA", "OpenAction", "app.alert"]),
        (odd.with_files, ["EmbeddedFile", "/AF", "FileAttachment", ".exe"]),
        (odd.with_links, ["/URI", "/Launch", "/Annots", "example.invalid"]),
        (odd.with_form, ["/AcroForm", "/Widget", "/Annots"]),
        (odd.with_metadata, ["SOMEBODY", "/Metadata", "/PieceInfo", "/Author"]),
        (odd.with_layers, ["/OCProperties", "/OCG"]),
    ],
    ids=lambda value: value.__name__ if callable(value) else "",
)
def test_what_a_print_does_not_show_goes(
    change: Callable[[pikepdf.Pdf], None], gone: list[str], tmp_path: Path
) -> None:
    before = odd.changed(change, qdf=True)
    assert all(word.encode() in before for word in gone)  # else the test tests nothing
    pages = read(tmp_path, before)
    with pikepdf.open(BytesIO(pages.content)) as pdf:
        plain = BytesIO()
        pdf.save(plain, qdf=True, static_id=True)
    assert [word for word in gone if word.encode() in plain.getvalue()] == []
    assert odd.WORDS in words(pages.content)[0]


def test_what_was_filled_in_stays(tmp_path: Path) -> None:
    (text,) = words(read(tmp_path, odd.changed(odd.with_form)).content)
    assert "FILLED IN" in text


def test_what_hides_among_resources_goes(tmp_path: Path) -> None:
    def hide(pdf: pikepdf.Pdf) -> None:
        odd.with_files(pdf)
        odd.with_javascript(pdf)
        pdf.pages[0].obj.Resources.Properties = pikepdf.Dictionary(All=pdf.Root)

    before = odd.changed(hide, qdf=True)
    with pikepdf.open(BytesIO(read(tmp_path, before).content)) as pdf:
        plain = BytesIO()
        pdf.save(plain, qdf=True, static_id=True)
    for word in (b"EmbeddedFile", b"app.alert"):
        assert word in before
        assert word not in plain.getvalue()


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"A LETTER", "not a PDF file"),
        (b"", "not a PDF file"),
        (odd.document()[:-300], "the PDF file is damaged"),
        (odd.document()[:200], "the PDF file is damaged"),
        (odd.locked("secret"), "the PDF file is locked"),
        (odd.locked(), "the PDF file is locked"),
        (odd.changed(odd.as_portfolio), "a portfolio of several files"),
        (odd.changed(odd.as_program_form), "a form that only its own program can show"),
        (odd.changed(odd.with_a_hidden_layer), "it has layers that are switched off"),
        (odd.changed(odd.with_an_unprinted_layer), "it has layers that are switched off"),
        (odd.changed(odd.with_an_outside_stream), "page 1 draws on another file"),
        (odd.changed(odd.without_pages), f"0 pages, where 1 to {MOST_PAGES} are taken"),
        (odd.document(MOST_PAGES + 1), f"{MOST_PAGES + 1} pages, where"),
        (odd.changed(odd.of_size(0, 0)), "page 1 is 0 x 0 in"),
        (odd.changed(odd.of_size(1e7, 1e7)), "page 1 is 1.389e.05 x 1.389e.05 in"),
    ],
)
def test_what_cannot_be_taken_is_refused_by_name(
    content: bytes, message: str, tmp_path: Path
) -> None:
    assert re.match(message, refusal(tmp_path, content))


def test_a_small_file_that_unpacks_to_a_large_one_is_refused(tmp_path: Path) -> None:
    assert re.match("the PDF file is damaged", refusal(tmp_path, odd.unpacking()))


def test_ten_thousand_pages_are_refused_at_once(tmp_path: Path) -> None:
    content = odd.bare(10_000)
    started = time.perf_counter()
    assert refusal(tmp_path, content).startswith("10,000 pages")
    assert time.perf_counter() - started < 5


def test_a_damaged_page_is_found(tmp_path: Path) -> None:
    good = odd.document()
    place = good.index(b"stream\n") + len(b"stream\n") + 5
    said = refusal(tmp_path, good[:place] + b"\xff" * 9 + good[place + 9 :])
    assert said.startswith("the PDF file is damaged")


def test_a_turned_page_has_the_size_it_is_seen_in(tmp_path: Path) -> None:
    def turn(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.Rotate = 90

    assert read(tmp_path, odd.changed(turn)).sizes == ((11.0, 8.5),)


def test_a_cropped_page_has_the_size_it_is_seen_in(tmp_path: Path) -> None:
    def crop(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.CropBox = pikepdf.Array([72, 72, 540, 720])

    assert read(tmp_path, odd.changed(crop)).sizes == ((6.5, 9.0),)
