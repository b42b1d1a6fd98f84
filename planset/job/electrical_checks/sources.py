"""Strings and branches against the arrays they hold and the inverters they feed."""

from collections import Counter
from collections.abc import Iterator

from planset.errors import Problem
from planset.job.arrays import Array
from planset.job.electrical.electrical import Electrical
from planset.job.sections import Entries, Sections
from planset.source import Location, SourceDocument


def check_sources(
    sections: Sections, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield every disagreement of strings and branches with what they hold and feed."""
    electrical = sections.get("electrical")
    if electrical is None:
        return
    yield from _hold_the_arrays(electrical, sections, document)
    yield from _inputs_exist(electrical, entries, document)


def _hold_the_arrays(
    electrical: Electrical, sections: Sections, document: SourceDocument
) -> Iterator[Problem]:
    """Each module is in one string or branch; of arrays that are to be fitted a rule tells."""
    arrays = sections.get("arrays")
    if arrays is None:
        return
    held: Counter[str] = Counter()
    known = {array.id for array in arrays}
    for circuits in ("strings", "branches"):
        for number, circuit in enumerate(getattr(electrical, circuits)):
            held[circuit.array] += circuit.modules
            if circuit.array not in known:
                place: Location = ("electrical", circuits, number, "array")
                mend = f"write one of: {', '.join(array.id for array in arrays)}"
                yield document.problem(place, f"no array has this id (got {circuit.array})", mend)
    circuits = "strings" if electrical.strings else "branches"
    for number, array in enumerate(arrays):
        if array.module_count not in (None, held[array.id]):
            message = (
                f"its {circuits} hold {held[array.id]} modules, yet {_extent(array)} make "
                f"{array.module_count}"
            )
            mend = f"correct electrical.{circuits}, or rows and columns"
            yield document.problem(("arrays", number), message, mend)


def _extent(array: Array) -> str:
    """How the modules of an array come about, in words."""
    without = f" without {len(array.omitted)}" if array.omitted else ""
    return f"{array.rows} rows of {array.columns}{without}"


def _inputs_exist(
    electrical: Electrical, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Each string feeds an input that its inverter has."""
    models = {placed.id: placed.model for placed in electrical.inverters}
    for number, string in enumerate(electrical.strings):
        only = next(iter(models.values())) if len(models) == 1 else ""
        inverter = entries.inverters.get(models.get(string.inverter or "", only))
        if inverter is not None and string.input > inverter.inputs:
            message = f"inverter {inverter.model} has {inverter.inputs} inputs (got {string.input})"
            mend = f"write an input from 1 to {inverter.inputs}"
            yield document.problem(("electrical", "strings", number, "input"), message, mend)
