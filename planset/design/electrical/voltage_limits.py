"""The lowest limit on the dc voltage of every inverter, and what sets it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.codes.nec import voltage
from planset.design.electrical.system import BranchCircuit, StringCircuit

if TYPE_CHECKING:
    from planset.job.load import Inputs

DWELLINGS = ("one_family_dwelling", "two_family_dwelling", "townhouse")


def voltage_limits(
    inputs: Inputs, strings: tuple[StringCircuit, ...], branches: tuple[BranchCircuit, ...]
) -> tuple[tuple[str, float, str], ...]:
    """Inverter or branch id, the limit [V], and what sets it, all of them when several do."""
    found = []
    for placed in inputs.job.electrical.inverters:
        inverter = inputs.inverters[placed.model]
        named = dict.fromkeys(string.module for string in strings if string.inverter == placed.id)
        limits = [_building(inputs), (inverter.max_dc_v, f"inverter {inverter.model}")]
        modules = [inputs.modules[name] for name in named]
        limits += [(module.max_system_v, f"module {module.model}") for module in modules]
        if inputs.shutdown is not None:
            limits.append((inputs.shutdown.max_system_v, f"device {inputs.shutdown.model}"))
        found.append((placed.id, *_lowest(limits)))
    for branch in branches:
        unit = inputs.microinverters[branch.inverter]
        limits = [_building(inputs), (unit.max_dc_v, f"microinverter {unit.model}")]
        found.append((branch.id, *_lowest(limits)))
    return tuple(found)


def _building(inputs: Inputs) -> tuple[float, str]:
    if inputs.job.building.use in DWELLINGS:
        return voltage.DWELLING_LIMIT_V, "a dwelling by 690.7"
    return voltage.OTHER_BUILDING_LIMIT_V, "a building by 690.7"


def _lowest(limits: list[tuple[float, str]]) -> tuple[float, str]:
    lowest = min(limit for limit, _ in limits)
    governing = dict.fromkeys(name for limit, name in limits if limit == lowest)
    return lowest, " and ".join(governing)
