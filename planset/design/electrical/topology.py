"""What is connected to what: a tree from the utility to the sources.

Every piece of equipment but the utility has one way on toward the utility: a segment of conductors
(`Segment`), or, inside of a panel, a link without conductors of ours (`Link`). So the diagram of a
system has no crossing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from typing import Literal

from planset.codes.nec.raceways import Fill
from planset.codes.nec.voltage_drop import Drop
from planset.design.electrical.conductors import SizedRun, TrunkRun

RunName = Literal[
    "array", "dc", "branch", "output", "combined", "connection", "feeder", "battery", "backup"
]
"""Runs as the job's `electrical.wiring` names them."""


class Kind(StrEnum):
    """Kinds of equipment on a diagram."""

    STRING = "string"
    MICROINVERTERS = "microinverters"  # of one branch, with their modules
    SHUTDOWN = "shutdown devices"  # of one string; in line with it
    CONVERTERS = "converters"  # of one string; in line with it
    JUNCTION_BOX = "junction box"
    DC_DISCONNECT = "dc disconnect"
    INVERTER = "inverter"
    BATTERY = "battery"
    METER = "production meter"
    DISCONNECT = "disconnect"  # unfused
    FUSED_DISCONNECT = "fused disconnect"
    TAP = "tap"
    BREAKER = "breaker"
    MAIN = "main breaker"
    LUGS = "main lugs"
    BUS = "bus"
    LOADS = "loads"
    UTILITY_METER = "utility meter"
    UTILITY = "utility"
    CONTACT = "auxiliary contact"  # of a control circuit
    BUTTON = "shutdown button"  # of a control circuit


@dataclass(frozen=True, slots=True)
class Equipment:
    """One piece of equipment.

    Attributes:
        tag: Unique tag, e.g. "INV1".
        kind: What it is.
        name: Maker and model, or what it is when the job names no product.
        ratings: Short lines of ratings, as printed.
        location: Where it stands, "" when that is said elsewhere.
        panel: Tag of the panel it is part of, "" for none.
        existing: Whether it is there already.
        count: Units it stands for, as modules of a string or microinverters of a branch.
        document: Data sheet of a product, "" without one.
        rating_a: Ampere rating of a device, disconnect or bus; None without one [A].
        interrupting_a: Its interrupting rating; None where it has none [A].
    """

    tag: str
    kind: Kind
    name: str
    ratings: tuple[str, ...]
    location: str = ""
    panel: str = ""
    existing: bool = False
    count: int = 1
    document: str = ""
    rating_a: float | None = None
    interrupting_a: float | None = None


@dataclass(frozen=True, slots=True)
class Panel:
    """An enclosure: around a main, a bus and its breakers, or around the ways through a shared box.

    Attributes:
        tag: Unique tag, e.g. "MSP"; its parts name it.
        name: What it is, e.g. "MAIN SERVICE PANEL".
        ratings: Short lines of ratings, as printed.
        location: Where it stands.
        existing: Whether it is there already.
    """

    tag: str
    name: str
    ratings: tuple[str, ...]
    location: str
    existing: bool


@dataclass(frozen=True, slots=True)
class Segment:
    """One run of conductors, toward the utility.

    Attributes:
        tag: Number on the diagram and in the schedule.
        start: Tag of the equipment it leaves, on the side of the source.
        end: Tag of the equipment it reaches, on the side of the utility.
        circuit: What it carries, in capitals as printed.
        run: The run of the job's wiring it is part of, None for existing conductors and for a cable
            of a listing.
        ac: Whether it carries alternating current.
        circuits: Circuits side by side in it, as the strings between box and inverter.
        current_a: Maximum circuit current of one circuit; None for existing conductors [A].
        operating_a: Operating current, for the drop: Imp, or rated output [A].
        voltage_v: Maximum dc voltage, or nominal ac voltage [V].
        device_a: Rating of the overcurrent device that protects it, None without one [A].
        device_tag: Tag of the equipment that this device is or is in, "" where it has no tag.
        conductors: What was sized, None for existing conductors and where nothing serves.
        operating_v: Voltage that the drop is compared with; None for existing conductors [V].
        lines: Current-carrying conductors of one circuit: 2, or 3 of three phases.
        neutrals: Neutral conductors of one circuit.
        continues: Tag of the segment whose run it goes on with; the run's length and drop are
            counted there. "" for none.
        cable: Listed cable it consists of, as the trunk of microinverters; "" for none.
        supply_side: Whether it lies on the supply side of the service disconnect.
        existing: Size and material of existing conductors, as surveyed; "" of new ones.
        flows: Which way power flows where that is away from the utility, as "INV1 TO BLP"; ""
            elsewhere.
        box: Junction box whose circuits it carries, "" where its run does not go by boxes.
        trunk: The trunk cable it consists of, None for another one and where its resistance is not
            known.
    """

    tag: str
    start: str
    end: str
    circuit: str
    run: RunName | None
    ac: bool
    circuits: int
    current_a: float | None
    operating_a: float | None
    voltage_v: float
    device_a: float | None = None
    device_tag: str = ""
    conductors: SizedRun | None = None
    operating_v: float | None = None
    lines: int = 2
    neutrals: int = 0
    continues: str = ""
    cable: str = ""
    supply_side: bool = False
    existing: str = ""
    flows: str = ""
    box: str = ""
    trunk: TrunkRun | None = None

    @property
    def drop(self) -> Drop | None:
        """Voltage lost along it, None where that is not known."""
        sized = self.conductors or self.trunk
        return sized.drop if sized is not None else None


@dataclass(frozen=True, slots=True)
class Link:
    """A connection without conductors of ours: bus bars in a panel, a device plugged into them."""

    start: str
    end: str


@dataclass(frozen=True, slots=True)
class ControlCircuit:
    """One control circuit, which carries no power and so lies beside the tree.

    Attributes:
        tag: Number on the diagram and in the schedule, as "C1".
        device: What operates it; one in a switch names that as its panel.
        end: Tag of the equipment it stops.
        input: Where it ends there, as the job says.
        effect: What ends as the device is operated, as the job says.
        conductors: How many.
        size: Their size with its unit.
        insulation: Their insulation.
        material: Their metal.
        voltage_v: Voltage of the input's circuit [V].
        fill: The raceway, and how full it is.
        length_ft: Length of the raceway [ft].
    """

    tag: str
    device: Equipment
    end: str
    input: str
    effect: str
    conductors: int
    size: str
    insulation: str
    material: str
    voltage_v: float
    fill: Fill
    length_ft: float

    @property
    def start(self) -> str:
        """Tag of the enclosure that it leaves."""
        return self.device.panel or self.device.tag


@dataclass(frozen=True)
class Topology:
    """The whole system.

    Attributes:
        equipment: Equipment, sources first; every piece before the one it leads on to.
        panels: Panels.
        segments: Segments in the order of their tags.
        links: Connections inside of panels.
        controls: Control circuits.
        pull_boxes: Boxes that raceways only pass through.
    """

    equipment: tuple[Equipment, ...]
    panels: tuple[Panel, ...]
    segments: tuple[Segment, ...]
    links: tuple[Link, ...]
    controls: tuple[ControlCircuit, ...] = ()
    pull_boxes: tuple[Equipment, ...] = ()

    @cached_property
    def by_tag(self) -> dict[str, Equipment]:
        """Equipment by its tag, that beside the tree too."""
        return {item.tag: item for item in (*self.equipment, *self.beside)}

    @property
    def beside(self) -> tuple[Equipment, ...]:
        """What lies on no way to the utility: pull boxes, and devices of control circuits."""
        return (*self.pull_boxes, *(one.device for one in self.controls))

    @cached_property
    def onward(self) -> dict[str, Segment | Link]:
        """What leads from a piece of equipment toward the utility, by its tag."""
        ways: tuple[Segment | Link, ...] = (*self.segments, *self.links)
        return {way.start: way for way in ways}

    @cached_property
    def feeding(self) -> dict[str, tuple[Segment | Link, ...]]:
        """What comes in from the sources' side, by tag, in the order of the equipment."""
        found: dict[str, list[Segment | Link]] = {item.tag: [] for item in self.equipment}
        for item in self.equipment:
            way = self.onward.get(item.tag)
            if way is not None:
                found[way.end].append(way)
        return {tag: tuple(ways) for tag, ways in found.items()}

    def with_ratings(self, said: Mapping[str, str]) -> Topology:
        """It with one rating more of the equipment and panels that these tags name."""

        def ratings(item: Equipment | Panel) -> tuple[str, ...]:
            return (*item.ratings, said[item.tag]) if item.tag in said else item.ratings

        return replace(
            self,
            equipment=tuple(replace(item, ratings=ratings(item)) for item in self.equipment),
            panels=tuple(replace(panel, ratings=ratings(panel)) for panel in self.panels),
        )

    def of_kind(self, *kinds: Kind) -> tuple[Equipment, ...]:
        """Equipment of some kinds, in order."""
        return tuple(item for item in self.equipment if item.kind in kinds)

    def parts_of(self, panel: str) -> tuple[Equipment, ...]:
        """What is inside of a panel, in order."""
        return tuple(item for item in self.equipment if item.panel == panel)

    def words_of(self, tag: str) -> str:
        """What a panel or a piece of equipment is, without its product: "INVERTER"."""
        panel = next((panel.name for panel in self.panels if panel.tag == tag), "")
        if panel:
            return panel
        item = self.by_tag[tag]
        return item.kind.value.upper() if item.document else item.name.upper()

    def breaker_beyond(self, tag: str) -> Equipment | None:
        """The first breaker between a piece of equipment and the utility, None without one."""
        while (way := self.onward.get(tag)) is not None:
            tag = way.end
            if self.by_tag[tag].kind is Kind.BREAKER:
                return self.by_tag[tag]
        return None

    def segments_of(self, run: RunName) -> tuple[Segment, ...]:
        """The segments that follow one run of the job's wiring."""
        return tuple(segment for segment in self.segments if segment.run == run)
