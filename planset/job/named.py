"""The catalog entries whose devices a job buys, by the names it gives."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planset.job.arrays import Array
from planset.job.electrical.electrical import Electrical


def named_devices(arrays: Iterable[Array], electrical: Electrical) -> dict[str, str]:
    """Return what each catalog name of a job stands for, as "inverter", in the order of the bill.

    A disconnect has no name: any of its rating serves.
    """
    named: dict[str, list[str]] = {}
    for name, kind in (*_of_arrays(arrays), *_of_circuits(electrical)):
        if kind not in named.setdefault(name, []):
            named[name].append(kind)
    return {name: " and ".join(kinds) for name, kinds in named.items()}


def _of_arrays(arrays: Iterable[Array]) -> Iterator[tuple[str, str]]:
    for array in arrays:
        yield array.module, "module"
        if array.mounting is not None:
            yield array.mounting.system, "mounting system"


def _of_circuits(electrical: Electrical) -> Iterator[tuple[str, str]]:
    yield from ((inverter.model, "inverter") for inverter in electrical.inverters)
    yield from ((branch.inverter, "microinverter") for branch in electrical.branches)
    one_each = (
        (electrical.converter, "converter"),
        (electrical.storage.model if electrical.storage else None, "battery"),
        (electrical.shutdown, "shutdown device"),
        (electrical.hazard_control, "hazard control system"),
    )
    yield from ((name, kind) for name, kind in one_each if name is not None)
