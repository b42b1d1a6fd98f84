"""The PDF files of a set: what each holds, and what it is called."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, partial

from planset.catalog.submission import parts_of
from planset.drawing.page import DrawingSet
from planset.finding import Finding
from planset.formats.pdf_write import pdf_bytes
from planset.job.load import Inputs
from planset.output.json_text import checks_text
from planset.output.machine import machine_errors

WHOLE = "planset.pdf"
CREW = "crew.pdf"
JOB = "job.yaml"
CHECKS = "checks.json"
_SHEET = "{sheet}"
_NOT_PLAIN = re.compile(r"[^A-Za-z0-9_]+")


@dataclass(frozen=True, slots=True)
class PdfFile:
    """One PDF file of a set.

    Attributes:
        name: File name.
        plot: Returns its content, which is made at the first call.
        submitted: Whether it is handed in.
    """

    name: str
    plot: Callable[[], bytes]
    submitted: bool = True


def pdf_files(
    inputs: Inputs, drawing: DrawingSet, findings: tuple[Finding, ...]
) -> tuple[PdfFile, ...]:
    """Return the files of a set: all of it for review, what the jurisdiction takes, the crew's.

    One that takes a file per sheet gets each sheet and each data sheet in one of its own; one that
    names its files gets the whole set under that name, too.

    Args:
        inputs: The job.
        drawing: The set.
        findings: What rules and review found, for the attachments.

    Raises:
        MachineError: The job is to be attached and cannot be read any more.
    """
    submission = inputs.jurisdiction.submission
    pattern = submission.file_name.value if submission.file_name is not None else ""
    attachments = {}
    if inputs.job.drafting.attach_data or submission.attaches_data:
        with machine_errors(f"read {inputs.path}"):
            attachments[JOB] = inputs.path.read_bytes()
        attachments[CHECKS] = checks_text(findings).encode()
    plot = partial(pdf_bytes, links=not submission.is_flat)
    to_review = drawing.for_review
    whole = cache(partial(plot, to_review, attachments=attachments))
    if submission.one_per_sheet:
        pattern = pattern or _SHEET
        parts = list(_parts(to_review))
        handed_in = [
            PdfFile(
                _name(pattern, inputs, sheet, title),
                cache(partial(plot, part, attachments={} if n else attachments)),
            )
            for n, (sheet, title, part) in enumerate(parts)
        ]
    else:
        handed_in = [PdfFile(_name(pattern, inputs), whole)] if pattern else []
    return (
        PdfFile(WHOLE, whole, submitted=not handed_in),
        *handed_in,
        *_crew(drawing.for_crew),
    )


def _crew(drawing: DrawingSet) -> Iterator[PdfFile]:
    """The crew's file, if the job asks for any of its sheets."""
    if drawing.pages:
        yield PdfFile(CREW, cache(partial(pdf_bytes, drawing)), submitted=False)


def _parts(drawing: DrawingSet) -> Iterator[tuple[str, str, DrawingSet]]:
    """Yield id, title and a set of its own for each sheet and each data sheet."""
    for page in drawing.pages:
        yield page.sheet, page.title, replace(drawing, pages=(page,), data_sheets=())
    for sheet in drawing.data_sheets:
        yield sheet.id, sheet.title, replace(drawing, pages=(), data_sheets=(sheet,))


def _name(pattern: str, inputs: Inputs, sheet: str = "", title: str = "") -> str:
    """Return a name of letters, digits, hyphens and underscores, which every portal takes."""
    project = inputs.job.project
    words = {
        "project": project.name,
        "number": project.number,
        "revision": project.revision,
        "sheet": sheet,
        "title": title,
    }
    if "cycle" in parts_of(pattern):
        words["cycle"] = str(int(project.revision) + 1)
    plain = {part: _NOT_PLAIN.sub("-", word).strip("-") for part, word in words.items()}
    return f"{pattern.format_map(plain)}.pdf"
