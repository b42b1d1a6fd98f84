"""What must agree between the sections of a job, and with the catalog entries it names."""

from collections.abc import Iterator

from planset.errors import Problem
from planset.job.document_checks import check_documents
from planset.job.electrical_checks.check import check_electrical
from planset.job.electrical_checks.ids import electrical_ids
from planset.job.mounting_checks import check_mountings
from planset.job.roof_checks import check_roofs
from planset.job.sections import Entries, Sections
from planset.job.site_plan_checks import check_site_plan
from planset.job.submission_checks import check_submission
from planset.source import Location, SourceDocument

_OF_ATTACHMENTS = {"S-101": "lays out", "S-501": "details"}


def cross_check(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield every disagreement among the valid sections and the entries found."""
    yield from _ids_are_unique(sections, document)
    yield from check_roofs(sections, entries, document)
    yield from check_electrical(sections, entries, document)
    yield from check_mountings(sections, entries, document)
    yield from _details_have_a_subject(sections, document)
    yield from check_site_plan(sections, document)
    yield from check_submission(sections, entries, document)
    yield from check_documents(sections, document)


def _ids_are_unique(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Ids name objects in findings and drawings, so one id means one thing in the whole job."""
    obstructions, arrays = sections.get("obstructions", ()), sections.get("arrays", ())
    named: list[tuple[Location, str]] = [
        *((("obstructions", number, "id"), item.id) for number, item in enumerate(obstructions)),
        *((("arrays", number, "id"), item.id) for number, item in enumerate(arrays)),
    ]
    if electrical := sections.get("electrical"):
        named += electrical_ids(electrical)
    if site_plan := sections.get("site_plan"):
        structures = enumerate(site_plan.structures)
        named += [
            (("site_plan", "structures", number, "id"), item.id) for number, item in structures
        ]
    first: dict[str, Location] = {}
    for place, name in named:
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
