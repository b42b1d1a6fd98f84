"""Opinions on the files of a set, by what the jurisdiction takes."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from planset.catalog.fields import Dated, Sourced
from planset.catalog.submission import Submission
from planset.finding import Finding, Outcome

BYTES_PER_MB = 1_000_000


def judge_files(
    submission: Submission, files: Mapping[str, Callable[[], bytes]]
) -> tuple[Finding, ...]:
    """Return a finding per file and limit: whether its name is short and the file small enough.

    Args:
        submission: What the jurisdiction takes.
        files: Per name of a file that is handed in, what returns its content; called only where
            a limit of size is stated.
    """
    found: list[Finding] = []
    if submission.file_name_length is not None:
        found += [_name(submission.file_name_length, name) for name in files]
    if submission.file_size is not None:
        found += [_size(submission.file_size, name, len(plot())) for name, plot in files.items()]
    return tuple(found)


def _name(limit: Sourced[int], name: str) -> Finding:
    long = len(name) > limit.value
    mend = "; shorten the project's name or number" if long else ""
    return Finding(
        rule="submission.file-name",
        title="Length of file names",
        outcome=Outcome.FAIL if long else Outcome.PASS,
        citation=_cited(limit),
        message=f"{name} has {len(name)} characters{mend}.",
        measured=len(name),
        limit=limit.value,
        objects=(name,),
    )


def _size(limit: Sourced[float], name: str, size: int) -> Finding:
    megabytes = size / BYTES_PER_MB
    large = megabytes > limit.value
    mend = "; keep only the pages of data sheets that are asked for" if large else ""
    return Finding(
        rule="submission.file-size",
        title="Size of files",
        outcome=Outcome.FAIL if large else Outcome.PASS,
        citation=_cited(limit),
        message=f"{name} has {megabytes:.2f} MB{mend}.",
        measured=megabytes,
        limit=limit.value,
        unit="MB",
        objects=(name,),
    )


def _cited(limit: Dated) -> str:
    return f"{limit.source}, {limit.date}"
