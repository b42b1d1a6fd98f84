"""The largest overcurrent device on the output of an inverter, where its maker names one."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.design.electrical.system import Device


class DeviceLimit(NamedTuple):
    """A device and the largest that may stand there.

    Attributes:
        device: The device nearest to the inverter.
        inverter: Id of the inverter.
        model: Its model.
        document: Where its maker names the largest device.
        limit_a: That device [A].
    """

    device: Device
    inverter: str
    model: str
    document: str
    limit_a: float


def device_limits(design: Design) -> tuple[DeviceLimit, ...]:
    """The device of each inverter whose maker names the largest."""
    found = []
    for placed in design.inputs.job.electrical.inverters:
        inverter, device = design.inputs.inverters[placed.model], nearest_device(design, placed.id)
        if device is not None and inverter.max_device_a is not None:
            limit_a = inverter.max_device_a
            found.append(DeviceLimit(device, placed.id, inverter.model, inverter.document, limit_a))
    return tuple(found)


def nearest_device(design: Design, tag: str) -> Device | None:
    """The first device between a source and the utility, None without one."""
    devices = {device.tag: device for device in design.electrical.devices}
    onward = design.electrical.topology.onward
    way = onward.get(tag)
    while way is not None and way.end not in devices:
        way = onward.get(way.end)
    return devices[way.end] if way is not None else None
