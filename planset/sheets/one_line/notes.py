"""What E-601 says in sentences: system, point of connection, shutdown, fault current."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from planset.codes.nec import clauses, rapid_shutdown
from planset.design.design import Design
from planset.design.electrical.system import ElectricalDesign, Shutdown
from planset.drawing.notes import Section
from planset.job.electrical.wiring import RunOfBox
from planset.sheets.one_line.connection_notes import connection
from planset.sheets.words import inches
from planset.units import format_temperature

_NEUTRAL: Mapping[str, str] = MappingProxyType(
    {
        "service_only": "The inverter does not switch the neutral, which is bonded at the service "
        "only: the neutral bar of {panel} stands apart from its enclosure (250.142(B)).",
        "switched_by_inverter": "The inverter switches the neutral and bonds it as it goes on "
        "without the grid, a separately derived system (250.30): the neutral bar of {panel} "
        "stands apart from its enclosure (250.142(B)).",
    }
)
"""How the neutral of backup loads is bonded; the sections are from memory."""

_METHODS: Mapping[str, str] = MappingProxyType(
    {
        "module_devices": "listed devices at the modules",
        "converters": "the listed converters at the modules",
        "microinverters": "the listed microinverters at the modules",
        "hazard_control": "a listed hazard-control system",
    }
)


def sections(design: Design) -> tuple[Section, ...]:
    """All notes of the sheet."""
    return (
        Section("POINT OF CONNECTION", tuple(connection(design))),
        Section("SYSTEM", tuple(_system(design))),
        Section("RAPID SHUTDOWN", tuple(_shutdown(design))),
        Section("ENERGY STORAGE", tuple(_storage(design))),
        Section("FAULT CURRENT", tuple(_fault(design))),
    )


def _system(design: Design) -> Iterator[str]:
    electrical, inputs = design.electrical, design.inputs
    ratio = electrical.dc_kw / electrical.ac_kw if electrical.ac_kw else 0.0
    yield (
        f"{electrical.dc_kw:.2f} kW dc at standard test conditions, {electrical.ac_kw:.2f} kW ac, "
        f"ratio {ratio:.2f}; {design.module_count} modules."
    )
    for name in dict.fromkeys(array.module for array in inputs.job.arrays):
        module = inputs.modules[name]
        yield (
            f"Module {module.model}: Voc {module.voc_percent_per_c:g} %, power and so Vmp "
            f"{module.power_percent_per_c:g} % per deg C; {module.max_system_v:g} V max; "
            f"{module.listing}."
        )
    yield from _voltages(electrical)
    site = inputs.job.site
    yield (
        f"Voltages are taken at {format_temperature(site.lowest_ambient)}, the lowest ambient, and "
        f"at cells in an ambient of {format_temperature(site.high_ambient)}."
    )
    yield (
        "125 % of MAX A is no more than the ampacity at the terminals, by the column of their "
        "marking (110.14(C)); MAX A is no more than the ampacity after the factors of the place. "
        "USABLE A is the lesser of both ampacities."
    )
    runs = [segment.conductors for segment in electrical.topology.segments]
    if any(run is not None and not run.raceway for run in runs):
        yield (
            "In free air one bare grounding conductor goes along with all circuits from an array "
            "to its box."
        )
    yield from _shared_raceways(design)


def _shared_raceways(design: Design) -> Iterator[str]:
    """Runs that have one raceway, how far, and the box where theirs become one."""
    electrical = design.electrical
    for segment in electrical.topology.segments:
        run = segment.conductors
        if run is None or not run.shares_with:
            continue
        tags = sorted((segment.tag, *run.shares_with), key=int)
        if segment.tag == tags[0]:
            last = "" if run.shared_ft is None else f" for the last {run.shared_ft:g} ft"
            stated = design.inputs.job.electrical.wiring.run(segment.run or "", segment.box)
            joint = stated.joined_in if isinstance(stated, RunOfBox) else None
            apart = " Before that each has one of its own, of that size." if last else ""
            apart += f" They come together in {joint}." if joint else ""
            yield (
                f"Runs {', '.join(tags)} share one raceway{last}, with one grounding conductor; "
                f"its fill and its factor count all of them.{apart}"
            )


def _voltages(electrical: ElectricalDesign) -> Iterator[str]:
    """The highest voltage at each inverter and its limit, like ones together."""
    cold: dict[str, float] = {}
    for string in electrical.strings:
        cold[string.inverter] = max(cold.get(string.inverter, 0.0), string.cold_voc_v)
    cold |= {branch.id: branch.cold_voc_v for branch in electrical.branches}
    alike: dict[tuple[float | None, float, str], list[str]] = {}
    for tag, limit, reason in electrical.voltage_limits:
        alike.setdefault((cold.get(tag), limit, reason), []).append(tag)
    for (highest, limit, reason), tags in alike.items():
        reached = "" if highest is None else f"reaches at most {highest:.1f} V and "
        yield (
            f"The dc voltage at {', '.join(tags)} {reached}may not exceed {limit:g} V, the limit "
            f"of {reason}."
        )


def _shutdown(design: Design) -> Iterator[str]:
    shutdown = design.electrical.shutdown
    if shutdown.method is None:
        yield "No method of rapid shutdown is stated."
        return
    yield _method_words(shutdown)
    if shutdown.initiator:
        yield f"Initiator: {shutdown.initiator}."
    if shutdown.contact:
        yield f"What stops the array as the initiator is operated: {shutdown.contact}."
    kept = {"outside": shutdown.left_outside_v, "inside": shutdown.left_inside_v}
    left = [f"{v:.1f} V {where}" for where, v in kept.items() if v is not None]
    if left:
        yield f"After it at most {' and '.join(left)} the array remain."
    edition = design.inputs.jurisdiction.codes.electrical.edition
    if edition in rapid_shutdown.editions():
        limits = rapid_shutdown.requirement(edition)
        yield (
            f"By NEC {edition}, 690.12, conductors more than {inches(limits.boundary_in)} from the "
            f"array are at {limits.outside_limit_v:g} V or less within {limits.outside_time_s:g} s "
            f"of initiation. {_inside_words(shutdown, limits)}"
        )


def _storage(design: Design) -> Iterator[str]:
    """What shuts the batteries down, where the job states it, and how backup loads are bonded."""
    storage = design.inputs.job.electrical.storage
    if storage is not None and storage.shutdown_switch is not None:
        edition = design.inputs.jurisdiction.codes.electrical.edition
        known = edition in clauses.editions("energy_storage_shutdown")
        cited = f" (NEC {clauses.clause('energy_storage_shutdown', edition)})" if known else ""
        switch = storage.shutdown_switch
        yield (
            f"Emergency shutdown device of {storage.id}{cited}: {switch.id}, {switch.location}, "
            f"wired to the {switch.input} of {storage.id}."
        )
    if controls := design.electrical.topology.controls:
        tags = ", ".join(one.tag for one in controls)
        yield (
            f"Control wiring {tags}: in a raceway of its own, no power conductors in it; rated for "
            "the voltage at its input; terminals by the maker's instructions."
        )
    backup = design.inputs.job.electrical.backup
    if backup is not None:
        for placed in design.inputs.job.electrical.inverters:
            if design.inputs.inverters[placed.model].backup is not None:
                yield f"The transfer device that parts {backup.id} from the grid is in {placed.id}."
        yield _NEUTRAL[backup.neutral_bond].format(panel=backup.id)


def _inside_words(shutdown: Shutdown, limits: rapid_shutdown.RapidShutdown) -> str:
    """Which of the code's ways holds within the boundary."""
    if shutdown.method == "hazard_control":
        return "Within that boundary the array's listing for hazard control applies."
    return (
        f"Within that boundary the limit of {limits.inside_limit_v:g} V after "
        f"{limits.inside_time_s:g} s applies."
    )


def _method_words(shutdown: Shutdown) -> str:
    count = f", {shutdown.devices} in all" if shutdown.devices else ""
    where = f"; transmitter: {shutdown.transmitter}" if shutdown.transmitter else ""
    method = _METHODS[shutdown.method or "hazard_control"]
    return f"By {method}: {shutdown.name}, {shutdown.listing}{count}{where}."


def _fault(design: Design) -> Iterator[str]:
    service = design.inputs.job.electrical.service
    yield (
        f"{service.fault_current:g} A available at the service, by {service.fault_source}. The "
        "interrupting rating of each overcurrent device stands in the equipment schedule."
    )
