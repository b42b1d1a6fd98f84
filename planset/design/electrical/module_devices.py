"""Which device stands under which module: microinverter, converter, shutdown device."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.module import Leads

if TYPE_CHECKING:
    from planset.design.design import Design

MICROINVERTER = "microinverter"


@dataclass(frozen=True, slots=True)
class ModuleDevice:
    """A kind of device under the modules of a circuit.

    Attributes:
        what: "microinverter", "converter" or "shutdown device".
        model: Its model.
        document: Its data sheet.
        modules: Modules on one.
        joined_by: What joins it to the next, as "leads of RS-1".
        reach_in: How far that reaches, None where no data sheet tells [in].
    """

    what: str
    model: str
    document: str
    modules: int
    joined_by: str
    reach_in: float | None


def circuit_modules(design: Design) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Id and module tags, in the order of wiring, of every string and branch."""
    strings = [(string.id, string.modules) for string in design.electrical.strings]
    branches = [(branch.id, branch.modules) for branch in design.electrical.branches]
    return (*strings, *branches)


def device_of(design: Design, circuit: str) -> ModuleDevice | None:
    """The kind of device under the modules of a string or branch, None without any."""
    inputs = design.inputs
    branch = next((b for b in design.electrical.branches if b.id == circuit), None)
    if branch is not None:
        unit = inputs.microinverters[branch.inverter]
        cable = f"trunk cable {unit.trunk.model}"
        return ModuleDevice(
            MICROINVERTER, unit.model, unit.document, unit.modules, cable, unit.trunk.pitch
        )
    if inputs.converter is not None:
        one = inputs.converter
        leads, reach = f"leads of {one.model}", reach_of(one.leads)
        return ModuleDevice("converter", one.model, one.document, one.modules, leads, reach)
    if inputs.shutdown is not None:
        device = inputs.shutdown
        leads, reach = f"leads of {device.model}", reach_of(device.leads)
        each = device.modules_per_device
        return ModuleDevice("shutdown device", device.model, device.document, each, leads, reach)
    return None


def modules_with_device(design: Design) -> dict[str, ModuleDevice]:
    """The device under each module that has one, the first of its group, by the module's tag."""
    found: dict[str, ModuleDevice] = {}
    for circuit, tags in circuit_modules(design):
        device = device_of(design, circuit)
        if device is not None:
            found |= dict.fromkeys(tags[:: device.modules], device)
    return found


def reach_of(leads: Leads | None) -> float | None:
    """How far apart two like things may stand that their leads join, None where not known [in]."""
    return None if leads is None else leads.positive + leads.negative
