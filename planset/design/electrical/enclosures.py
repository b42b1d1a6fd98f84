"""The types of enclosures, and which of them stand in the rain."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Topology
from planset.job.electrical_checks.ids import DISCONNECT

if TYPE_CHECKING:
    from planset.job.load import Inputs


def enclosure_types(inputs: Inputs) -> Mapping[str, str | None]:
    """Tag of every new enclosure to its type, None where neither job nor catalog states it."""
    return dict(_types(inputs))


def _types(inputs: Inputs) -> Iterator[tuple[str, str | None]]:
    electrical = inputs.job.electrical
    for box in electrical.junction_boxes:
        yield box.id, box.enclosure
    for placed in electrical.inverters:
        yield placed.id, inputs.inverters[placed.model].enclosure
        if placed.dc_disconnect is not None:
            yield placed.dc_disconnect.id, placed.dc_disconnect.enclosure
    for panel in (electrical.combiner, electrical.backup):
        if panel is not None:
            yield panel.id, panel.enclosure
    yield DISCONNECT, electrical.disconnect.enclosure
    storage = electrical.storage
    if storage is not None and inputs.battery is not None:
        yield storage.id, inputs.battery.enclosure
        if storage.shutdown_switch is not None:
            yield storage.shutdown_switch.id, storage.shutdown_switch.enclosure


def with_enclosures(topology: Topology, inputs: Inputs) -> Topology:
    """The topology with the type of each enclosure among its ratings, where it is stated."""
    types = enclosure_types(inputs)
    return topology.with_ratings({tag: f"TYPE {kind}" for tag, kind in types.items() if kind})
