"""The fault current that a device may have to interrupt."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.electrical.topology import Equipment, Kind

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class FaultCurrent:
    """What is available at a device.

    Attributes:
        current_a: The current [A].
        where: Where it is available.
        source: Where the value is from.
    """

    current_a: float
    where: str
    source: str


def fault_current_at(inputs: Inputs, item: Equipment) -> FaultCurrent:
    """What is available at a device: of the batteries at theirs, else of the service.

    Farther from the service it is no more; in a unit all units feed a fault, its own counted too.
    """
    storage, battery = inputs.job.electrical.storage, inputs.battery
    if item.kind is Kind.BATTERY and storage is not None and battery is not None:
        total_a = storage.count * battery.fault_current_a
        return FaultCurrent(total_a, f"from {storage.id}", battery.document)
    service = inputs.job.electrical.service
    return FaultCurrent(service.fault_current, "at the service", service.fault_source)
