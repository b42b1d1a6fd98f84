"""What is connected to what: equipment and the segments between, from the job's own data."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from planset.design.circuits import Circuits, StringCircuit

if TYPE_CHECKING:
    from planset.catalog.module import Module
    from planset.catalog.shutdown import ShutdownDevice
    from planset.job.load import Inputs


class Kind(StrEnum):
    """Kinds of equipment on a diagram; the value names the symbol."""

    STRING = "PV_ARRAY"
    SHUTDOWN = "SHUTDOWN_DEVICE"
    JUNCTION_BOX = "JUNCTION_BOX"
    INVERTER = "INVERTER"
    DISCONNECT = "DISCONNECT_SWITCH"
    BREAKER = "CIRCUIT_BREAKER"
    MAIN = "MAIN_BREAKER"
    METER = "METER"
    UTILITY = "UTILITY"


@dataclass(frozen=True, slots=True)
class Equipment:
    """One piece of equipment.

    Attributes:
        tag: Unique tag, e.g. "INV1".
        kind: What it is.
        name: Maker and model, or what it is when the job names no product.
        ratings: Short lines of ratings, as printed.
        location: Where it stands, "" when that is said elsewhere.
    """

    tag: str
    kind: Kind
    name: str
    ratings: tuple[str, ...]
    location: str = ""


@dataclass(frozen=True, slots=True)
class Segment:
    """One run of conductors.

    Attributes:
        tag: Number on the diagram and in the schedule.
        start: Tag of the equipment it leaves.
        end: Tag of the equipment it reaches.
        circuit: What it carries.
        current_a: Maximum circuit current, None for existing service conductors [A].
        voltage_v: Maximum DC or nominal AC voltage [V].
    """

    tag: str
    start: str
    end: str
    circuit: str
    current_a: float | None
    voltage_v: float


@dataclass(frozen=True, slots=True)
class Topology:
    """The whole system, sources first.

    Attributes:
        equipment: Equipment in order of the diagram.
        segments: Segments in order of the schedule.
    """

    equipment: tuple[Equipment, ...]
    segments: tuple[Segment, ...]

    def of_kind(self, kind: Kind) -> tuple[Equipment, ...]:
        """Equipment of one kind, in order."""
        return tuple(item for item in self.equipment if item.kind is kind)


def string_inverter_topology(inputs: Inputs, circuits: Circuits) -> Topology:
    """Strings, junction box, inverter, disconnect, service panel, meter, utility."""
    equipment = [
        *_strings(inputs, circuits),
        *_shutdown(inputs, circuits),
        *_inverter_side(inputs),
        *_service_side(inputs, circuits),
    ]
    return Topology(tuple(equipment), _segments(inputs, circuits))


def _strings(inputs: Inputs, circuits: Circuits) -> list[Equipment]:
    products = {array.id: inputs.modules[array.module] for array in inputs.job.arrays}
    given = zip(inputs.job.electrical.strings, circuits.strings, strict=True)
    return [_string(string, products[item.array]) for item, string in given]


def _string(string: StringCircuit, module: Module) -> Equipment:
    return Equipment(
        string.id,
        Kind.STRING,
        f"{module.maker} {module.model}",
        (
            f"({len(string.modules)}) {module.model}, {module.power_w:g} W",
            f"Voc {module.voc_v:g} V",
            f"Isc {module.isc_a:g} A",
            f"COLD Voc {string.cold_voc_v:.1f} V",
            f"TO INPUT {string.input}",
        ),
    )


def _shutdown(inputs: Inputs, circuits: Circuits) -> list[Equipment]:
    device = inputs.shutdown
    if device is None:
        return []
    return [_devices("RSD", device, sum(_device_counts(circuits, device)))]


def shutdown_per_string(inputs: Inputs, circuits: Circuits) -> tuple[Equipment, ...]:
    """The shutdown devices of each string by themselves, in the job's order; none without any."""
    device = inputs.shutdown
    if device is None:
        return ()
    counts = _device_counts(circuits, device)
    return tuple(
        _devices(f"RSD-{string.id}", device, count)
        for string, count in zip(circuits.strings, counts, strict=True)
    )


def _device_counts(circuits: Circuits, device: ShutdownDevice) -> list[int]:
    each = device.modules_per_device
    return [math.ceil(len(string.modules) / each) for string in circuits.strings]


def _devices(tag: str, device: ShutdownDevice, count: int) -> Equipment:
    return Equipment(
        tag,
        Kind.SHUTDOWN,
        f"{device.maker} {device.model}",
        (
            f"({count}) {device.model}",
            f"ONE PER {_modules(device.modules_per_device)}",
            f"{device.max_input_v:g} V, {device.max_current_a:g} A",
        ),
    )


def _modules(count: int) -> str:
    return "MODULE" if count == 1 else f"{count} MODULES"


def _inverter_side(inputs: Inputs) -> list[Equipment]:
    electrical, inverter = inputs.job.electrical, inputs.inverter
    return [
        Equipment(
            "JB1", Kind.JUNCTION_BOX, "JUNCTION BOX", ("LISTED, OUTDOOR",), electrical.junction_box
        ),
        Equipment(
            "INV1",
            Kind.INVERTER,
            f"{inverter.maker} {inverter.model}",
            (
                f"{inverter.model}, {inverter.ac_power_w:g} W",
                f"DC {inverter.max_dc_v:g} V MAX, {inverter.inputs} INPUTS",
                f"AC {inverter.ac_voltage_v:g} V, {inverter.ac_current_a:g} A",
                f"DC DISCONNECT {inverter.dc_disconnect.upper()}",
                *_transmitter(inputs),
            ),
        ),
        Equipment(
            "DISC1",
            Kind.DISCONNECT,
            "AC DISCONNECT",
            (
                f"{electrical.disconnect.rating:g} A, {electrical.service.voltage:g} V",
                "LOCKABLE OPEN",
                *_initiator(inputs, "pv_disconnect"),
            ),
            electrical.disconnect.location,
        ),
    ]


def _transmitter(inputs: Inputs) -> tuple[str, ...]:
    if inputs.shutdown is None:
        return ()
    return (f"SHUTDOWN TRANSMITTER {inputs.shutdown.transmitter.upper()}",)


def _initiator(inputs: Inputs, place: str) -> tuple[str, ...]:
    named = inputs.shutdown is not None and inputs.job.electrical.initiator == place
    return ("RAPID SHUTDOWN INITIATOR",) if named else ()


def _service_side(inputs: Inputs, circuits: Circuits) -> list[Equipment]:
    service = inputs.job.electrical.service
    volts = f"{service.voltage:g} V"
    breaker = f"{circuits.output.breaker_a:g} A, {service.poles}P"
    return [
        Equipment("CB1", Kind.BREAKER, "PV BREAKER, BACK-FED", (breaker,)),
        Equipment(
            "MSP",
            Kind.MAIN,
            "MAIN SERVICE PANEL (E)",
            (f"BUS {service.bus:g} A, MAIN {service.main:g} A",),
            service.location,
        ),
        Equipment("M1", Kind.METER, "UTILITY METER (E)", (volts, f"{service.phases}-PHASE")),
        Equipment("UTIL", Kind.UTILITY, inputs.job.utility.upper(), (volts,)),
    ]


def _segments(inputs: Inputs, circuits: Circuits) -> tuple[Segment, ...]:
    service = inputs.job.electrical.service
    output = circuits.output.rated_a
    made: list[tuple[str, str, str, float | None, float]] = [
        (string.id, "JB1", "PV SOURCE CIRCUIT", string.maximum_current_a, string.cold_voc_v)
        for string in circuits.strings
    ]
    made += [
        (
            "JB1",
            "INV1",
            f"({len(circuits.strings)}) PV SOURCE CIRCUITS",
            max(string.maximum_current_a for string in circuits.strings),
            max(string.cold_voc_v for string in circuits.strings),
        ),
        ("INV1", "DISC1", "INVERTER OUTPUT", output, service.voltage),
        ("DISC1", "CB1", "INVERTER OUTPUT", output, service.voltage),
        ("MSP", "M1", "SERVICE CONDUCTORS (E)", None, service.voltage),
        ("M1", "UTIL", "UTILITY SERVICE (E)", None, service.voltage),
    ]
    return tuple(Segment(str(number), *row) for number, row in enumerate(made, 1))
