"""Voltage drop along conductors; the NEC has no limit for it on photovoltaic circuits."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from planset.codes import _check

LOOP: Mapping[str, float] = MappingProxyType(
    {"dc": 2.0, "single_phase": 2.0, "three_phase": math.sqrt(3.0)}
)
"""Times the length of one conductor counts, between lines (no unit).

Source: NEC 2017, 2020 and 2023, Tables 8 and 9 of chapter 9, for the resistance it multiplies.
"""

NOTED_BRANCH_PERCENT = 3.0
"""Drop on a branch circuit that a note, not a rule, of the code calls reasonable [%].

Source: NEC 2017 and 2020, 210.19(A) [from memory]; NEC 2023, 210.19.
"""

NOTED_TOTAL_PERCENT = 5.0
"""Drop on feeder and branch circuit together that a note calls reasonable [%].

Source: NEC 2017 and 2020, 215.2(A) [from memory]; NEC 2023, 215.2.
"""


@dataclass(frozen=True, slots=True)
class Drop:
    """Drop of one segment.

    Attributes:
        drop_v: Voltage lost [V].
        voltage_v: Voltage it is compared with: Vmp of the string, or nominal ac [V].

    Source: NEC 2017, 2020 and 2023, Tables 8 and 9 of chapter 9, for the resistance.
    """

    drop_v: float
    voltage_v: float

    @property
    def percent(self) -> float:
        """Drop over voltage [%]."""
        return 100.0 * self.drop_v / self.voltage_v


def segment_drop(
    current_a: float, length_ft: float, ohm_per_kft: float, voltage_v: float, system: str
) -> Drop:
    """Drop along one segment.

    Args:
        current_a: Operating current: Imp, or rated output; not the 125 % [A].
        length_ft: Length one way, with what runs up and down [ft].
        ohm_per_kft: Resistance or effective impedance [ohm per 1000 ft].
        voltage_v: Voltage to compare with: Vmp of the string, or nominal ac [V].
        system: "dc", "single_phase" (two lines) or "three_phase".

    Returns:
        The drop.

    Raises:
        ValueError: A value is out of range, or no such system.

    Source: NEC 2017, 2020 and 2023, Tables 8 and 9 of chapter 9, for the resistance.
    """
    _check.not_negative(current_a, "operating current, A,")
    _check.not_negative(length_ft, "length one way, ft,")
    _check.above_zero(ohm_per_kft, "resistance, ohm per 1000 ft,")
    _check.above_zero(voltage_v, "voltage, V,")
    loop = _check.one_of(system, LOOP, "system")
    return Drop(loop * length_ft * current_a * ohm_per_kft / 1000.0, voltage_v)


def daisy_chain_drop(
    units: int, unit_a: float, segment_ft: float, ohm_per_kft: float, voltage_v: float
) -> Drop:
    """Rise along a chain of microinverters, the last one at its far end.

    Args:
        units: Microinverters on the chain.
        unit_a: Output current of one [A].
        segment_ft: Length one way from each to the next, and from the first to the box [ft].
        ohm_per_kft: Resistance of the trunk cable [ohm per 1000 ft].
        voltage_v: Nominal voltage between the lines [V].

    Returns:
        Sum over the segments, each with the current of the units beyond it.

    Raises:
        ValueError: A value is out of range.

    Source: NEC 2017, 2020 and 2023, Tables 8 and 9 of chapter 9, for the resistance.
    """
    _check.above_zero(units, "number of microinverters")
    units_along = units * (units + 1) / 2
    return segment_drop(units_along * unit_a, segment_ft, ohm_per_kft, voltage_v, "single_phase")


def total_percent(drops: Iterable[Drop]) -> float:
    """Drop of segments in a row, each over the voltage of its own side.

    Args:
        drops: The segments.

    Returns:
        Sum of the percents [%].

    Source: NEC 2017, 2020 and 2023, Tables 8 and 9 of chapter 9, for the resistance.
    """
    return math.fsum(drop.percent for drop in drops)
