"""What must agree between the sections of a job, and with the catalog entries it names."""

from collections import Counter
from collections.abc import Iterator

from planset.errors import Problem
from planset.job.arrays import Array
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
    yield from _strings_hold_the_arrays(sections, document)
    yield from _inputs_exist(sections, entries, document)
    yield from check_mountings(sections, entries, document)
    yield from _details_have_a_subject(sections, document)
    yield from check_site_plan(sections, document)
    yield from check_submission(sections, entries, document)


def _ids_are_unique(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Ids name objects in findings and drawings, so one id means one thing in the whole job."""
    electrical, site_plan = sections.get("electrical"), sections.get("site_plan")
    lists: tuple[tuple[Location, list[str]], ...] = (
        (("obstructions",), [item.id for item in sections.get("obstructions", ())]),
        (("arrays",), [item.id for item in sections.get("arrays", ())]),
        (("electrical", "strings"), [s.id for s in electrical.strings] if electrical else []),
        (("site_plan", "structures"), [s.id for s in site_plan.structures] if site_plan else []),
        (("site_plan", "equipment"), [e.id for e in site_plan.equipment] if site_plan else []),
    )
    first: dict[str, Location] = {}
    for where, ids in lists:
        for number, name in enumerate(ids):
            place = (*where, number, "id")
            if name in first:
                message = f"the id {name} is taken on line {document.line_of(first[name])}"
                yield document.problem(place, message, "give each thing an id of its own")
            first.setdefault(name, place)


def _strings_hold_the_arrays(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Each module of an array is in one string; of arrays that are to be fitted a rule tells."""
    electrical, arrays = sections.get("electrical"), sections.get("arrays")
    if electrical is None or arrays is None:
        return
    strung: Counter[str] = Counter()
    known = {array.id for array in arrays}
    for number, string in enumerate(electrical.strings):
        strung[string.array] += string.modules
        if string.array not in known:
            place: Location = ("electrical", "strings", number, "array")
            mend = f"write one of: {', '.join(array.id for array in arrays)}"
            yield document.problem(place, f"no array has this id (got {string.array})", mend)
    for number, array in enumerate(arrays):
        if array.module_count not in (None, strung[array.id]):
            message = (
                f"its strings hold {strung[array.id]} modules, yet {_extent(array)} make "
                f"{array.module_count}"
            )
            mend = "correct electrical.strings, or rows and columns"
            yield document.problem(("arrays", number), message, mend)


def _extent(array: Array) -> str:
    """How the modules of an array come about, in words."""
    without = f" without {len(array.omitted)}" if array.omitted else ""
    return f"{array.rows} rows of {array.columns}{without}"


def _inputs_exist(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    electrical, inverter = sections.get("electrical"), entries.inverter
    if electrical is None or inverter is None:
        return
    for number, string in enumerate(electrical.strings):
        if string.input > inverter.inputs:
            message = f"inverter {inverter.model} has {inverter.inputs} inputs (got {string.input})"
            mend = f"write an input from 1 to {inverter.inputs}"
            yield document.problem(("electrical", "strings", number, "input"), message, mend)


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
