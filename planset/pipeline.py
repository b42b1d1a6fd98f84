"""From a job file to a checked set, stage by stage, and from there to its files."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import partial
from pathlib import Path

from planset.design.design import Design, build_design
from planset.design.materials import bill_of_materials
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.keynotes import ColumnFullError
from planset.drawing.labels import NoRoomError
from planset.drawing.page import DrawingSet
from planset.drawing.text import text_width
from planset.errors import JobErrors
from planset.finding import Finding, Outcome
from planset.formats.dxf_sheet import write_sheet_dxf
from planset.formats.dxf_write import dxf_content
from planset.job.load import Inputs, read_job
from planset.output.commit import Writer, Written, finish_interrupted, write_set
from planset.output.json_text import write_checks
from planset.output.materials_csv import MATERIALS, write_materials
from planset.output.pdf_files import CHECKS, PdfFile, pdf_files
from planset.resources import all_symbols, job_data_sheets, job_title_block
from planset.review.bill import judge_bill
from planset.review.files import judge_files
from planset.review.page_rule import DRAFTING_RULE
from planset.review.run import review_contents, review_pages, reviewed_pages
from planset.review.submittal import Submittal
from planset.rules.alternates import refuse_unusable
from planset.rules.run import judge
from planset.second_process import Ahead
from planset.sheets.set import build_set
from planset.source import SourceDocument

DXF = "planset.dxf"

NO_ROOM = (ViewTooLargeError, ColumnFullError, NoRoomError)
"""What building a sheet raises that has not enough room."""


class Status(StrEnum):
    """How a set goes out: for review, only as a draft, or not at all."""

    SUBMITTAL = "submittal"
    PRELIMINARY = "preliminary"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Checked:
    """A set with everything found about it.

    Attributes:
        design: what follows from the job.
        drawing: the pages, None when they have no room for what they must show.
        findings: of the rules, then of the review of pages and files.
        preliminary: whether the pages are marked PRELIMINARY.
        pdfs: its PDF files.
    """

    design: Design
    drawing: DrawingSet | None
    findings: tuple[Finding, ...]
    preliminary: bool
    pdfs: tuple[PdfFile, ...] = ()

    @property
    def fails(self) -> bool:
        """Whether a rule or a page fails."""
        return _any(self.findings, Outcome.FAIL)


@dataclass(frozen=True, slots=True)
class Drawn:
    """What came of drawing a job.

    Attributes:
        checked: the set.
        status: how it went out.
        written: its files, None when it was refused.
    """

    checked: Checked
    status: Status
    written: Written | None


def check(job: Path) -> Checked:
    """Run every stage but the writing.

    Raises:
        PlansetError: The job, or a drawing it names, cannot be used.
    """
    return _run(job, preliminary=False)


def draw(job: Path, out: Path, *, preliminary: bool = False, dxf_per_sheet: bool = False) -> Drawn:
    """Run every stage, and write the set unless something fails.

    Args:
        job: The job file.
        out: The folder for the set; a refused set leaves it as it was.
        preliminary: Whether to write the set, marked PRELIMINARY, even when something fails; one
            whose sheets have no room cannot be written at all.
        dxf_per_sheet: Whether to write each sheet as a DXF file of its own, too.

    Raises:
        PlansetError: The job cannot be used, or the machine fails.
    """
    finish_interrupted(out)
    with Ahead(dxf_content) as content:
        checked = _run(job, preliminary=preliminary, once_drawn=content.begin)
        if checked.drawing is None or (checked.fails and not preliminary):
            return Drawn(checked, Status.REFUSED, None)
        writers: dict[str, Writer] = {pdf.name: partial(write_pdf, pdf) for pdf in checked.pdfs}
        writers[DXF] = partial(write_dxf, content, checked.drawing)
        if dxf_per_sheet:
            for page in checked.drawing.pages:
                writers[f"{page.sheet}.dxf"] = partial(write_sheet_dxf, checked.drawing, page)
        writers[MATERIALS] = partial(write_materials, bill_of_materials(checked.design))
        writers[CHECKS] = partial(write_checks, checked.findings)
        written = write_set(
            out,
            job,
            revision=checked.design.inputs.job.project.revision,
            preliminary=checked.preliminary,
            writers=writers,
        )
    status = Status.PRELIMINARY if checked.preliminary else Status.SUBMITTAL
    return Drawn(checked, status, written)


def _run(
    job: Path, *, preliminary: bool, once_drawn: Callable[[DrawingSet], None] | None = None
) -> Checked:
    inputs = read_job(job)
    _refuse_undrawable(inputs.document, *inputs.catalog_documents)
    refuse_unusable(inputs)
    titleblock = job_title_block(inputs)
    data_sheets = job_data_sheets(inputs, titleblock)
    symbols = all_symbols()
    design = build_design(inputs)
    judged = judge(design)
    marked = preliminary or _any(judged, Outcome.FAIL, Outcome.OPEN)

    def build(*, preliminary: bool) -> DrawingSet:
        drawing = build_set(
            design, judged, symbols, titleblock, preliminary=preliminary, data_sheets=data_sheets
        )
        if once_drawn:
            once_drawn(drawing)
        return drawing

    try:
        drawing = build(preliminary=marked)
        sheets = reviewed_pages(drawing)
        of_contents = review_contents(Submittal(sheets, inputs))
        if not marked and _any(of_contents, Outcome.OPEN):
            marked = True
            drawing = build(preliminary=True)
            sheets = reviewed_pages(drawing)
    except NO_ROOM as failure:
        return Checked(design, None, (*judged, _no_room(failure, inputs)), marked)
    bill = judge_bill(bill_of_materials(design), drawing.blocks)
    findings = (*judged, *review_pages(sheets), bill, *of_contents)
    pdfs = pdf_files(inputs, drawing, findings)
    handed_in = {file.name: file.plot for file in pdfs if file.submitted}
    of_files = judge_files(inputs.jurisdiction.submission, handed_in)
    return Checked(design, drawing, (*findings, *of_files), marked, pdfs)


def write_pdf(pdf: PdfFile, path: Path) -> None:
    """Plot a PDF file, if that was not done yet, and write it.

    Raises:
        OSError: The file cannot be written.
    """
    path.write_bytes(pdf.plot())


def write_dxf(content: Callable[[DrawingSet], bytes], drawing: DrawingSet, path: Path) -> None:
    """Write the DXF file of a set.

    Raises:
        PlansetError: A text cannot stand in a DXF file, or the file would not be sound.
        OSError: The file cannot be written.
    """
    path.write_bytes(content(drawing))


def _no_room(failure: Exception, inputs: Inputs) -> Finding:
    return Finding(
        rule="drafting.room",
        title="Room on the sheets",
        outcome=Outcome.FAIL,
        citation=DRAFTING_RULE,
        message=f"{failure}; use a larger title block, or shorten what stands in its way.",
        line=inputs.line_of("drafting", "title_block"),
    )


def _refuse_undrawable(*documents: SourceDocument) -> None:
    """Refuse text with characters the drawing face lacks, as written or as capitals.

    Raises:
        JobErrors: With every field of a job or catalog file that has such text.
    """
    mend = "use another spelling"
    problems = []
    for document in documents:
        for location in document.lines:
            value = document.value_at(location)
            if isinstance(value, str) and (missing := _undrawable(value + value.upper())):
                message = f"the drawing face has no {missing}"
                problems.append(document.problem(location, message, mend))
    if problems:
        raise JobErrors(problems)


def _undrawable(text: str) -> str:
    """Return the characters of a text that the drawing face lacks, each once."""
    missing = []
    for character in dict.fromkeys(text):
        try:
            text_width(character, 1.0)
        except ValueError:
            missing.append(character)
    return " ".join(missing)


def _any(findings: tuple[Finding, ...], *outcomes: Outcome) -> bool:
    return any(finding.outcome in outcomes for finding in findings)
