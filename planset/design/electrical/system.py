"""The electrical design in one value."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planset.codes.nec.busbar_alternatives import Alternative
from planset.codes.nec.labels import Label
from planset.design.electrical.conductors import TrunkRun
from planset.design.electrical.topology import Topology


@dataclass(frozen=True, slots=True)
class StringCircuit:
    """One series string of modules, with converters or without.

    Attributes:
        id: Id in the job.
        inverter: Id of the inverter it feeds.
        input: Input of that inverter, counted from 1.
        modules: Tags of its modules in order.
        module: Catalog name of the modules.
        converter: Whether its modules stand on converters; the voltages are then the string's own.
        cold_voc_v: Open-circuit voltage at the lowest ambient, by the maker's coefficient; with
            converters the maximum of the string by their listing, or their sum [V].
        table_voc_v: The same by the code's table for crystalline silicon, None where the table
            ends or converters hold the voltage [V].
        hot_vmp_v: Operating voltage at the hot cell temperature, or the fixed one [V].
        cold_vmp_v: Operating voltage at the lowest ambient, or the fixed one [V].
        hot_cell_c: That cell temperature [deg C].
        operating_v: Voltage that the drop is compared with [V].
        operating_a: Operating current: Imp, or string power over the fixed voltage [A].
        maximum_current_a: 1.25 times short-circuit current, or the converters' rated output [A].
        power_w: Sum of module power [W].
        fuse_needed: Whether the others of its input can overload it (NEC 690.9(A)).
        fuse_a: Fuse the job states, or the smallest where one is needed; None without one [A].
        backfeed_a: What the others of its input, and the inverter, can drive into it [A].
        junction_box: Id of the box it ends at.
    """

    id: str
    inverter: str
    input: int
    modules: tuple[str, ...]
    module: str
    converter: bool
    cold_voc_v: float
    table_voc_v: float | None
    hot_vmp_v: float
    cold_vmp_v: float
    hot_cell_c: float
    operating_v: float
    operating_a: float
    maximum_current_a: float
    power_w: float
    fuse_needed: bool
    fuse_a: float | None
    backfeed_a: float
    junction_box: str = ""


@dataclass(frozen=True, slots=True)
class BranchCircuit:
    """One branch circuit of microinverters.

    Attributes:
        id: Id in the job.
        modules: Tags of its modules in order.
        module: Catalog name of the modules.
        inverter: Catalog name of the microinverters.
        units: Microinverters on it.
        cold_voc_v: Open-circuit voltage at one unit's input at the lowest ambient [V].
        hot_vmp_v: Operating voltage there at the hot cell temperature [V].
        maximum_current_a: Sum of the rated outputs [A].
        least_breaker_a: Smallest standard breaker [A].
        breaker_a: Breaker taken: the job's, or that one [A].
        breaker_stated: Whether the job fixed it.
        most_units: Most units that the breaker and the listing take.
        trunk: Its trunk cable, None where its conductor is not known.
        power_w: Sum of module power [W].
        junction_box: Id of the box it leaves the roof at.
        unit_a: Rated output of one unit [A].
        to_box_in: Way of the trunk cable from the first unit to the box [in].
    """

    id: str
    modules: tuple[str, ...]
    module: str
    inverter: str
    units: int
    cold_voc_v: float
    hot_vmp_v: float
    maximum_current_a: float
    least_breaker_a: float
    breaker_a: float
    breaker_stated: bool
    most_units: int
    trunk: TrunkRun | None
    power_w: float
    junction_box: str = ""
    unit_a: float = 0.0
    to_box_in: float = 0.0


@dataclass(frozen=True, slots=True)
class Device:
    """An overcurrent device sized for a continuous source current.

    Attributes:
        tag: Equipment on the diagram.
        current_a: Maximum circuit current, of output or of import, whichever is larger [A].
        minimum_a: 1.25 times that [A].
        standard_a: The next standard rating, None beyond the largest [A].
        rating_a: Rating taken: the job's, or the standard one [A].
        stated: Whether the job fixed it.
    """

    tag: str
    current_a: float
    minimum_a: float
    standard_a: float | None
    rating_a: float
    stated: bool


@dataclass(frozen=True, slots=True)
class BusLoad:
    """A bus that sources feed, with every way in which it may comply.

    Attributes:
        tag: Panel on the diagram.
        rating_a: Rating of the bus [A].
        main_a: Rating of the device that protects it: the new one where the main is derated [A].
        source_a: Sum of the continuous outputs of all sources on it, existing ones too [A].
        source_devices_a: Ratings of their breakers [A].
        alternatives: Every way of 705.12 whose conditions it meets.
        chosen: The way that the set relies on: the first that holds, else the one nearest to it.
        by_device: The 120 % rule read by the breakers' ratings, None where it does not serve.
        feed: "end" or "center".
        opposite_end: Whether the source breaker stands at the far end from the main.
        protected_by: Tag of the device that protects the bus, "" where there is none.
    """

    tag: str
    rating_a: float
    main_a: float
    source_a: float
    source_devices_a: tuple[float, ...]
    alternatives: tuple[Alternative, ...]
    chosen: Alternative
    by_device: Alternative | None
    feed: Literal["end", "center"]
    opposite_end: bool
    protected_by: str = ""


@dataclass(frozen=True, slots=True)
class Derate:
    """A main exchanged for a smaller one.

    Attributes:
        old_a: The service's main [A].
        new_a: The new main: the job's, or the largest that serves [A].
        stated: Whether the job fixed it.
        limit_a: What the 120 % rule leaves for it [A].
        load_a: Load by article 220, None where the job has no calculation [A].
    """

    old_a: float
    new_a: float
    stated: bool
    limit_a: float
    load_a: float | None


@dataclass(frozen=True, slots=True)
class GroundingStep:
    """One step of the grounding path, from module frames to earth.

    Attributes:
        start: Tag, or words where it is no equipment on the diagram ("MODULE FRAMES").
        end: The same.
        conductor: What makes the step, as "10 AWG COPPER", or the listing of a bonding system.
        lugs: Lugs where it starts, 0 for none.
        reason: Clause and value it follows from.
    """

    start: str
    end: str
    conductor: str
    lugs: int
    reason: str


ShutdownMethod = Literal["module_devices", "converters", "microinverters", "hazard_control"]


@dataclass(frozen=True, slots=True)
class Shutdown:
    """How array conductors are shut down.

    Attributes:
        method: Kind of method, None where the job states none.
        name: Maker and model of the equipment that does it.
        listing: Its listing.
        per_circuit: String or branch id to the number of devices on it; empty for a hazard-control
            system.
        transmitter: Where the transmitter is, "" without one.
        contact: How the initiator stops an array whose inverter goes on without the grid, as the
            job states it; "" without.
        initiator: What the fire service operates, in words; "" where none is stated.
        left_inside_v: Highest voltage left inside the array, None where its listing stands for
            it [V].
        left_outside_v: Highest voltage left outside of it, None where that is not known [V].
    """

    method: ShutdownMethod | None
    name: str
    listing: str
    per_circuit: tuple[tuple[str, int], ...]
    transmitter: str
    initiator: str
    left_inside_v: float | None
    left_outside_v: float | None
    contact: str = ""

    @property
    def devices(self) -> int:
        """Devices of the whole array."""
        return sum(count for _, count in self.per_circuit)


@dataclass(frozen=True, slots=True)
class PlacedLabel:
    """A label of the edition with its own words and places.

    Attributes:
        key: Number on the plan and in the schedule, as "L3".
        name: Name in `codes.nec.labels`.
        label: What the edition asks for.
        lines: The words, line by line, values filled in.
        equipment: Tags of the equipment it goes on; each gets one, but for `quantity`.
        quantity: How many are needed.
        quantity_reason: How that number comes about, "" where it is one for each tag.
    """

    key: str
    name: str
    label: Label
    lines: tuple[str, ...]
    equipment: tuple[str, ...]
    quantity: int
    quantity_reason: str


@dataclass(frozen=True, slots=True)
class ElectricalDesign:
    """Everything computed of the electrical system.

    Attributes:
        strings: Strings in the order of the job.
        branches: Branches of microinverters in the order of the job.
        topology: Equipment, and conductors as sized.
        devices: Overcurrent devices that sources feed through.
        buses: Buses that sources feed, nearest to the sources first.
        derate: The smaller main, None without one.
        grounding: Steps from the module frames to earth.
        shutdown: How array conductors are shut down.
        labels: Labels the edition asks for.
        voltage_limits: Inverter id (or branch id) to the lowest limit on its dc side and what
            sets it [V].
        not_sized: Segment tag to why no conductor serves or is known, for `rules` to tell.
        dc_kw: Sum of module power [kW].
        ac_kw: Sum of inverter outputs [kW].
        source_a: Sum of the continuous outputs of all new sources [A].
        circuit_a: The same with what a source takes from the grid where that is more [A].
    """

    strings: tuple[StringCircuit, ...]
    branches: tuple[BranchCircuit, ...]
    topology: Topology
    devices: tuple[Device, ...]
    buses: tuple[BusLoad, ...]
    derate: Derate | None
    grounding: tuple[GroundingStep, ...]
    shutdown: Shutdown
    labels: tuple[PlacedLabel, ...]
    voltage_limits: tuple[tuple[str, float, str], ...]
    not_sized: tuple[tuple[str, str], ...]
    dc_kw: float
    ac_kw: float
    source_a: float
    circuit_a: float
