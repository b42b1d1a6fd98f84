"""What revisions and data sheets say of the rest of a job."""

from collections.abc import Iterator
from itertools import pairwise

from planset.errors import Problem
from planset.job.named import named_devices
from planset.job.revisions import Answer, Change
from planset.job.sections import Sections
from planset.source import Location, SourceDocument

_COVER, _ANSWERS = "G-001", "G-002"
_OF_THE_CREW = "Z-"  # what the reviewer does not get
_OF_OTHERS = "D-"  # data sheets


def check_documents(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Yield data sheets of what the job does not use, and revisions that do not follow."""
    yield from _data_sheets_document_something(sections, document)
    yield from _revisions_follow(sections, document)
    yield from _answers_stand_somewhere(sections, document)


def _data_sheets_document_something(
    sections: Sections, document: SourceDocument
) -> Iterator[Problem]:
    arrays, electrical = sections.get("arrays"), sections.get("electrical")
    if arrays is None or electrical is None:
        return
    known = named_devices(arrays, electrical)
    for number, sheet in enumerate(sections.get("data_sheets", ())):
        for place, name in enumerate(sheet.of):
            if name not in known:
                where: Location = ("data_sheets", number, "of", place)
                mend = f"write one of: {', '.join(known)}, or leave it out"
                yield document.problem(where, f"this job uses no such device (got {name})", mend)


def _revisions_follow(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    revisions, project = sections.get("revisions", ()), sections.get("project")
    for number, (before, after) in enumerate(pairwise(revisions), 1):
        where: Location = ("revisions", number)
        if after.number <= before.number:
            message = f"not more than the revision before it, {before.number} (got {after.number})"
            yield document.problem((*where, "number"), message, "list the oldest revision first")
        if after.date < before.date:
            message = f"before the revision before it, {before.date} (got {after.date})"
            yield document.problem((*where, "date"), message, "check both dates")
    if project is None or not revisions:
        return
    newest = revisions[-1]
    if project.revision != str(newest.number):
        message = (
            f"the newest of `revisions:` is {newest.number}, the set is revision {project.revision}"
        )
        mend = f'write revision: "{newest.number}" in project, or add the revision that is missing'
        yield document.problem(("revisions", len(revisions) - 1, "number"), message, mend)
    if newest.date > project.issued:
        message = f"after the set is issued, {project.issued} (got {newest.date})"
        where = ("revisions", len(revisions) - 1, "date")
        yield document.problem(where, message, "correct it, or project.issued")


def _answers_stand_somewhere(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    drafting, revisions = sections.get("drafting"), sections.get("revisions", ())
    if drafting is None or not revisions:
        return
    answered = any(revision.answers for revision in revisions)
    for sheet, shown in ((_COVER, "revisions"), (_ANSWERS, "answers" if answered else "")):
        if shown and sheet not in drafting.sheets:
            message = f"the {shown} stand on {sheet}, which is not listed"
            yield document.problem(("drafting", "sheets"), message, f"add {sheet}")
    documents = [
        f"{_OF_OTHERS}{number}" for number, _ in enumerate(sections.get("data_sheets", ()), 1)
    ]
    reviewed = [sheet for sheet in drafting.sheets if not sheet.startswith(_OF_THE_CREW)]
    known = [*reviewed, *documents]
    for number, revision in enumerate(revisions):
        where: Location = ("revisions", number)
        for kind, entries in (("answers", revision.answers), ("changes", revision.changes)):
            for place, entry in enumerate(entries):
                yield from _sheet_is_known((*where, kind, place), entry, known, document)
        yield from _answered_once((*where, "answers"), revision.answers, document)


def _sheet_is_known(
    where: Location, entry: Change, known: list[str], document: SourceDocument
) -> Iterator[Problem]:
    if entry.sheet not in known:
        message = f"no sheet for plan review in this set (got {entry.sheet})"
        yield document.problem((*where, "sheet"), message, f"write one of: {', '.join(known)}")
    elif entry.changed and entry.sheet.startswith(_OF_OTHERS):
        message = f"{entry.sheet} is a document of others, in which nothing is marked"
        yield document.problem((*where, "changed"), message, "leave it out")


def _answered_once(
    where: Location, answers: tuple[Answer, ...], document: SourceDocument
) -> Iterator[Problem]:
    numbers: set[str] = set()
    for place, answer in enumerate(answers):
        if answer.number in numbers:
            message = f"the comment {answer.number} is answered already"
            mend = "give each comment one answer"
            yield document.problem((*where, place, "number"), message, mend)
        numbers.add(answer.number)
