"""What must agree between the sections of a job, and with the catalog entries it names."""

from collections import Counter
from collections.abc import Iterator

from planset.errors import Problem
from planset.job.sections import Entries, Sections
from planset.source import Location, SourceDocument


def cross_check(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield every disagreement among the valid sections and the entries found."""
    yield from _ids_are_unique(sections, document)
    yield from _planes_exist(sections, document)
    yield from _strings_hold_the_arrays(sections, document)
    yield from _inputs_exist(sections, entries, document)
    yield from _mountings_suit_the_covering(sections, entries, document)


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


def _planes_exist(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    roof, building = sections.get("roof"), sections.get("building")
    if roof is None:
        return
    openings = building.escape_openings_onto_roof if building else ()
    named: dict[Location, str] = {}
    for number, item in enumerate(sections.get("obstructions", ())):
        named["obstructions", number, "plane"] = item.plane
    for number, array in enumerate(sections.get("arrays", ())):
        named["arrays", number, "plane"] = array.plane
    for number, opening in enumerate(openings):
        named["building", "escape_openings_onto_roof", number, "plane"] = opening.plane
    for place, plane in named.items():
        if plane not in roof.plane_names:
            message = f"not a plane of the {roof.shape} roof (got {plane})"
            mend = f"write one of: {', '.join(roof.plane_names)}"
            yield document.problem(place, message, mend)


def _strings_hold_the_arrays(sections: Sections, document: SourceDocument) -> Iterator[Problem]:
    """Each module of an array is in one string."""
    electrical, arrays = sections.get("electrical"), sections.get("arrays")
    if electrical is None or arrays is None:
        return
    strung: Counter[str] = Counter()
    sizes = {array.id: array.module_count for array in arrays}
    for number, string in enumerate(electrical.strings):
        strung[string.array] += string.modules
        if string.array not in sizes:
            place: Location = ("electrical", "strings", number, "array")
            mend = f"write one of: {', '.join(sizes)}"
            yield document.problem(place, f"no array has this id (got {string.array})", mend)
    for number, array in enumerate(arrays):
        if strung[array.id] != array.module_count:
            message = (
                f"its strings hold {strung[array.id]} modules, yet {array.rows} rows of "
                f"{array.columns} make {array.module_count}"
            )
            mend = "correct electrical.strings, or rows and columns"
            yield document.problem(("arrays", number), message, mend)


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


def _mountings_suit_the_covering(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    roof = sections.get("roof")
    if roof is None:
        return
    for number, array in enumerate(sections.get("arrays", ())):
        system = entries.mountings.get(array.mounting.system)
        if system and roof.covering.kind not in system.attachment.suits:
            suits = ", ".join(system.attachment.suits)
            message = f"{system.model} does not suit {roof.covering.kind}, only {suits}"
            mend = "choose a system whose attachment suits the covering"
            yield document.problem(("arrays", number, "mounting", "system"), message, mend)
