"""What must agree between the sections of a job, and with the catalog entries it names."""

from collections.abc import Iterator

from planset.errors import Problem
from planset.job.electrical_checks.sources import check_sources
from planset.job.mounting_checks import check_mountings
from planset.job.roof_checks import check_roofs
from planset.job.sections import Entries, Sections
from planset.job.submission_checks import check_submission
from planset.source import Location, SourceDocument

_OF_ATTACHMENTS = {"S-101": "lays out", "S-501": "details"}


def cross_check(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield every disagreement among the valid sections and the entries found."""
    yield from _ids_are_unique(sections, document)
    yield from check_roofs(sections, entries, document)
    yield from check_sources(sections, entries, document)
    yield from check_mountings(sections, entries, document)
    yield from _details_have_a_subject(sections, document)
    yield from check_submission(sections, entries, document)


def _ids_are_unique(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Ids name objects in findings and drawings, so one id means one thing in the whole job."""
    electrical = sections.get("electrical")
    lists: tuple[tuple[Location, list[str]], ...] = (
        (("obstructions",), [item.id for item in sections.get("obstructions", ())]),
        (("arrays",), [item.id for item in sections.get("arrays", ())]),
        (("electrical", "strings"), [s.id for s in electrical.strings] if electrical else []),
    )
    first: dict[str, Location] = {}
    for where, ids in lists:
        for number, name in enumerate(ids):
            place = (*where, number, "id")
            if name in first:
                message = f"the id {name} is taken on line {document.line_of(first[name])}"
                yield document.problem(place, message, "give each thing an id of its own")
            first.setdefault(name, place)


def _details_have_a_subject(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """S-101 and S-501 show the attachments of the job, so there must be some."""
    arrays, drafting = sections.get("arrays"), sections.get("drafting")
    if arrays is None or drafting is None or any(array.mounting for array in arrays):
        return
    for number, sheet in enumerate(drafting.sheets):
        if sheet in _OF_ATTACHMENTS:
            place = ("drafting", "sheets", number)
            message = (
                f"{sheet} {_OF_ATTACHMENTS[sheet]} attachments, and every mounting is by others"
            )
            yield document.problem(place, message, f"take {sheet} out of the list")
