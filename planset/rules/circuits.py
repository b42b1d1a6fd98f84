"""What the electrical rules share: clauses by topic, circuits, equipment by kind."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planset.catalog.inverter import Inverter
from planset.catalog.module import Module
from planset.citation import CodeEdition, clauses_of
from planset.codes.nec import clauses
from planset.codes.nec.circuit_current import string_maximum_a
from planset.codes.nec.voltage import open_circuit_voltage
from planset.design.electrical.clause_topics import (
    conductor_topic,
    grounding_topic,
    protection_topic,
)
from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.system import StringCircuit
from planset.design.electrical.topology import Kind, Segment
from planset.rules.rule import cite

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.job.electrical.wiring import Run


def nec(topic: str) -> dict[CodeEdition, str]:
    """Return the clause of a topic in every edition of the NEC that is known to have it."""
    return clauses_of(
        "NEC", {year: clauses.clause(topic, year) for year in clauses.editions(topic)}
    )


def nec_without(topic: str) -> frozenset[CodeEdition]:
    """Return the editions among those known here that have no such rule."""
    known = set(clauses.editions("voltage_limit")) - set(clauses.editions(topic))
    return frozenset(CodeEdition("NEC", year) for year in known)


def cite_nec(topic: str, edition: int) -> str:
    """Return the citation of a topic in an edition, as it is printed."""
    return cite("NEC", edition, clauses.clause(topic, edition))


def cite_conductors(segment: Segment, edition: int) -> str:
    """Return the citation of what sizes the conductors of a segment."""
    return cite_nec(conductor_topic(segment), edition)


def cite_grounding(segment: Segment, edition: int) -> str:
    """Return the citation of what sizes the grounding conductor of a segment."""
    return cite_nec(grounding_topic(segment), edition)


def cite_protection(segment: Segment, edition: int) -> str:
    """Return the citation of what protects the conductors of a segment."""
    return cite_nec(protection_topic(segment), edition)


def by_input(design: Design) -> Mapping[tuple[str, int], tuple[StringCircuit, ...]]:
    """Return the strings in parallel on each input in use, by inverter and number of the input."""
    strings = design.electrical.strings
    used = dict.fromkeys((string.inverter, string.input) for string in strings)
    return {key: tuple(s for s in strings if (s.inverter, s.input) == key) for key in used}


def module_of(design: Design, name: str) -> Module:
    """Return the catalog entry of modules by its name."""
    return design.inputs.modules[name]


def inverter_of(design: Design, inverter_id: str) -> Inverter:
    """Return the catalog entry of an inverter of the job."""
    placed = next(p for p in design.inputs.job.electrical.inverters if p.id == inverter_id)
    return design.inputs.inverters[placed.model]


def inverter_line(design: Design, inverter_id: str, *field: str) -> int:
    """Return the line of a field of an inverter."""
    place = [item.id for item in design.inputs.job.electrical.inverters].index(inverter_id)
    return design.inputs.line_of("electrical", "inverters", place, *field)


def branch_line(design: Design, branch_id: str, *field: str) -> int:
    """Return the line of a field of a branch of microinverters."""
    place = [item.id for item in design.inputs.job.electrical.branches].index(branch_id)
    return design.inputs.line_of("electrical", "branches", place, *field)


def run_line(design: Design, segment: Segment, *field: str) -> int:
    """Return the line of the run that a segment follows, or of a field of it."""
    assert segment.run is not None, "an existing segment follows no run"
    stated = design.inputs.job.electrical.wiring.stated(segment.run, segment.box)
    place = stated.place if stated else (segment.run,)
    return design.inputs.line_of("electrical", "wiring", *place, *field)


def run_of(design: Design, segment: Segment) -> Run:
    """Return the run of the job that a sized segment follows."""
    run = design.inputs.job.electrical.wiring.run(segment.run or "", segment.box)
    assert run is not None, "a sized segment follows a run that is stated"
    return run


def device_line(design: Design, tag: str) -> int:
    """Return the line that decides an overcurrent device of the diagram."""
    electrical = design.inputs.job.electrical
    for place, branch in enumerate(electrical.branches):
        if tag.endswith(f"-{branch.id}"):
            return design.inputs.line_of("electrical", "branches", place, "breaker")
    for place, placed in enumerate(electrical.inverters):
        if tag.endswith(f"-{placed.id}"):
            return design.inputs.line_of("electrical", "inverters", place, "breaker")
    if electrical.interconnection.method == "supply_side_tap":
        return design.inputs.line_of("electrical", "disconnect", "fuse")
    return design.inputs.line_of("electrical", "interconnection", "breaker")


def sized(design: Design) -> Iterator[tuple[Segment, SizedRun]]:
    """Yield every segment that was sized, with its conductors."""
    for segment in design.electrical.topology.segments:
        if segment.conductors is not None:
            yield segment, segment.conductors


def named(segment: Segment) -> str:
    """Return the words for a segment: "Segment 3, JB1 to INV1,"."""
    return f"Segment {segment.tag}, {segment.start} to {segment.end},"


def ends_of(segment: Segment) -> tuple[str, ...]:
    """Return the design objects of a segment: what it joins."""
    return (segment.start, segment.end)


def cold_voc_per_device(design: Design) -> Mapping[str, float]:
    """Return the cold open-circuit voltage of one shutdown device's modules in series [V].

    By the catalog name of the module; empty when the job states no shutdown device.
    """
    device = design.inputs.shutdown
    if device is None:
        return {}
    return {
        name: device.modules_per_device * cold_voc(design, module)
        for name, module in design.inputs.modules.items()
    }


def cold_voc(design: Design, module: Module) -> float:
    """Return the open-circuit voltage of a module at the lowest ambient [V]."""
    lowest_c = design.inputs.job.site.lowest_ambient
    return open_circuit_voltage(module.voc_v, module.voc_percent_per_c, lowest_c)


def input_current(module: Module, basis: str) -> tuple[float, str]:
    """Return what of a module a device's limit of current is compared with, and words for it [A].

    Args:
        module: The module.
        basis: "isc", or "maximum" for 1.25 times that (NEC 690.8(A)).
    """
    isc_a = module.sizing_isc_a
    if basis == "isc":
        return isc_a, "short-circuit current, which the limit is stated for"
    return string_maximum_a(isc_a), f"1.25 x {isc_a:g} A Isc, which the limit is stated for"


def tags_of(design: Design, *kinds: Kind) -> tuple[str, ...]:
    """Return the tags of the equipment of some kinds, as the diagrams show them."""
    return tuple(item.tag for item in design.electrical.topology.of_kind(*kinds))
