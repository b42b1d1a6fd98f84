"""What is known of a sized run of conductors."""

from __future__ import annotations

from dataclasses import dataclass

from planset.codes.nec.conductor_size import SizeCheck
from planset.codes.nec.raceways import Fill
from planset.codes.nec.voltage_drop import Drop


@dataclass(frozen=True, slots=True)
class TrunkRun:
    """The trunk cable of a branch of microinverters.

    Attributes:
        units: Units in a row on one pair of lines, whose currents add up toward the box.
        length_ft: From the box to the last unit [ft].
        ohm_per_kft: Resistance of a conductor [ohm per 1000 ft].
        drop: Rise of voltage from the box to the last unit.
    """

    units: int
    length_ft: float
    ohm_per_kft: float
    drop: Drop


@dataclass(frozen=True, slots=True)
class SizedRun:
    """A run of conductors with the sizes taken, and why.

    Attributes:
        material: "copper" or "aluminum".
        insulation: Type, as "THWN-2".
        ungrounded: Current-carrying conductors of all circuits of the run.
        neutrals: Neutral conductors of all circuits of the run.
        check: The size taken, held against every test where the run is hottest.
        size_stated: Whether the drafter fixed the size; else it is the smallest that serves.
        governing: Tests that ask for this size; empty where the drafter fixed it.
        place: Words for the place that governs, as "roof, 1 in above it".
        grounding: Size of the equipment grounding conductor.
        grounding_least: The smallest that the code takes.
        grounding_stated: Whether the drafter fixed it.
        grounding_reason: What it follows from, as "Table 250.122 for 40 A".
        raceway: Kind, as "emt"; "" for single conductors in free air.
        fill: How full the raceway is, None in free air.
        trade_size_stated: Whether the drafter fixed the trade size.
        length_ft: Length one way [ft].
        drop: Voltage lost along it.
        grounding_material: "copper" or "aluminum".
        needed_size: The smallest size that serves.
        current_carrying: Current-carrying conductors counted in the raceway or bundle, those of
            other circuits too.
        terminal_c: Temperature of the weakest terminal [deg C].
        ohm_per_kft: Resistance, for alternating current effective impedance, that the drop is
            taken with [ohm per 1000 ft].
        neutral_size: Size of the neutral conductors, "" without any.
        rating_v: Voltage marked on the conductors, None where it is not stated [V].
        neutral_least: The smallest that the code takes, "" where only the circuit sizes them.
        shares_with: Tags of other segments in the same raceway; its fill counts all of them.
        shared_ft: Length that it shares with them at its end, None for all of it [ft].
    """

    material: str
    insulation: str
    ungrounded: int
    neutrals: int
    check: SizeCheck
    size_stated: bool
    governing: tuple[str, ...]
    place: str
    grounding: str
    grounding_least: str
    grounding_stated: bool
    grounding_reason: str
    raceway: str
    fill: Fill | None
    trade_size_stated: bool
    length_ft: float
    drop: Drop
    grounding_material: str = "copper"
    needed_size: str = ""
    current_carrying: int = 0
    terminal_c: float = 0.0
    ohm_per_kft: float = 0.0
    neutral_size: str = ""
    neutral_least: str = ""
    rating_v: float | None = None
    shares_with: tuple[str, ...] = ()
    shared_ft: float | None = None

    @property
    def size(self) -> str:
        """The size taken."""
        return self.check.size
