"""Strings and branches against the arrays they hold and the inverters they feed."""

from collections import Counter
from collections.abc import Iterator

from planset.errors import Problem
from planset.job.arrays import Array
from planset.job.electrical.electrical import Electrical
from planset.job.electrical.sources import PlacedInverter, StringOfModules
from planset.job.sections import Entries
from planset.source import Location, SourceDocument


def check_arrays_held(
    electrical: Electrical, arrays: tuple[Array, ...], document: SourceDocument
) -> Iterator[Problem]:
    """Yield arrays whose modules are not in one string or branch each, and arrays not there.

    Of arrays that are to be fitted a rule tells.
    """
    known = ", ".join(array.id for array in arrays)
    held: Counter[str] = Counter()
    for place, circuit in _circuits(electrical):
        held[circuit[0]] += circuit[1]
        if circuit[0] not in {array.id for array in arrays}:
            message = f"no array has this id (got {circuit[0]})"
            yield document.problem((*place, "array"), message, f"write one of: {known}")
    branched = {branch.array for branch in electrical.branches}
    for number, array in enumerate(arrays):
        if array.module_count not in (None, held[array.id]):
            field = "branches" if array.id in branched else "strings"
            message = (
                f"its {field} hold {held[array.id]} modules, yet {_extent(array)} make "
                f"{array.module_count}"
            )
            mend = f"correct electrical.{field}, or rows and columns"
            yield document.problem(("arrays", number), message, mend)
    for number, string in enumerate(electrical.strings):
        if string.array in branched:
            message = f"array {string.array} is in branches, too"
            mend = "put all modules of an array in strings, or all of them in branches"
            yield document.problem(("electrical", "strings", number, "array"), message, mend)


def _circuits(electrical: Electrical) -> Iterator[tuple[Location, tuple[str, int]]]:
    """Yield place, array and number of modules of every string and branch."""
    for number, string in enumerate(electrical.strings):
        yield ("electrical", "strings", number), (string.array, string.modules)
    for number, branch in enumerate(electrical.branches):
        yield ("electrical", "branches", number), (branch.array, branch.modules)


def _extent(array: Array) -> str:
    """How the modules of an array come about, in words."""
    without = f" without {len(array.omitted)}" if array.omitted else ""
    return f"{array.rows} rows of {array.columns}{without}"


def check_sources(
    electrical: Electrical, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield strings without an inverter, inverters without strings, and inputs not there."""
    if electrical.strings and not electrical.inverters:
        message = "strings, yet no inverter that they feed"
        mend = "add electrical.inverters, or write branches of microinverters in their place"
        yield document.problem(("electrical", "strings"), message, mend)
        return
    fed = set()
    for number, string in enumerate(electrical.strings):
        place: Location = ("electrical", "strings", number)
        inverter = inverter_of(string, electrical)
        if inverter is None:
            yield _of_no_inverter(string, electrical, place, document)
            continue
        fed.add(inverter.id)
        product = entries.inverters.get(inverter.model)
        if product is not None and string.input > product.inputs:
            message = f"inverter {product.model} has {product.inputs} inputs (got {string.input})"
            mend = f"write an input from 1 to {product.inputs}"
            yield document.problem((*place, "input"), message, mend)
    for number, inverter in enumerate(electrical.inverters):
        if inverter.id not in fed and all(inverter_of(s, electrical) for s in electrical.strings):
            message = f"no string feeds {inverter.id}"
            mend = "name it in a string, or remove it"
            yield document.problem(("electrical", "inverters", number), message, mend)


def inverter_of(string: StringOfModules, electrical: Electrical) -> PlacedInverter | None:
    """The inverter a string feeds, None where that is not clear."""
    if string.inverter is None:
        return electrical.inverters[0] if len(electrical.inverters) == 1 else None
    return next((one for one in electrical.inverters if one.id == string.inverter), None)


def _of_no_inverter(
    string: StringOfModules, electrical: Electrical, place: Location, document: SourceDocument
) -> Problem:
    """The problem of a string that names no inverter of several, or one that is not there."""
    message = f"no inverter has this id (got {string.inverter})"
    if string.inverter is None:
        message = f"missing where there are {len(electrical.inverters)} inverters"
    known = ", ".join(one.id for one in electrical.inverters)
    return document.problem((*place, "inverter"), message, f"write one of: {known}")


def check_conversion(
    electrical: Electrical, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield converters without the inverter made for them, and the reverse."""
    if electrical.converter is not None and not electrical.strings:
        message = "converters stand in strings, and there are none"
        yield document.problem(("electrical", "converter"), message, "remove it, or add strings")
    for number, inverter in enumerate(electrical.inverters):
        product = entries.inverters.get(inverter.model)
        if product is None:
            continue
        place = ("electrical", "inverters", number, "model")
        if electrical.converter is not None and product.fixed_dc_v is None:
            message = f"{product.model} holds no fixed voltage, as converters need it"
            mend = "choose an inverter with fixed_dc_v, or remove converter"
            yield document.problem(place, message, mend)
        if electrical.converter is None and product.fixed_dc_v is not None:
            message = f"{product.model} works with converters only, at {product.fixed_dc_v:g} V"
            mend = "add `converter:` to electrical, or choose another inverter"
            yield document.problem(place, message, mend)


def check_shutdown(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield shutdown equipment that has nothing to shut down, or two methods at once."""
    if electrical.shutdown is None:
        return
    place = ("electrical", "shutdown")
    if electrical.hazard_control is not None:
        message = "two methods of rapid shutdown: shutdown and hazard_control"
        yield document.problem(place, message, "keep the one that the array is built by")
    if not electrical.strings:
        message = "a device of strings, and there are none"
        mend = "remove it: microinverters shut down by their own listing"
        yield document.problem(place, message, mend)
