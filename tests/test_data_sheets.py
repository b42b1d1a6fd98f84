"""Data sheets that a job names: in the set and its index, or refused with file, line and field."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from PIL import Image
from pypdf import PageObject, PdfReader
from pypdf.generic import Destination
from reportlab.pdfgen.canvas import Canvas

from planset.cli import main
from planset.drawing.page import DrawingSet
from planset.errors import JobErrors
from planset.formats.pdf_write import pdf_bytes
from planset.job.load import read_job
from planset.output.pdf_files import WHOLE
from planset.pipeline import Checked, check
from planset.resources import job_data_sheets
from planset.watch import saves
from tests.example_job import edited
from tests.sheets.drawn_sets import title_block

LAST = "  title_block: strip-11x17\n"


def document(*words: str, size: tuple[float, float] = (612.0, 792.0)) -> bytes:
    """A PDF file with a page per line of text."""
    content = BytesIO()
    canvas = Canvas(content, pagesize=size, invariant=1)
    for line in words:
        canvas.drawString(72, 300, line)
        canvas.showPage()
    canvas.save()
    return content.getvalue()


def job_with(folder: Path, *files: str) -> Path:
    """The example with data sheets that stand in these files."""
    lines = "".join(f'  - {{title: Part {n}, file: "{file}"}}\n' for n, file in enumerate(files, 1))
    return edited(folder, (LAST, f"{LAST}\ndata_sheets:\n{lines}"))


def told(job: Path) -> list[str]:
    """What is wrong with the data sheets of a job, its own name left out."""
    with pytest.raises(JobErrors) as caught:
        job_data_sheets(read_job(job), title_block())
    return [str(problem).removeprefix(str(job)) for problem in caught.value.problems]


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    folder = tmp_path_factory.mktemp("job")
    (folder / "parts").mkdir()
    (folder / "parts" / "module.pdf").write_bytes(document("MODULE", "MODULE, MORE"))
    (folder / "letter.pdf").write_bytes(document("LETTER", size=(792.0, 612.0)))
    return check(job_with(folder, "parts/module.pdf", "letter.pdf"))


def drawing(checked: Checked) -> DrawingSet:
    assert checked.drawing is not None
    return checked.drawing


def test_they_follow_the_sheets(checked: Checked) -> None:
    (pdf,) = (file for file in checked.pdfs if file.submitted)
    assert pdf.name == WHOLE
    reader = PdfReader(BytesIO(pdf.plot()))
    assert reader.page_labels[-3:] == ["D-1", "D-1.1", "D-2"]
    assert reader.page_labels[-4].startswith("E-701")
    assert [page.extract_text().strip() for page in reader.pages[-3:]] == [
        "MODULE",
        "MODULE, MORE",
        "LETTER",
    ]


def test_the_index_lists_them_with_their_pages(checked: Checked) -> None:
    cover = PdfReader(BytesIO(checked.pdfs[0].plot())).pages[0]
    assert "PART 1 (2 PAGES)" in " ".join(cover.extract_text().split())
    links = [str(note.get_object()["/Contents"]) for note in cover.annotations or ()]
    assert {"D-1 PART 1", "D-2 PART 2"} <= set(links)
    fails = [
        f.message for f in checked.findings if f.rule.startswith("drafting") and f.outcome == "fail"
    ]
    assert fails == []


def test_our_pages_do_not_change_but_for_the_index(checked: Checked, tmp_path: Path) -> None:
    without, ours = drawing(check(edited(tmp_path))), drawing(checked)
    sheets = [page.sheet for page in without.pages]
    assert [page.sheet for page in ours.pages] == sheets
    before, after = (PdfReader(BytesIO(pdf_bytes(one))).pages for one in (without, ours))
    # What has no room below the longer index goes on at the next page of the cover.
    cover = [number for number, sheet in enumerate(sheets) if sheet.partition(".")[0] == "G-001"]
    assert len(cover) < len(sheets) / 2
    said, says = (said_on(pages, cover) for pages in (before, after))
    assert says - said == Counter(["D-1", "PART 1 (2 PAGES)", "D-2", "PART 2 (1 PAGE)"])
    assert said - says == Counter()
    for number in range(len(sheets)):
        if number not in cover:
            plain, with_them = (pages[number].get_contents() for pages in (before, after))
            assert plain is not None
            assert with_them is not None
            assert plain.get_data() == with_them.get_data()


def said_on(pages: Sequence[PageObject], numbers: list[int]) -> Counter[str]:
    """The lines of some pages, without headings said anew where something goes on."""
    lines = [line.strip() for n in numbers for line in pages[n].extract_text().splitlines()]
    return Counter(line for line in lines if not line.endswith(", CONT."))


def test_as_many_as_a_job_may_name_are_in_the_index(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(document("A"))
    checked = check(job_with(tmp_path, *["a.pdf"] * 20))
    reader = PdfReader(BytesIO(checked.pdfs[0].plot()))
    assert reader.page_labels[-1] == "D-20"
    assert {f.outcome for f in checked.findings if f.rule.startswith("drafting")} == {"pass"}


@pytest.mark.parametrize("how", ["../out.pdf", "{}/out.pdf", "sub/../../out.pdf", "link.pdf"])
def test_a_path_that_leads_out_is_refused(how: str, tmp_path: Path) -> None:
    folder = tmp_path / "job"
    (folder / "sub").mkdir(parents=True)
    (tmp_path / "out.pdf").write_bytes(document("A"))
    (folder / "link.pdf").symlink_to(tmp_path / "out.pdf")
    name = how.format(tmp_path)
    (line,) = told(job_with(folder, name))
    assert "data_sheets.1.file: a path that leads out of the job's folder" in line
    assert line.endswith("copy the file beside the job and name it")


def test_each_file_that_cannot_be_used_is_told_with_its_line(tmp_path: Path) -> None:
    (tmp_path / "text.pdf").write_text("not this", encoding="utf-8")
    (tmp_path / "large.pdf").write_bytes(document("A", size=(36 * 72.0, 24 * 72.0)))
    (tmp_path / "folder.pdf").mkdir()
    job = job_with(tmp_path, "text.pdf", "none.pdf", "large.pdf", "folder.pdf")
    first = job.read_text(encoding="utf-8").splitlines().index("data_sheets:") + 2
    assert told(job) == [
        f":{first}: data_sheets.1.file: not a PDF file (got text.pdf); "
        "save or print the document as PDF",
        f":{first + 1}: data_sheets.2.file: no such file (got none.pdf); "
        "check its name, and its path from the job's folder",
        f":{first + 2}: data_sheets.3.file: page 1 is 36 x 24 in, larger than the set's sheets "
        "(got large.pdf); print it to a PDF file of 11 x 17 in or less",
        f":{first + 3}: data_sheets.4.file: no such file (got folder.pdf); "
        "check its name, and its path from the job's folder",
    ]


@pytest.mark.skipif(sys.platform == "win32", reason="no such names there")
@pytest.mark.parametrize("name", ["\\0.pdf", "a" * 300 + ".pdf", ".", "/dev/zero"])
def test_an_odd_name_is_no_crash(name: str, tmp_path: Path) -> None:
    (line,) = told(job_with(tmp_path, name))
    assert "data_sheets.1.file: " in line


def test_a_save_of_one_is_seen(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(document("A"))
    job = job_with(tmp_path, "a.pdf")
    changes = [document("A", "B")]

    def pause() -> None:
        if changes:
            path.write_bytes(changes.pop())

    told = saves(job, pause)
    assert next(told) == []
    assert next(told) == [path]


def scanned() -> bytes:
    """A page that is a picture and holds no words."""
    content = BytesIO()
    canvas = Canvas(content, pagesize=(612.0, 792.0), invariant=1)
    canvas.drawInlineImage(Image.new("1", (850, 1100), 1), 0, 0, 612, 792)
    canvas.save()
    return content.getvalue()


def locked(pdf: bytes, user: str) -> bytes:
    """The same file under a password; an empty one opens it, but forbids its use."""
    content = BytesIO()
    with pikepdf.open(BytesIO(pdf)) as opened:
        opened.save(content, encryption=pikepdf.Encryption(owner="owner", user=user))
    return content.getvalue()


def ended(*words: str) -> int | str | None:
    """The exit code of a command."""
    with pytest.raises(SystemExit) as caught:
        main([*words])
    return caught.value.code


def test_the_command_appends_what_makers_publish(tmp_path: Path) -> None:
    wide, many = (792.0, 612.0), [f"PAGE {n}" for n in range(1, 41)]
    (tmp_path / "scan.pdf").write_bytes(scanned())
    (tmp_path / "wide.pdf").write_bytes(document("WIDE", size=wide))
    (tmp_path / "manual.pdf").write_bytes(document(*many))
    job, out = job_with(tmp_path, "scan.pdf", "wide.pdf", "manual.pdf"), tmp_path / "out"
    assert ended("draw", str(job), "-o", str(out)) == 0
    reader = PdfReader(out / WHOLE)
    labels = reader.page_labels
    first = labels.index("D-1")
    assert labels[first:] == ["D-1", "D-2", "D-3", *(f"D-3.{n}" for n in range(1, 40))]
    sizes = [(float(page.mediabox.width), float(page.mediabox.height)) for page in reader.pages]
    assert sizes[first : first + 3] == [(612, 792), wide, (612, 792)]
    assert set(sizes[:first]) == {(17 * 72, 11 * 72)}
    assert "PAGE 40" in reader.pages[-1].extract_text()
    marked = {str(one.title): reader.get_destination_page_number(one) for one in flat(reader)}
    assert marked["D-3 PART 3"] == first + 2
    pages = [page.indirect_reference for page in reader.pages]
    notes = [note.get_object() for note in reader.pages[0].annotations or ()]
    leads = {str(one["/Contents"]): pages.index(one["/Dest"][0]) for one in notes}
    assert leads["D-2 PART 2"] == first + 1


def flat(reader: PdfReader) -> list[Destination]:
    """The bookmarks of a file that has no deeper ones."""
    return [one for one in reader.outline if isinstance(one, Destination)]


def test_the_command_tells_each_file_that_it_cannot_take(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "400")
    whole = document("A")
    (tmp_path / "locked.pdf").write_bytes(locked(whole, "user"))
    (tmp_path / "kept.pdf").write_bytes(locked(whole, ""))
    (tmp_path / "half.pdf").write_bytes(whole[: len(whole) // 2])
    (tmp_path / "empty.pdf").write_bytes(b"")
    job = job_with(tmp_path, "locked.pdf", "kept.pdf", "half.pdf", "empty.pdf")
    assert ended("draw", str(job), "-o", str(tmp_path / "out")) == 2
    assert not (tmp_path / "out").exists()
    said = "".join(capsys.readouterr())
    for name in ("locked.pdf", "kept.pdf"):
        assert f"the PDF file is locked (got {name}); ask its publisher" in said
    assert "(got half.pdf); open it in a viewer and print it to a new PDF file" in said
    assert "not a PDF file (got empty.pdf)" in said
    assert "4 problems" in said
