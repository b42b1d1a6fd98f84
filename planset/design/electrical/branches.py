"""Branch circuits of microinverters."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from planset.codes.nec import circuit_current
from planset.design.electrical.allotment import Allotment
from planset.design.electrical.boxes import boxes_at
from planset.design.electrical.devices import size_device
from planset.design.electrical.home_course import way_to_box_in
from planset.design.electrical.module_voltage import module_voltage
from planset.design.electrical.system import BranchCircuit
from planset.design.electrical.trunk import trunk_run
from planset.job.electrical.service import SupplySideTap

if TYPE_CHECKING:
    from planset.catalog.microinverter import Microinverter
    from planset.design.layout import PlacedArray, PlacedModule
    from planset.job.electrical.sources import Branch
    from planset.job.load import Inputs


def branch_circuits(
    inputs: Inputs, allotment: Allotment, arrays: Sequence[PlacedArray]
) -> tuple[BranchCircuit, ...]:
    """Every branch of the job (NEC 690.8 and 705.28)."""
    return tuple(
        _branch(inputs, item, allotment, arrays) for item in inputs.job.electrical.branches
    )


def _branch(
    inputs: Inputs, item: Branch, allotment: Allotment, arrays: Sequence[PlacedArray]
) -> BranchCircuit:
    unit, module = inputs.microinverters[item.inverter], allotment.product(item.array)
    modules = allotment.take(item.array, item.modules)
    tags = tuple(placed.id for placed in modules)
    each = module_voltage(module, inputs.job.site)
    units = math.ceil(len(tags) / unit.modules)
    service = inputs.job.electrical.service
    three_phase = service.phases == 3
    # a branch left without modules is sized for one, for a rule to tell of it
    current_a = _current_a(max(units, 1), unit.ac_current_a, three_phase=three_phase)
    to_box = _to_box(inputs, item, modules, arrays)
    device = size_device(item.id, current_a, item.breaker or _only_breaker_a(inputs))
    return BranchCircuit(
        id=item.id,
        modules=tags,
        module=allotment.name(item.array),
        inverter=item.inverter,
        units=units,
        cold_voc_v=each.cold_voc_v,
        hot_vmp_v=each.hot_vmp_v,
        maximum_current_a=current_a,
        least_breaker_a=device.standard_a or device.minimum_a,
        breaker_a=device.rating_a,
        breaker_stated=device.stated,
        most_units=_most_units(unit, device.rating_a, three_phase=three_phase),
        trunk=trunk_run(unit, modules, to_box, service.voltage, three_phase=three_phase),
        power_w=len(tags) * module.power_w,
        junction_box=item.junction_box,
        unit_a=unit.ac_current_a,
        to_box_in=to_box,
    )


def _to_box(
    inputs: Inputs,
    item: Branch,
    modules: Sequence[PlacedModule],
    arrays: Sequence[PlacedArray],
) -> float:
    """Way from the first module of a branch to its box, 0 for a branch without any [in]."""
    if not modules:
        return 0.0
    boxes = boxes_at(inputs.job.electrical, arrays)
    box = next(box for box in boxes if box.id == item.junction_box)
    array = next(array for array in arrays if array.id == item.array)
    return way_to_box_in(array, modules[0], modules[1] if len(modules) > 1 else None, box)


def _only_breaker_a(inputs: Inputs) -> float | None:
    """The rating fixed at the point of connection, where that breaker is the branch's own."""
    electrical = inputs.job.electrical
    if electrical.combiner is not None or isinstance(electrical.interconnection, SupplySideTap):
        return None
    return electrical.interconnection.breaker


def _shared(units: int) -> tuple[int, int, int]:
    """Units between the three pairs of lines, shared as evenly as they can be."""
    return (units + 2) // 3, (units + 1) // 3, units // 3


def _current_a(units: int, unit_a: float, *, three_phase: bool) -> float:
    if three_phase:
        return circuit_current.three_phase_branch_maximum_a(_shared(units), unit_a)
    return circuit_current.microinverter_branch_maximum_a(units, unit_a)


def _most_units(unit: Microinverter, breaker_a: float, *, three_phase: bool) -> int:
    """Most units that both the breaker and the listing take."""
    if not three_phase:
        by_breaker = circuit_current.largest_microinverter_branch(breaker_a, unit.ac_current_a)
        return min(by_breaker, unit.max_per_branch)
    units = 0
    while units < unit.max_per_branch:
        current_a = _current_a(units + 1, unit.ac_current_a, three_phase=True)
        if size_device("", current_a, breaker_a).minimum_a > breaker_a * (1.0 + 1e-9):
            break
        units += 1
    return units
