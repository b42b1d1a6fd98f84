"""What comes between the sources and the service: combiner, disconnect, tap, storage, backup."""

import math
from collections.abc import Iterator

from planset.errors import Problem
from planset.job.electrical.electrical import Electrical
from planset.job.sections import Entries
from planset.source import Location, SourceDocument

_ROUNDED_A = 1.0  # a load is often given in whole amperes


def outputs(electrical: Electrical) -> int:
    """Circuits of inverters and branches that come together on the way to the service."""
    return len(electrical.inverters) + len(electrical.branches)


def check_combiner(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield a combiner that is missing, and breakers of outputs that have none to stand in."""
    if electrical.combiner is not None:
        return
    if outputs(electrical) > 1:
        message = f"missing where {outputs(electrical)} inverters and branches come together"
        mend = "add `combiner:` with its id, bus, interrupting and location"
        yield document.problem(("electrical", "combiner"), message, mend)
        return
    for field in ("inverters", "branches"):
        for number, output in enumerate(getattr(electrical, field)):
            if output.breaker is not None:
                place = ("electrical", field, number, "breaker")
                message = "a breaker of the combiner, and there is none"
                mend = "state it in electrical.interconnection, or add a combiner"
                yield document.problem(place, message, mend)


def check_connection(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield what disconnect, tap and derated main ask of each other."""
    disconnect, method = electrical.disconnect, electrical.interconnection.method
    if disconnect.fuse is not None and not disconnect.fused:
        message = "a fuse in a disconnect that is not fused"
        place: Location = ("electrical", "disconnect", "fuse")
        yield document.problem(place, message, "write fused: true, or remove it")
    if method == "supply_side_tap" and not disconnect.fused:
        message = "a supply-side tap is protected by the fuse of the disconnect, which has none"
        mend = "write fused: true, or connect at a breaker"
        yield document.problem(("electrical", "disconnect", "fused"), message, mend)
    if method == "supply_side_tap" and electrical.main_derate is not None:
        message = "a tap ahead of the main loads no bus, so the main stays as it is"
        mend = "remove it, or connect at a breaker"
        yield document.problem(("electrical", "main_derate"), message, mend)


def check_load_lines(electrical: Electrical, document: SourceDocument) -> Iterator[Problem]:
    """Yield lines of a load calculation that do not come to its load."""
    change = electrical.main_derate
    if change is None or change.calculation is None or not change.calculation.lines:
        return
    given = change.calculation
    service = electrical.service
    volts = service.voltage * (math.sqrt(3) if service.phases == 3 else 1)  # noqa: PLR2004
    load_a = sum(line.counted_va for line in given.lines) / volts
    if abs(load_a - given.load) > _ROUNDED_A:
        place: Location = ("electrical", "main_derate", "calculation", "lines")
        message = f"its lines come to {load_a:.1f} A, the load is {given.load:g} A"
        yield document.problem(place, message, "correct the lines, or the load")


def check_storage(
    electrical: Electrical, entries: Entries, document: SourceDocument
) -> Iterator[Problem]:
    """Yield storage without one hybrid inverter, and a backup panel without a backup output."""
    if len(entries.inverters) < len({placed.model for placed in electrical.inverters}):
        return  # an inverter that is not found is told of already
    products = [entries.inverters[placed.model] for placed in electrical.inverters]
    hybrids = [product for product in products if product.battery is not None]
    if electrical.storage is not None and len(hybrids) != 1:
        message = f"storage connects to one hybrid inverter, and there are {len(hybrids)}"
        mend = "choose a hybrid_inverter for electrical.inverters, or remove storage"
        yield document.problem(("electrical", "storage"), message, mend)
    if electrical.backup is not None and not any(product.backup for product in hybrids):
        message = "a backup panel, yet no inverter with a backup output"
        mend = "choose a hybrid_inverter with a backup output, or remove backup"
        yield document.problem(("electrical", "backup"), message, mend)
