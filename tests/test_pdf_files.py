"""The PDF files of a set are those its jurisdiction takes: how many, their names, flat, small."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from pypdf import PdfReader

from planset.catalog.library import PACKAGE_DATA
from planset.drawing.page import DataSheet, DrawingSet
from planset.errors import JobErrors
from planset.finding import Finding, Outcome
from planset.formats.pdf_write import pdf_bytes
from planset.job.load import Inputs, read_job
from planset.output.pdf_files import PdfFile, pdf_files
from planset.pipeline import Status, draw
from planset.review.files import judge_files
from tests.example_job import edited
from tests.sheets.drawn_sets import example

PROFILE = "port-larkin"


def job_under(folder: Path, submission: str, *edits: tuple[str, str]) -> Path:
    """The example under its own profile, but with this form of submission."""
    path = folder / "catalog" / "jurisdictions" / f"{PROFILE}.yaml"
    path.parent.mkdir(parents=True)
    text = (PACKAGE_DATA / "jurisdictions" / path.name).read_text(encoding="utf-8")
    text = re.sub(r"^submission:\n( .*\n?)*", "", text, flags=re.MULTILINE)
    path.write_text(f"{text.rstrip()}\n{stated(submission)}", encoding="utf-8")
    return edited(folder, *edits)


def stated(submission: str) -> str:
    """`files: one, flat: true` as sourced values of a profile."""
    if not submission:
        return ""
    from_where = 'source: Guide, date: "2026-01-01"'
    fields = [field.split(": ", 1) for field in submission.split(", ")]
    lines = [f"  {name}: {{value: {value}, {from_where}}}" for name, value in fields]
    return "\n".join(["submission:", *lines]) + "\n"


def drawing() -> DrawingSet:
    return example().drawing.for_review


def files_under(folder: Path, submission: str, *edits: tuple[str, str]) -> tuple[PdfFile, ...]:
    inputs = read_job(job_under(folder, submission, *edits))
    return pdf_files(inputs, drawing(), ())


def reader(file: PdfFile) -> PdfReader:
    return PdfReader(BytesIO(file.plot()))


def names(files: tuple[PdfFile, ...]) -> list[str]:
    return [file.name for file in files]


@pytest.mark.parametrize("submission", ["", "files: one"])
def test_one_file_is_the_whole_set(submission: str, tmp_path: Path) -> None:
    (whole,) = files_under(tmp_path, submission)
    assert whole.name == "planset.pdf"
    assert whole.submitted
    assert reader(whole).page_labels == [page.sheet for page in drawing().pages]


def test_one_file_per_sheet_beside_the_whole_set(tmp_path: Path) -> None:
    whole, *sheets = files_under(tmp_path, "files: per_sheet")
    assert not whole.submitted
    ids = [page.sheet for page in drawing().pages]
    assert "S-601.1" in ids
    assert [file.name for file in sheets] == [f"{sheet.replace('.', '-')}.pdf" for sheet in ids]
    labels = [reader(file).page_labels for file in sheets[:3]]
    assert labels == [[sheet] for sheet in ids[:3]]
    # Nothing leads to another file.
    assert not reader(sheets[1]).pages[0].annotations


def test_data_sheets_are_files_of_their_own_then(tmp_path: Path) -> None:
    inputs = read_job(job_under(tmp_path, "files: per_sheet"))
    sheet = DataSheet("D-1", "MODULE", ((8.5, 11.0),), example_page())
    files = pdf_files(inputs, replace(drawing(), data_sheets=(sheet,)), ())
    assert files[-1].name == "D-1.pdf"
    assert reader(files[-1]).page_labels == ["D-1"]


def example_page() -> bytes:
    return pdf_bytes(replace(drawing(), pages=drawing().pages[-1:]), links=False)


@pytest.mark.parametrize(
    ("submission", "expected"),
    [
        ('file_name: "C{cycle}-{project}-PLANS"', "C1-Tallow-Creek-Residence-PLANS.pdf"),
        ('file_name: "{number}_{revision}"', "2026-014_0.pdf"),
        ('files: per_sheet, file_name: "C{cycle}_{sheet}_{title}"', "C1_G-001_COVER-SHEET.pdf"),
    ],
)
def test_names_follow_the_pattern(submission: str, expected: str, tmp_path: Path) -> None:
    whole, first, *_ = files_under(tmp_path, submission)
    assert (whole.name, first.name) == ("planset.pdf", expected)
    assert first.submitted
    assert not whole.submitted


def test_the_second_submittal_is_cycle_two(tmp_path: Path) -> None:
    revision = ('revision: "0"', 'revision: "1"')
    _, first = files_under(tmp_path, 'file_name: "C{cycle}"', revision)
    assert first.name == "C2.pdf"


def test_names_hold_nothing_a_portal_refuses(tmp_path: Path) -> None:
    """Menlo Park: no ! # % and no extra periods; Coral Springs: no , and # (reference C.9)."""
    name = ("name: Tallow Creek Residence", 'name: "Lot #4, 50% of St. Mary\'s Row!"')
    _, first = files_under(tmp_path, 'file_name: "{project}"', name)
    assert first.name == "Lot-4-50-of-St-Mary-s-Row.pdf"


def test_a_flat_file_has_no_annotations(tmp_path: Path) -> None:
    (whole,) = files_under(tmp_path, "flat: true")
    pages = reader(whole)
    assert all("/Annots" not in page for page in pages.pages)
    assert len(pages.outline) == len(drawing().pages)  # bookmarks are none


def test_attachments_when_the_profile_asks(tmp_path: Path) -> None:
    job = job_under(tmp_path, "attach_data: true")
    files = pdf_files(read_job(job), drawing(), (finding(),))
    attached = reader(files[0]).attachments
    assert attached["job.yaml"] == [job.read_bytes()]
    assert b"site.rule" in attached["checks.json"][0]


def finding() -> Finding:
    return Finding(
        rule="site.rule",
        title="A rule",
        outcome=Outcome.PASS,
        citation="from memory",
        message="All is well.",
    )


def test_attachments_when_the_job_asks(tmp_path: Path) -> None:
    asked = ("  title_block: strip-11x17", "  title_block: strip-11x17\n  attach_data: true")
    _, first, second, *_ = files_under(tmp_path, "files: per_sheet", asked)
    assert set(reader(first).attachments) == {"job.yaml", "checks.json"}
    assert not reader(second).attachments


def test_no_attachments_unless_asked(tmp_path: Path) -> None:
    (whole,) = files_under(tmp_path, "")
    assert not reader(whole).attachments


def said(job: Path) -> str:
    with pytest.raises(JobErrors) as caught:
        read_job(job)
    (problem,) = caught.value.problems
    return f"{problem.field}: {problem.message}; {problem.mend}"


@pytest.mark.parametrize("submission", ["flat: true", "attach_data: false"])
def test_attachments_that_are_not_taken_are_refused(submission: str, tmp_path: Path) -> None:
    asked = ("  title_block: strip-11x17", "  title_block: strip-11x17\n  attach_data: true")
    expected = "drafting.attach_data: attachments are not taken (Guide); write false"
    assert said(job_under(tmp_path, submission, asked)) == expected


def test_a_revision_that_cannot_be_counted_is_refused(tmp_path: Path) -> None:
    revision = ('revision: "0"', "revision: B")
    message = said(job_under(tmp_path, 'file_name: "C{cycle}"', revision))
    assert message.startswith("project.revision: files are named by submittals")


@pytest.mark.parametrize(
    ("submission", "field", "message"),
    [
        ('file_name: "a/b"', "submission.file_name.value", "not a pattern of file names"),
        ('file_name: "{owner}"', "submission.file_name.value", "not a pattern of file names"),
        ('file_name: "{"', "submission.file_name.value", "not a pattern of file names"),
        ('file_name: "{sheet!r}"', "submission.file_name.value", "not a pattern of file names"),
        ('file_name: "{sheet:>9}"', "submission.file_name.value", "not a pattern of file names"),
        ('file_name: "{project.x}"', "submission.file_name.value", "not a pattern of file names"),
        ('files: per_sheet, file_name: "{project}"', "submission", "one file name for all sheets"),
        ('file_name: "{sheet}"', "submission", "a sheet in the name of the one file"),
        ("file_size: 64", "submission.file_size.value", "not a file size"),
    ],
)
def test_a_profile_that_cannot_be_kept_is_refused(
    submission: str, field: str, message: str, tmp_path: Path
) -> None:
    assert said(job_under(tmp_path, submission)).startswith(f"{field}: {message}")


def submission_of(folder: Path, text: str) -> Inputs:
    return read_job(job_under(folder, text))


@pytest.mark.parametrize(
    ("size", "outcome"),
    [(1_999_999, Outcome.PASS), (2_000_000, Outcome.PASS), (2_000_001, Outcome.FAIL)],
)
def test_the_size_of_a_file(size: int, outcome: Outcome, tmp_path: Path) -> None:
    submission = submission_of(tmp_path, "file_size: 2 MB").jurisdiction.submission
    (found,) = judge_files(submission, {"a.pdf": lambda: bytes(size)})
    assert (found.rule, found.outcome, found.limit) == ("submission.file-size", outcome, 2)
    assert ("keep only the pages" in found.message) == (outcome is Outcome.FAIL)


@pytest.mark.parametrize(("length", "outcome"), [(60, Outcome.PASS), (61, Outcome.FAIL)])
def test_the_length_of_a_name(length: int, outcome: Outcome, tmp_path: Path) -> None:
    submission = submission_of(tmp_path, "file_name_length: 60").jurisdiction.submission
    name = "x" * (length - len(".pdf")) + ".pdf"
    (found,) = judge_files(submission, {name: bytes})
    assert (found.outcome, found.measured) == (outcome, length)


def photo() -> bytes:
    """A page that holds 1.2 MB nobody can pack."""
    content = BytesIO()
    with pikepdf.open(BytesIO(example_page())) as pdf:
        noise = random.Random(1).randbytes(1_200_000)
        pdf.pages[0].obj.Resources.Photo = pdf.make_stream(noise)
        pdf.save(content)
    return content.getvalue()


def test_a_set_that_is_too_large_is_not_written(tmp_path: Path) -> None:
    sheets = "  title_block: strip-11x17\n\ndata_sheets:\n  - {title: Photo, file: photo.pdf}\n"
    job = job_under(tmp_path, "file_size: 1 MB", ("  title_block: strip-11x17\n", sheets))
    (tmp_path / "photo.pdf").write_bytes(photo())
    out = tmp_path / "out"
    drawn = draw(job, out)
    assert drawn.status is Status.REFUSED
    assert not out.exists()
    assert "submission.file-size" in {f.rule for f in drawn.checked.findings if f.outcome == "fail"}
    assert draw(job, out, preliminary=True).status is Status.PRELIMINARY
    assert (out / "planset.pdf").stat().st_size > 1_000_000
