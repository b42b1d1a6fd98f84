"""The electrical design of a job."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from planset.design.electrical.allotment import Allotment
from planset.design.electrical.branches import branch_circuits
from planset.design.electrical.buses import bus_loads
from planset.design.electrical.derate import derate_of
from planset.design.electrical.devices import source_devices
from planset.design.electrical.grounding_path import grounding_steps
from planset.design.electrical.label_system import LabelSystem
from planset.design.electrical.labels import placed_labels
from planset.design.electrical.shutdown import shutdown_of
from planset.design.electrical.sizing import size_topology
from planset.design.electrical.sources import ac_sources
from planset.design.electrical.strings import string_circuits
from planset.design.electrical.system import ElectricalDesign
from planset.design.electrical.system_topology import system_topology
from planset.design.electrical.voltage_limits import voltage_limits
from planset.design.layout import PlacedArray
from planset.design.mounted import Mounted

if TYPE_CHECKING:
    from planset.job.load import Inputs


def build_electrical(
    inputs: Inputs, arrays: tuple[PlacedArray, ...], mounts: tuple[Mounted, ...]
) -> ElectricalDesign:
    """Compute circuits, equipment, conductors, buses, grounding, shutdown and labels.

    Args:
        inputs: The job and the catalog entries it names.
        arrays: Every array where it lies.
        mounts: Those whose mounting the job designs, for the lugs on their rails.
    """
    allotment = Allotment(inputs.job.electrical, arrays)
    strings = string_circuits(inputs, allotment)
    branches = branch_circuits(inputs, allotment, arrays)
    sources = ac_sources(inputs, branches)
    source_a = math.fsum(source.current_a for source in sources)
    devices = source_devices(inputs, sources)
    derate = derate_of(inputs, source_a)
    unsized = system_topology(inputs, strings, branches, sources, devices, derate)
    topology, not_sized = size_topology(inputs, unsized)
    buses = bus_loads(inputs, sources, devices, derate)
    shutdown = shutdown_of(inputs, strings, branches)
    return ElectricalDesign(
        strings=strings,
        branches=branches,
        topology=topology,
        devices=devices.all,
        buses=buses,
        derate=derate,
        grounding=grounding_steps(inputs, arrays, mounts, topology),
        shutdown=shutdown,
        labels=placed_labels(LabelSystem(inputs, topology, strings, buses, shutdown, source_a)),
        voltage_limits=voltage_limits(inputs, strings, branches),
        not_sized=not_sized,
        dc_kw=sum(array.product.power_w * len(array.modules) for array in arrays) / 1000.0,
        ac_kw=math.fsum(source.power_w for source in sources) / 1000.0,
        source_a=source_a,
        circuit_a=math.fsum(source.circuit_a for source in sources),
    )
