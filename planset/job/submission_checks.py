"""Whether a job asks for what its jurisdiction takes, in the form it is handed in."""

from collections.abc import Iterator

from planset.catalog.submission import Submission, parts_of
from planset.errors import Problem
from planset.job.sections import Entries, Sections
from planset.source import SourceDocument


def check_submission(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield what the jurisdiction does not take, or what it needs to know for its file names."""
    if entries.jurisdiction is None:
        return
    submission = entries.jurisdiction.submission
    drafting, project = sections.get("drafting"), sections.get("project")
    if drafting and drafting.attach_data and (barred := _bars_attachments(submission)):
        message = f"attachments are not taken ({barred})"
        yield document.problem(("drafting", "attach_data"), message, "write false")
    pattern = submission.file_name
    counts = pattern is not None and "cycle" in parts_of(pattern.value)
    if project and counts and not project.revision.isdecimal():
        message = f"files are named by submittals, counted from revision 0 (got {project.revision})"
        yield document.problem(("project", "revision"), message, 'write a number, as "0"')


def _bars_attachments(submission: Submission) -> str:
    """Return the document by which files go in with nothing attached, "" for none."""
    if submission.flat is not None and submission.flat.value:
        return submission.flat.source
    attach = submission.attach_data
    return attach.source if attach is not None and not attach.value else ""
