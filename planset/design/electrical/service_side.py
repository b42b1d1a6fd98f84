"""From the disconnect over the point of connection to the utility."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from planset.design.electrical import ratings
from planset.design.electrical.ac_side import Way
from planset.design.electrical.devices import Devices
from planset.design.electrical.draft import Draft, circuit
from planset.design.electrical.panels import PanelParts, add_breaker, add_panel
from planset.design.electrical.system import Derate
from planset.design.electrical.topology import Equipment, Kind
from planset.job.electrical.service import LoadSideBreaker, SubpanelBreaker, SupplySideTap

if TYPE_CHECKING:
    from planset.job.load import Inputs

_POSITIONS = {"opposite_main": "OPPOSITE THE MAIN", "elsewhere": "NOT OPPOSITE THE MAIN"}


def connect_service(
    draft: Draft, inputs: Inputs, way: Way, devices: Devices, derate: Derate | None
) -> None:
    """Add the point of connection, the service panel, the meter and the utility."""
    connection = inputs.job.electrical.interconnection
    panel = _service_panel(inputs, derate)
    if isinstance(connection, SubpanelBreaker):
        feeder = _add_subpanel(draft, inputs, connection, way, devices)
        _add_feeder_breaker(draft, inputs, panel, connection, devices)
        add_panel(draft, panel)
        draft.connect(feeder.tag, devices.feeder.tag if devices.feeder else "", feeder.circuit)
    elif isinstance(connection, LoadSideBreaker):
        _add_connection(draft, inputs, panel, connection, devices)
        add_panel(draft, panel)
        draft.connect(way.tag, devices.breaker.tag if devices.breaker else "", way.circuit)
    else:
        add_panel(draft, panel)
    _add_utility(draft, inputs, panel, way)


def _service_panel(inputs: Inputs, derate: Derate | None) -> PanelParts:
    electrical = inputs.job.electrical
    service, change = electrical.service, electrical.main_derate
    new = derate is not None and change is not None
    return PanelParts(
        "MSP",
        "MAIN SERVICE PANEL",
        service.bus,
        derate.new_a if derate else service.main,
        service.poles,
        change.interrupting if new and change else service.interrupting,
        service.location,
        ratings.phases(service),
        existing=True,
        main_existing=not new,
        feed=f"FED AT ITS {service.feed.upper()}",
        loads="LOADS",
    )


def _add_connection(
    draft: Draft,
    inputs: Inputs,
    panel: PanelParts,
    connection: LoadSideBreaker | SubpanelBreaker,
    devices: Devices,
) -> None:
    """Add the back-fed breaker."""
    name = "PV" if inputs.job.electrical.storage is None else "SOURCES"
    if devices.breaker is not None:
        add_breaker(
            draft,
            panel,
            devices.breaker.tag,
            f"{name} BREAKER, BACK-FED",
            devices.breaker.rating_a,
            connection.interrupting,
            (_POSITIONS[connection.position],),
        )


def _add_subpanel(
    draft: Draft, inputs: Inputs, connection: SubpanelBreaker, way: Way, devices: Devices
) -> Way:
    """Add the subpanel with the back-fed breaker, and return the way on by its feeder."""
    service = inputs.job.electrical.service
    panel = PanelParts(
        connection.subpanel,
        "SUBPANEL",
        connection.bus,
        connection.main,
        service.poles,
        None,
        connection.location,
        ratings.phases(service),
        existing=True,
        main_existing=True,
        loads="LOADS",
    )
    _add_connection(draft, inputs, panel, connection, devices)
    add_panel(draft, panel)
    draft.connect(way.tag, devices.breaker.tag if devices.breaker else "", way.circuit)
    feeder = replace(way.circuit, circuit="FEEDER", run="feeder", neutrals=1)
    return Way(panel.head, feeder)


def _add_feeder_breaker(
    draft: Draft,
    inputs: Inputs,
    panel: PanelParts,
    connection: SubpanelBreaker,
    devices: Devices,
) -> None:
    if devices.feeder is not None:
        add_breaker(
            draft,
            panel,
            devices.feeder.tag,
            f"FEEDER BREAKER OF {connection.subpanel}",
            devices.feeder.rating_a,
            inputs.job.electrical.service.interrupting,
            (_POSITIONS[connection.feeder_position],),
            existing=True,
        )


def _add_utility(draft: Draft, inputs: Inputs, panel: PanelParts, way: Way) -> None:
    """Add the tap where there is one, meter and utility, by the existing conductors."""
    electrical = inputs.job.electrical
    service, connection = electrical.service, electrical.interconnection
    volts = ratings.phases(service)
    supply = service.conductors
    size = f"{ratings.wire_size(supply.size)} {supply.material.upper()}"
    existing = circuit(
        "SERVICE CONDUCTORS (E)",
        None,
        ac=True,
        voltage_v=service.voltage,
        lines=service.poles,
        neutral=True,
        supply_side=True,
        existing=size,
    )
    end = "M1"
    if isinstance(connection, SupplySideTap):
        end = "TAP1"
        distance = f"{connection.distance / 12:g} FT TO THE FUSE"
        tap = ("ON SERVICE CONDUCTORS", size, distance)
        draft.add(Equipment("TAP1", Kind.TAP, connection.connector, tap, connection.location))
    meter = Equipment(
        "M1", Kind.UTILITY_METER, "UTILITY METER", (volts,), service.meter, existing=True
    )
    draft.add(meter)
    fault = f"{service.fault_current:g} A AVAILABLE"
    name = inputs.job.utility.upper()
    draft.add(Equipment("UTIL", Kind.UTILITY, name, (volts, fault), existing=True))
    if isinstance(connection, SupplySideTap):
        # the grounded conductor goes to the disconnect, whether the inverter needs it or not
        draft.connect(way.tag, "TAP1", replace(way.circuit, supply_side=True, neutrals=1))
    draft.connect(panel.head, end, existing)
    if end == "TAP1":
        draft.connect("TAP1", "M1", existing)
    by_utility = replace(existing, circuit="UTILITY SERVICE (E)", existing="BY THE UTILITY")
    draft.connect("M1", "UTIL", by_utility)
