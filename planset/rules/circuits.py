"""What the electrical rules share: strings in parallel, their modules, equipment by kind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from planset.catalog.module import Module
from planset.codes.nec.voltage import open_circuit_voltage
from planset.design.circuits import StringCircuit
from planset.design.topology import Kind

if TYPE_CHECKING:
    from planset.design.design import Design


def by_input(design: Design) -> Mapping[int, tuple[StringCircuit, ...]]:
    """Return the strings in parallel on each inverter input in use, inputs in order."""
    strings = design.circuits.strings
    used = sorted({string.input for string in strings})
    return {number: tuple(s for s in strings if s.input == number) for number in used}


def ratings_of(design: Design, string: StringCircuit) -> Module:
    """Return the catalog entry of a string's modules."""
    strings = design.inputs.job.electrical.strings
    array_id = next(item.array for item in strings if item.id == string.id)
    return next(array.product for array in design.arrays if array.id == array_id)


def cold_voc_per_device(design: Design) -> Mapping[str, float]:
    """Return the cold open-circuit voltage of one shutdown device's modules in series [V].

    By the catalog name of the module; empty when the job states no shutdown device.
    """
    device = design.inputs.shutdown
    if device is None:
        return {}
    lowest_c = design.inputs.job.site.lowest_ambient
    return {
        name: device.modules_per_device
        * open_circuit_voltage(module.voc_v, module.voc_percent_per_c, lowest_c)
        for name, module in design.inputs.modules.items()
    }


def tags_of(design: Design, kind: Kind) -> tuple[str, ...]:
    """Return the tags of the equipment of a kind, as the diagrams show them."""
    return tuple(item.tag for item in design.topology.of_kind(kind))
