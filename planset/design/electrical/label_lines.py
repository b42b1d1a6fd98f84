"""The words of labels, with the values of the system filled in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from planset.codes.nec.labels import Label
from planset.design.electrical.label_system import LabelSystem
from planset.design.electrical.ratings import disconnect_name

if TYPE_CHECKING:
    from planset.job.electrical.electrical import Electrical
    from planset.job.electrical.service import ExistingSource
    from planset.job.load import Inputs

Lines = tuple[str, ...]


def lines_of(label: Label, system: LabelSystem) -> Lines:
    """The words that the code fixes, then what it asks the label to tell besides."""
    fixed = label.words[0] if label.words else ()
    more = _MORE.get(label.name)
    return (*fixed, *(more(label, system) if more else ()))


def _dc_voltage(label: Label, system: LabelSystem) -> Lines:
    volts = max(string.cold_voc_v for string in system.strings)
    lines = ("PHOTOVOLTAIC SYSTEM", f"MAXIMUM DC VOLTAGE {volts:.1f} V")
    if "current" not in label.content:
        return lines
    current_a = max(string.maximum_current_a for string in system.strings)
    if (converter := system.inputs.converter) is None:
        return (*lines, f"MAXIMUM CIRCUIT CURRENT {current_a:.2f} A")
    output = f"MAXIMUM OUTPUT CURRENT OF DC-TO-DC CONVERTERS {converter.output_a:.2f} A"
    return (*lines, f"MAXIMUM CIRCUIT CURRENT {current_a:.2f} A", output)


def _ac_output(label: Label, system: LabelSystem) -> Lines:
    volts = system.inputs.job.electrical.service.voltage
    return (
        "PHOTOVOLTAIC POWER SOURCE",
        f"RATED AC OUTPUT CURRENT {system.source_a:.2f} A",
        f"NOMINAL AC VOLTAGE {volts:g} V",
    )


def _rapid_shutdown(label: Label, system: LabelSystem) -> Lines:
    return (f"INITIATED AT: {initiator_place(system.inputs)}",)


def _directory(label: Label, system: LabelSystem) -> Lines:
    """Where every source is disconnected."""
    job = system.inputs.job
    electrical = job.electrical
    lines = [] if label.words else ["DIRECTORY OF POWER SOURCES"]
    lines.append(f"UTILITY: SERVICE DISCONNECT, {electrical.service.location.upper()}")
    lines += _source_disconnects(electrical)
    lines += [f"{source.name.upper()}: AT ITS BREAKER" for source in _existing(system.inputs)]
    if "telephone" in label.content:
        telephone = job.utility_emergency_telephone or "____________"
        lines.append(f"EMERGENCY TELEPHONE, {job.utility.upper()}: {telephone}")
    return tuple(lines)


def _source_disconnects(electrical: Electrical) -> Iterator[str]:
    """Every disconnect of the sources that the job adds, by the name it bears, with its place."""
    name, place = disconnect_name(electrical), electrical.disconnect.location.upper()
    storage = electrical.storage
    whole = "PHOTOVOLTAIC SYSTEM" if storage is None else "PHOTOVOLTAIC SYSTEM AND ENERGY STORAGE"
    yield f"{whole}: {name}, {place}"
    of_strings = "PV SYSTEM DISCONNECT" if storage is not None else "DC DISCONNECT"
    used = {string.inverter for string in electrical.strings}
    for placed in electrical.inverters:
        apart = placed.dc_disconnect
        if apart is not None:
            yield f"PHOTOVOLTAIC SYSTEM: {of_strings} {apart.id}, {apart.location.upper()}"
        elif storage is not None and used & {placed.id, None}:
            yield f"PHOTOVOLTAIC SYSTEM: {of_strings} ON {placed.id}, {placed.location.upper()}"
    if storage is None:
        return
    yield (
        f"ENERGY STORAGE: ENERGY STORAGE SYSTEM DISCONNECT ON {storage.id}, "
        f"{storage.location.upper()}"
    )
    if (switch := storage.shutdown_switch) is not None:
        yield f"ENERGY STORAGE: EMERGENCY SHUTDOWN {switch.id}, {switch.location.upper()}"


def _multiple_sources(label: Label, system: LabelSystem) -> Lines:
    storage = system.inputs.job.electrical.storage is not None
    names = ["UTILITY", "PHOTOVOLTAIC SYSTEM", *(["ENERGY STORAGE"] if storage else [])]
    names += [source.name.upper() for source in _existing(system.inputs)]
    return ("CAUTION", "FED BY MORE THAN ONE SOURCE:", ", ".join(names))


def _existing(inputs: Inputs) -> tuple[ExistingSource, ...]:
    return inputs.job.electrical.service.existing_sources


def _polarity(label: Label, system: LabelSystem) -> Lines:
    return ("POS", "NEG")


def _storage_disconnect(label: Label, system: LabelSystem) -> Lines:
    """Other than in dwellings ratings and the arc-flash data, which come from a study."""
    battery = system.inputs.battery
    if system.dwelling or battery is None:
        return ()
    return (
        f"NOMINAL VOLTAGE {battery.max_v:g} V MAX",
        f"AVAILABLE FAULT CURRENT {battery.fault_current_a:g} A",
        "ARC-FLASH DATA: ____________",
        "DATE: ____________",
    )


def _arc_flash(label: Label, system: LabelSystem) -> Lines:
    return ("WARNING", "ARC FLASH AND SHOCK HAZARD", "APPROPRIATE PROTECTION REQUIRED")


def _storage_shutdown(label: Label, system: LabelSystem) -> Lines:
    storage = system.inputs.job.electrical.storage
    assert storage is not None, "a label of a system with storage"
    return (
        "EMERGENCY SHUTDOWN",
        "ENERGY STORAGE SYSTEM",
        f"STOPS THE BATTERY: {storage.location.upper()}",
    )


def _fault_current(label: Label, system: LabelSystem) -> Lines:
    service = system.inputs.job.electrical.service
    return (
        f"AVAILABLE FAULT CURRENT {service.fault_current:g} A",
        f"BY {service.fault_source.upper()}",
        "CALCULATED ON: ____________",
    )


def initiator_place(inputs: Inputs) -> str:
    """Where the fire service finds the initiation device, in capitals."""
    electrical = inputs.job.electrical
    if electrical.initiator == "pv_disconnect":
        return f"{disconnect_name(electrical)}, {electrical.disconnect.location.upper()}"
    if electrical.initiator == "service_disconnect":
        return f"SERVICE DISCONNECT, {electrical.service.location.upper()}"
    if electrical.initiator == "switch":
        return "RAPID SHUTDOWN SWITCH"
    return "NOT STATED"


_MORE: dict[str, Callable[[Label, LabelSystem], Lines]] = {
    "dc_voltage": _dc_voltage,
    "ac_output": _ac_output,
    "rapid_shutdown": _rapid_shutdown,
    "directory": _directory,
    "multiple_sources": _multiple_sources,
    "polarity": _polarity,
    "storage_disconnect": _storage_disconnect,
    "arc_flash": _arc_flash,
    "storage_shutdown": _storage_shutdown,
    "fault_current": _fault_current,
}
