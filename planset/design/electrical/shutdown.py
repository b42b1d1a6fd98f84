"""How the conductors of the array are shut down."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from planset.design.electrical.module_voltage import module_voltage
from planset.design.electrical.ratings import disconnect_name
from planset.design.electrical.system import (
    BranchCircuit,
    Shutdown,
    ShutdownMethod,
    StringCircuit,
)

if TYPE_CHECKING:
    from planset.job.electrical.electrical import Electrical
    from planset.job.load import Inputs

_INITIATORS = {
    "service_disconnect": "SERVICE DISCONNECT MSP-MAIN",
    "switch": "RAPID SHUTDOWN SWITCH",
}


def shutdown_of(
    inputs: Inputs, strings: tuple[StringCircuit, ...], branches: tuple[BranchCircuit, ...]
) -> Shutdown:
    """The method that covers every circuit of the array, None where some are left out."""
    device, hazard, converter = inputs.shutdown, inputs.hazard_control, inputs.converter
    units = [inputs.microinverters[branch.inverter] for branch in branches]
    branches_covered = all(unit.shutdown is not None for unit in units)
    if hazard is not None:
        name = f"{hazard.maker} {hazard.model}"
        return _made(inputs, "hazard_control", name, hazard.listing)
    on_branches = tuple((branch.id, branch.units) for branch in branches)
    if strings and device is not None and branches_covered:
        each, safe_v = device.modules_per_device, device.safe_v
        counts = tuple((s.id, math.ceil(len(s.modules) / each)) for s in strings)
        return _made(
            inputs,
            "module_devices",
            f"{device.maker} {device.model}",
            device.listing,
            (*counts, *on_branches),
            transmitter=device.transmitter,
            left_inside_v=max(each * _cold_voc_v(inputs, string.module) for string in strings),
            left_outside_v=safe_v and safe_v * max(count for _, count in counts),
        )
    if strings and converter is not None and converter.shutdown and branches_covered:
        counts = tuple((s.id, math.ceil(len(s.modules) / converter.modules)) for s in strings)
        left_v = max(count * converter.safe_v for _, count in counts)
        of_modules = max(_cold_voc_v(inputs, string.module) for string in strings)
        return _made(
            inputs,
            "converters",
            f"{converter.maker} {converter.model}",
            converter.shutdown,
            (*counts, *on_branches),
            left_inside_v=max(left_v, converter.modules * of_modules),
            left_outside_v=left_v,
        )
    if units and not strings and branches_covered:
        models = dict.fromkeys(f"{unit.maker} {unit.model}" for unit in units)
        listings = dict.fromkeys(unit.shutdown or "" for unit in units)
        left_v = max(branch.cold_voc_v for branch in branches)
        words = ", ".join(models), ", ".join(listings)
        return _made(inputs, "microinverters", *words, on_branches, left_inside_v=left_v)
    return _made(inputs, None, "", "")


def _cold_voc_v(inputs: Inputs, module: str) -> float:
    return module_voltage(inputs.modules[module], inputs.job.site).cold_voc_v


def _contact(electrical: Electrical) -> str:
    contact = electrical.shutdown_contact
    if contact is None:
        return ""
    at_input = f"{contact.input} of {contact.stops}"
    return f"its auxiliary contact {contact.id}, wired to the {at_input}, {contact.effect}"


def _initiator(electrical: Electrical) -> str:
    if electrical.initiator == "pv_disconnect":
        return f"{disconnect_name(electrical)} DISC1"
    return _INITIATORS[electrical.initiator] if electrical.initiator else ""


def _made(
    inputs: Inputs,
    method: ShutdownMethod | None,
    name: str,
    listing: str,
    per_circuit: tuple[tuple[str, int], ...] = (),
    *,
    transmitter: str = "",
    left_inside_v: float | None = None,
    left_outside_v: float | None = None,
) -> Shutdown:
    return Shutdown(
        method=method,
        name=name,
        listing=listing,
        per_circuit=per_circuit,
        transmitter=transmitter,
        initiator=_initiator(inputs.job.electrical),
        left_inside_v=left_inside_v,
        left_outside_v=left_outside_v,
        contact=_contact(inputs.job.electrical),
    )
