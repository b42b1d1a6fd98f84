"""Batteries on the port of a hybrid inverter, and the panel that it goes on feeding."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.design.electrical import ratings
from planset.design.electrical.draft import Draft, circuit
from planset.design.electrical.panels import PanelParts, add_panel
from planset.design.electrical.topology import Equipment, Kind, Segment

if TYPE_CHECKING:
    from planset.catalog.inverter import Inverter
    from planset.job.load import Inputs


def hybrid_id(inputs: Inputs) -> str | None:
    """Id of the hybrid inverter, the first where there are several."""
    for placed in inputs.job.electrical.inverters:
        if inputs.inverters[placed.model].kind == "hybrid_inverter":
            return placed.id
    return None


def add_storage(draft: Draft, inputs: Inputs) -> None:
    """Add batteries and backup panel; what leads from them to the inverter comes after it."""
    storage, battery = inputs.job.electrical.storage, inputs.battery
    if storage is not None and battery is not None:
        draft.add(
            Equipment(
                storage.id,
                Kind.BATTERY,
                f"{battery.maker} {battery.model}",
                (*ratings.battery(battery, storage.count), f"LISTED {battery.listing.upper()}"),
                storage.location,
                count=storage.count,
                document=battery.document,
                rating_a=battery.device_a,
                interrupting_a=battery.device_interrupting_a,
            )
        )
    parts = _backup_panel(inputs)
    if parts is not None:
        add_panel(draft, parts)


def connect_storage(draft: Draft, inputs: Inputs, inverter_id: str, inverter: Inverter) -> None:
    """Lead batteries and backup panel to the inverter."""
    storage = inputs.job.electrical.storage
    if storage is not None and inputs.battery is not None:
        draft.connect(storage.id, inverter_id, _battery_circuit(inputs, inverter))
    parts = _backup_panel(inputs)
    if parts is not None:
        draft.connect(parts.head, inverter_id, _backup_circuit(inputs, inverter_id, inverter))


def _battery_circuit(inputs: Inputs, inverter: Inverter) -> Segment:
    """The circuit of the batteries together (NEC 706.30(A), the ratings of their listing)."""
    battery, storage = inputs.battery, inputs.job.electrical.storage
    assert battery is not None
    assert storage is not None
    current_a = storage.count * battery.max_current_a
    return circuit(
        "BATTERY CIRCUIT",
        "battery",
        ac=False,
        current_a=current_a,
        operating_a=current_a,
        voltage_v=battery.max_v,
        operating_v=inverter.battery.min_v if inverter.battery else battery.max_v,
        device_a=storage.count * battery.device_a,
        device_tag=storage.id,
    )


def _backup_circuit(inputs: Inputs, inverter_id: str, inverter: Inverter) -> Segment:
    service, backup = inputs.job.electrical.service, inputs.job.electrical.backup
    assert backup is not None
    device_a = inverter.backup.device_a if inverter.backup else None
    current_a = inverter.backup.current_a if inverter.backup else inverter.ac_current_a
    return circuit(
        "BACKUP OUTPUT",
        "backup",
        ac=True,
        current_a=current_a,
        operating_a=current_a,
        voltage_v=service.voltage,
        operating_v=service.voltage,
        lines=service.poles,
        neutral=True,
        device_a=device_a,
        device_tag="" if device_a is None else inverter_id,
        flows=f"{inverter_id} TO {backup.id}",
    )


def _backup_panel(inputs: Inputs) -> PanelParts | None:
    backup, service = inputs.job.electrical.backup, inputs.job.electrical.service
    if backup is None or hybrid_id(inputs) is None:
        return None
    return PanelParts(
        backup.id,
        "BACKUP PANEL",
        backup.bus,
        backup.main,
        service.poles,
        backup.interrupting,
        backup.location,
        ratings.phases(service),
        existing=False,
        main_existing=False,
        loads=f"BACKUP LOADS, {backup.load:g} A",
    )
