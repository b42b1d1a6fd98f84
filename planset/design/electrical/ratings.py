"""Ratings as a single-line diagram prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planset.catalog.battery import Battery
    from planset.catalog.converter import Converter
    from planset.catalog.inverter import Inverter
    from planset.catalog.microinverter import Microinverter
    from planset.catalog.module import Module
    from planset.catalog.shutdown import ShutdownDevice
    from planset.job.electrical.electrical import Electrical
    from planset.job.electrical.service import Disconnect, Service


def kiloamperes(value_a: float) -> str:
    """An interrupting rating, as "10 kAIC"."""
    return f"{value_a / 1000:g} kAIC"


def wire_size(size: str) -> str:
    """A conductor size with its unit, as "10 AWG" or "250 kcmil"."""
    kcmil = "/" not in size and len(size) > 2
    return f"{size} {'kcmil' if kcmil else 'AWG'}"


def breaker(rating_a: float, poles: int, interrupting_a: float | None = None) -> tuple[str, ...]:
    """A breaker: amperes and poles, and what it interrupts."""
    first = f"{rating_a:g} A, {poles}P"
    return (first,) if interrupting_a is None else (first, kiloamperes(interrupting_a))


def phases(service: Service) -> str:
    """Voltage and phases of the service."""
    return f"{service.voltage:g} V, {service.phases}-PHASE"


def module(item: Module, count: int) -> tuple[str, ...]:
    """Modules of one circuit."""
    return (
        f"({count}) {item.model}, {item.power_w:g} W",
        f"Voc {item.voc_v:g} V, Isc {item.sizing_isc_a:g} A",
        f"Vmp {item.vmp_v:g} V, Imp {item.imp_a:g} A",
        f"SERIES FUSE {item.series_fuse_a:g} A MAX",
    )


def shutdown_devices(item: ShutdownDevice, count: int) -> tuple[str, ...]:
    """Shutdown devices of one string."""
    each = "MODULE" if item.modules_per_device == 1 else f"{item.modules_per_device} MODULES"
    return (
        f"({count}) {item.model}",
        f"ONE PER {each}",
        f"INPUT {item.max_input_v:g} V, {_basis(item.current_basis)} {item.max_current_a:g} A MAX",
        f"SYSTEM {item.max_system_v:g} V MAX",
    )


def converters(item: Converter, count: int) -> tuple[str, ...]:
    """Converters of one string."""
    basis = _basis(item.current_basis)
    return (
        f"({count}) {item.model}",
        f"INPUT {item.max_input_v:g} V, {basis} {item.max_input_isc_a:g} A MAX",
        f"OUTPUT {item.output_v:g} V, {item.output_a:g} A MAX",
    )


def _basis(basis: str) -> str:
    """What of a module a limit is of: its short-circuit current, or 1.25 times that."""
    return "MODULE Isc" if basis == "isc" else "MODULE 1.25 Isc"


def microinverters(item: Microinverter, count: int) -> tuple[str, ...]:
    """Microinverters of one branch."""
    return (
        f"({count}) {item.model}, {item.ac_power_w:g} W",
        f"DC {item.max_dc_v:g} V, {item.max_input_isc_a:g} A MAX",
        f"AC {item.ac_voltage_v:g} V, {item.ac_current_a:g} A",
    )


def inverter(item: Inverter, service: Service) -> tuple[str, ...]:
    """A string or hybrid inverter."""
    fixed = f", FIXED {item.fixed_dc_v:g} V" if item.fixed_dc_v else ""
    battery = item.battery
    return (
        f"{item.model}, {item.ac_power_w:g} W",
        f"DC {item.max_dc_v:g} V MAX, {item.inputs} INPUT{'S' if item.inputs > 1 else ''}{fixed}",
        f"MPPT {item.mppt_low_v:g}-{item.mppt_high_v:g} V, Isc {item.max_input_isc_a:g} A MAX",
        *(
            (f"BATTERY {battery.min_v:g}-{battery.max_v:g} V, {battery.max_current_a:g} A",)
            if battery
            else ()
        ),
        f"AC {item.ac_voltage_v:g} V, {item.ac_current_a:g} A, {service.phases}-PHASE",
        *((f"FROM THE GRID {item.grid_current_a:g} A MAX",) if item.grid_current_a else ()),
        f"DC DISCONNECT {item.dc_disconnect.upper()}",
        f"GROUND FAULT {item.ground_fault.upper()}, ARC FAULT {item.arc_fault.upper()}",
    )


def battery(item: Battery, count: int) -> tuple[str, ...]:
    """Batteries on one port."""
    value_a = item.device_interrupting_a
    interrupts = "" if value_a is None else f", {kiloamperes(value_a)}"
    return (
        f"({count}) {item.model}, {item.energy_kwh:g} kWh, {item.power_w:g} W",
        f"DC {item.max_v:g} V MAX, {item.max_current_a:g} A",
        f"BUILT-IN {item.device.upper()} {item.device_a:g} A{interrupts}",
        f"FAULT CURRENT {item.fault_current_a:g} A",
        f"DISCONNECT {item.disconnect.upper()}",
    )


def disconnect_name(electrical: Electrical) -> str:
    """What the ac disconnect is: with batteries it is not that of the photovoltaics alone.

    Source: NEC 2017 to 2023, 690.13, and 705.20 (705.22 in 2017) [from memory].
    """
    return "PV SYSTEM DISCONNECT" if electrical.storage is None else "SOURCES DISCONNECT"


def disconnect(item: Disconnect, service: Service, fuse_a: float | None) -> tuple[str, ...]:
    """The ac disconnect."""
    found = [
        f"{item.rating:g} A, {service.voltage:g} V, {service.poles}P",
        *(
            ("UNFUSED", f"SCCR {item.interrupting / 1000:g} kA")
            if fuse_a is None
            else (f"FUSED {fuse_a:g} A", kiloamperes(item.interrupting))
        ),
    ]
    if fuse_a is not None and (marked := item.fuses) is not None:
        interrupts = kiloamperes(marked.interrupting)
        found.append(f"FUSES CLASS {marked.type.upper()}, {marked.voltage:g} V, {interrupts}")
    found += ["LOCKABLE OPEN"] if item.lockable else []
    found += ["VISIBLE OPEN"] if item.visible_open else []
    found += ["SUITABLE AS SERVICE EQUIPMENT"] if item.service_rated else []
    return tuple(found)
