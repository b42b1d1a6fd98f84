"""The whole system as a tree toward the utility."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.electrical.ac_side import combine, output_way, to_disconnect
from planset.design.electrical.array_side import Boxes, add_branch, add_inverter
from planset.design.electrical.control import with_controls
from planset.design.electrical.devices import Devices
from planset.design.electrical.draft import Draft
from planset.design.electrical.enclosures import with_enclosures
from planset.design.electrical.joints import with_joints
from planset.design.electrical.service_side import connect_service
from planset.design.electrical.sources import Source
from planset.design.electrical.storage import add_storage, connect_storage, hybrid_id
from planset.design.electrical.system import BranchCircuit, Derate, StringCircuit
from planset.design.electrical.topology import Topology

if TYPE_CHECKING:
    from planset.job.load import Inputs


def system_topology(
    inputs: Inputs,
    strings: tuple[StringCircuit, ...],
    branches: tuple[BranchCircuit, ...],
    sources: tuple[Source, ...],
    devices: Devices,
    derate: Derate | None,
) -> Topology:
    """Strings and branches, inverters, combiner, disconnect, panels, meter, utility; unsized."""
    draft, boxes = Draft(), Boxes(inputs, strings, branches)
    ends = {}
    hybrid = hybrid_id(inputs)
    for placed in inputs.job.electrical.inverters:
        if placed.id == hybrid:
            add_storage(draft, inputs)
        held = tuple(string for string in strings if string.inverter == placed.id)
        add_inverter(draft, inputs, placed, held, boxes)
        if placed.id == hybrid:
            connect_storage(draft, inputs, placed.id, inputs.inverters[placed.model])
        ends[placed.id] = placed.id
    for branch in branches:
        ends[branch.id] = add_branch(draft, inputs, branch, boxes)
    ways = [output_way(inputs, source, ends[source.id]) for source in sources]
    ways = combine(draft, inputs, sources, ways, devices)
    way = to_disconnect(draft, inputs, sources, ways, devices)
    connect_service(draft, inputs, way, devices, derate)
    drawn = draft.finish(_ratings_a(inputs, devices, derate))
    return with_controls(with_joints(with_enclosures(drawn, inputs), inputs), inputs)


def _ratings_a(inputs: Inputs, devices: Devices, derate: Derate | None) -> dict[str, float]:
    """Tag to rating of every overcurrent device that the topology can have [A]."""
    service = inputs.job.electrical.service
    found = {device.tag: device.rating_a for device in devices.all}
    found["MSP-MAIN"] = derate.new_a if derate else service.main
    connection = inputs.job.electrical.interconnection
    if connection.method == "subpanel_breaker" and connection.main is not None:
        found[f"{connection.subpanel}-MAIN"] = connection.main
    backup = inputs.job.electrical.backup
    if backup is not None and backup.main is not None:
        found[f"{backup.id}-MAIN"] = backup.main
    return found
