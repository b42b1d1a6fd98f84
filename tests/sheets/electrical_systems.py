"""Electrical systems of every common shape, as topologies, without a job."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from typing import Literal

from hypothesis import strategies as st

from planset.codes.nec import raceways
from planset.codes.nec.adjusted_ampacity import Conditions, Wire
from planset.codes.nec.conductor_size import Circuit, check_size, smallest_size
from planset.codes.nec.voltage_drop import segment_drop
from planset.design.electrical.conductors import SizedRun
from planset.design.electrical.system import GroundingStep
from planset.design.electrical.topology import (
    Equipment,
    Kind,
    Link,
    Panel,
    RunName,
    Segment,
    Topology,
)

Source = Literal["strings", "shutdown", "converters", "branches"]
Connection = Literal["load_side", "subpanel", "supply_side"]


@dataclass(frozen=True)
class Shape:
    """What a system consists of.

    Attributes:
        source: What stands on the roof.
        inverters: Inverters, or branches of microinverters.
        strings: Strings of each inverter.
        dc_disconnect: Whether each inverter has one apart from it.
        battery: Whether the first inverter has a battery.
        backup: Whether it has a backup panel.
        combiner: Whether a combiner panel gathers the outputs.
        meter: Whether there is a production meter.
        fused: Whether the disconnect is fused.
        connection: Where it connects.
        lugs: Whether subpanel and combiner have lugs in place of a main.
    """

    source: Source = "shutdown"
    inverters: int = 1
    strings: int = 2
    dc_disconnect: bool = False
    battery: bool = False
    backup: bool = False
    combiner: bool = False
    meter: bool = False
    fused: bool = False
    connection: Connection = "load_side"
    lugs: bool = False


@st.composite
def shapes(draw: st.DrawFn) -> Shape:
    """Any common system."""
    source = draw(st.sampled_from(("strings", "shutdown", "converters", "branches")))
    inverters = draw(st.integers(1, 4))
    hybrid = source != "branches" and draw(st.booleans())
    return Shape(
        source=source,
        inverters=inverters,
        strings=draw(st.integers(1, 12)) if inverters < 3 else draw(st.integers(1, 4)),
        dc_disconnect=source != "branches" and draw(st.booleans()),
        battery=hybrid,
        backup=hybrid and draw(st.booleans()),
        combiner=inverters > 1 or draw(st.booleans()),
        meter=draw(st.booleans()),
        fused=draw(st.booleans()),
        connection=draw(st.sampled_from(("load_side", "subpanel", "supply_side"))),
        lugs=draw(st.booleans()),
    )


@dataclass
class _Builder:
    """Collects parts in the order of the topology."""

    equipment: list[Equipment] = field(default_factory=list)
    panels: list[Panel] = field(default_factory=list)
    segments: list[Segment] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)

    def add(self, tag: str, kind: Kind, *ratings: str, **more: object) -> str:
        name = str(more.pop("name", f"Example Works {kind.value} 12"))
        self.equipment.append(Equipment(tag, kind, name, ratings, **more))  # type: ignore[arg-type]
        return tag

    def run(
        self, start: str, end: str, circuit: str, run: RunName | None, *, ac: bool, amps: float
    ) -> None:
        neutrals = int(ac and run != "connection")
        self.segments.append(
            Segment(
                str(len(self.segments) + 1), start, end, circuit, run, ac, 1, amps, amps * 0.8,
                240.0 if ac else 480.0, neutrals=neutrals,
                conductors=sized(amps, neutrals, in_air=run == "array") if run else None,
                existing="" if run else "4/0 AWG aluminum",
            )
        )  # fmt: skip

    def link(self, start: str, end: str) -> None:
        self.links.append(Link(start, end))

    def panel(self, tag: str, name: str, ratings: tuple[str, ...], *, existing: bool) -> None:
        self.panels.append(Panel(tag, name, ratings, "west wall of garage", existing))


@cache
def sized(amps: float, neutrals: int, *, in_air: bool) -> SizedRun:
    """Conductors of a run, as the design sizes them."""
    wire, place = Wire("copper", "THWN-2", 90), Conditions(36.0, 3, free_air=in_air)
    circuit = Circuit(amps, 75.0, None)
    size = smallest_size(circuit, wire, place, 2023, None).size
    area = raceways.conductor_area_in2(size, "THWN-2")
    return SizedRun(
        "copper", "THWN-2", 2, neutrals, check_size(size, circuit, wire, place, 2023), False, (),
        "wall", "10", "10", False, "Table 250.122", "" if in_air else "emt",
        None if in_air else raceways.smallest_raceway("emt", [area] * 4), False, 20.0,
        segment_drop(amps, 20.0, 1.2, 240.0, "single_phase"), neutral_size=size,
    )  # fmt: skip


def topology_of(shape: Shape) -> Topology:
    """The topology of a system, sources first."""
    made = _Builder()
    outputs = _branches(made, shape) if shape.source == "branches" else _inverters(made, shape)
    end = _combined(made, shape, outputs)
    _connection(made, shape, end)
    return Topology(
        tuple(made.equipment), tuple(made.panels), tuple(made.segments), tuple(made.links)
    )


def _branches(made: _Builder, shape: Shape) -> list[str]:
    found = []
    for n in range(1, shape.inverters + 1):
        tag = made.add(
            f"B{n}", Kind.MICROINVERTERS, "(11) 366 W", "240 V, 1.53 A EACH", "16.8 A", count=11
        )
        box = made.add(f"JB{n}", Kind.JUNCTION_BOX, "NEMA 3R", name="Junction box", location="roof")
        made.run(tag, box, "BRANCH CIRCUIT", "branch", ac=True, amps=16.8)
        found.append(box)
    return found


def _inverters(made: _Builder, shape: Shape) -> list[str]:
    found = []
    number = 0
    for n in range(1, shape.inverters + 1):
        heads = []
        for _ in range(shape.strings):
            number += 1
            heads.append(_string(made, shape, f"S{number}"))
        box = made.add(f"JB{n}", Kind.JUNCTION_BOX, "NEMA 3R", name="Junction box", location="roof")
        for head in heads:
            made.run(head, box, "STRING", "array", ac=False, amps=17.3)
        last = box
        if shape.dc_disconnect:
            last = made.add(
                f"DCD{n}", Kind.DC_DISCONNECT, "30 A, 600 V DC", rating_a=30.0,
                name="DC disconnect", location="west wall of garage",
            )  # fmt: skip
            made.run(box, last, "PV OUTPUT", "dc", ac=False, amps=17.3)
        storage = _storage(made, shape) if n == 1 else []
        inverter = made.add(
            f"INV{n}", Kind.INVERTER, "7600 W AC, 240 V, 32 A", "600 V DC MAX, MPPT 120-480 V",
            "INTEGRAL DC DISCONNECT", "UL 1741", name="Example Works OE-76",
            location="west wall of garage",
        )  # fmt: skip
        made.run(last, inverter, "PV OUTPUT", "dc", ac=False, amps=17.3)
        for start, circuit, run in storage:
            made.run(start, inverter, circuit, run, ac=run == "backup", amps=30.0)
        found.append(inverter)
    return found


def _string(made: _Builder, shape: Shape, tag: str) -> str:
    made.add(
        tag, Kind.STRING, "(10) TR-402, 402 W", "Voc 37.2 V, Isc 13.8 A", "COLD Voc 411.2 V",
        "TO INPUT 1", count=10, location="roof",
    )  # fmt: skip
    if shape.source == "strings":
        return tag
    converters = shape.source == "converters"
    device = made.add(
        f"{'CONV' if converters else 'RSD'}-{tag}",
        Kind.CONVERTERS if converters else Kind.SHUTDOWN,
        "(10) ONE PER MODULE", "80 V, 15 A", count=10,
    )  # fmt: skip
    made.run(tag, device, "MODULE LEADS", "array", ac=False, amps=17.3)
    return device


def _storage(made: _Builder, shape: Shape) -> list[tuple[str, str, RunName]]:
    found: list[tuple[str, str, RunName]] = []
    if shape.battery:
        made.add(
            "BATT1", Kind.BATTERY, "13.5 kWh, 5 kW", "60 A DEVICE", rating_a=60.0,
            location="west wall of garage", count=2,
        )  # fmt: skip
        found.append(("BATT1", "BATTERY", "battery"))
    if shape.backup:
        made.panel("BKP", "BACKUP PANEL", ("125 A BUS",), existing=False)
        made.add("BKP-LOADS", Kind.LOADS, name="backed-up loads", panel="BKP", existing=True)
        made.add("BKP-BUS", Kind.BUS, "125 A", panel="BKP", rating_a=125.0)
        made.add("BKP-MAIN", Kind.MAIN, "50 A, 2P", panel="BKP", rating_a=50.0)
        made.link("BKP-LOADS", "BKP-BUS")
        made.link("BKP-BUS", "BKP-MAIN")
        found.append(("BKP-MAIN", "BACKUP", "backup"))
    return found


def _combined(made: _Builder, shape: Shape, outputs: list[str]) -> str:
    end = outputs[0]
    run: RunName = "output"
    if shape.combiner:
        made.panel("COMB1", "AC COMBINER PANEL", ("125 A BUS, 240 V",), existing=False)
        breakers = []
        for number, output in enumerate(outputs, 1):
            tag = made.add(f"CB{number}", Kind.BREAKER, "40 A, 2P", panel="COMB1", rating_a=40.0)
            made.run(output, tag, "INVERTER OUTPUT", "output", ac=True, amps=32.0)
            breakers.append(tag)
        bus = made.add("COMB1-BUS", Kind.BUS, "125 A", panel="COMB1", rating_a=125.0)
        end = _main(made, shape, "COMB1", bus)
        for tag in breakers:
            made.link(tag, bus)
        run = "combined"
    for tag, kind in (("M2", Kind.METER),) if shape.meter else ():
        made.add(tag, kind, "240 V, 200 A", name="production meter", location="west wall")
        made.run(end, tag, "INVERTER OUTPUT", run, ac=True, amps=32.0)
        end = tag
    kind = Kind.FUSED_DISCONNECT if shape.fused else Kind.DISCONNECT
    made.add(
        "DISC1", kind, "60 A, 240 V, 2P", "LOCKABLE, VISIBLE OPEN", "10 kA", rating_a=60.0,
        name="PV disconnect", location="west wall of garage", interrupting_a=10_000.0,
    )  # fmt: skip
    made.run(end, "DISC1", "INVERTER OUTPUT", run, ac=True, amps=32.0)
    return "DISC1"


def _main(made: _Builder, shape: Shape, panel: str, bus: str) -> str:
    kind = Kind.LUGS if shape.lugs else Kind.MAIN
    tag = f"{panel}-LUGS" if shape.lugs else f"{panel}-MAIN"
    made.add(tag, kind, *(() if shape.lugs else ("100 A, 2P",)), panel=panel)
    made.link(bus, tag)
    return tag


def _service(made: _Builder, feeding: str | None) -> str:
    """The service panel with what feeds it; its main."""
    made.panel("MSP", "MAIN SERVICE PANEL", ("200 A BUS, 240 V",), existing=True)
    made.add("MSP-LOADS", Kind.LOADS, name="loads", panel="MSP", existing=True)
    made.add("MSP-BUS", Kind.BUS, "200 A", panel="MSP", existing=True, rating_a=200.0)
    made.add("MSP-MAIN", Kind.MAIN, "175 A, 2P", panel="MSP", existing=True, rating_a=175.0)
    made.link("MSP-LOADS", "MSP-BUS")
    made.link("MSP-BUS", "MSP-MAIN")
    if feeding:
        made.link(feeding, "MSP-BUS")
    return "MSP-MAIN"


def _connection(made: _Builder, shape: Shape, end: str) -> None:
    breaker = "CB8"
    if shape.connection == "subpanel":
        made.panel("SUB1", "SUBPANEL", ("125 A BUS",), existing=True)
        made.add("CB7", Kind.BREAKER, "40 A, 2P", panel="SUB1", rating_a=40.0)
        made.run(end, "CB7", "POINT OF CONNECTION", "connection", ac=True, amps=32.0)
        made.add("SUB1-LOADS", Kind.LOADS, name="loads", panel="SUB1", existing=True)
        bus = made.add("SUB1-BUS", Kind.BUS, "125 A", panel="SUB1", existing=True)
        made.link("CB7", bus)
        made.link("SUB1-LOADS", bus)
        end = _main(made, shape, "SUB1", bus)
    if shape.connection == "supply_side":
        made.add("TAP1", Kind.TAP, "INSULATION-PIERCING", name="supply-side tap")
        made.run(end, "TAP1", "SUPPLY SIDE", "connection", ac=True, amps=32.0)
        main = _service(made, None)
        made.run(main, "TAP1", "SERVICE", None, ac=True, amps=0.0)
        end = "TAP1"
    else:
        run: RunName = "feeder" if shape.connection == "subpanel" else "connection"
        made.add(breaker, Kind.BREAKER, "40 A, 2P", "10 kA", panel="MSP", rating_a=40.0)
        made.run(end, breaker, "POINT OF CONNECTION", run, ac=True, amps=32.0)
        end = _service(made, breaker)
    made.add(
        "M1", Kind.UTILITY_METER, "240 V, 200 A", name="utility meter", existing=True,
        location="west wall",
    )  # fmt: skip
    made.run(end, "M1", "SERVICE", None, ac=True, amps=0.0)
    made.add("UTIL", Kind.UTILITY, "120/240 V, 1-PHASE", "10 kA", name="utility", existing=True)
    made.run("M1", "UTIL", "SERVICE", None, ac=True, amps=0.0)


def grounding_of(topology: Topology) -> tuple[GroundingStep, ...]:
    """A grounding path along a topology's enclosures."""
    boxes = topology.of_kind(Kind.JUNCTION_BOX)
    steps = [GroundingStep("MODULE FRAMES", b.tag, "6 AWG COPPER", 2, "690.43") for b in boxes]
    grounded = (
        Kind.JUNCTION_BOX, Kind.DC_DISCONNECT, Kind.INVERTER, Kind.BATTERY, Kind.METER,
        Kind.DISCONNECT, Kind.FUSED_DISCONNECT,
    )  # fmt: skip
    for segment in topology.segments:
        start, end = (topology.by_tag[tag] for tag in (segment.start, segment.end))
        if segment.run and (start.kind in grounded or start.panel):
            from_tag, to_tag = start.panel or start.tag, end.panel or end.tag
            steps.append(GroundingStep(from_tag, to_tag, "10 AWG COPPER", 0, "250.122"))
    return (*steps, GroundingStep("MSP", "GROUNDING ELECTRODE", "6 AWG COPPER", 0, "250.66"))
