"""The trunk cable of a branch of microinverters: how long it is, and how its voltage rises."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.codes.nec import resistance, voltage_drop
from planset.codes.nec.voltage_drop import Drop
from planset.design.electrical.conductors import TrunkRun
from planset.design.electrical.string_map import step_in

if TYPE_CHECKING:
    from planset.catalog.microinverter import Microinverter, Trunk
    from planset.design.layout import PlacedModule

_CONDUCTOR = re.compile(r"(?P<size>[0-9/]+) AWG (?P<material>copper|aluminum)", re.IGNORECASE)
_NOISE = 1e-9
_PAIRS = 3  # of lines on three phases


def trunk_run(
    unit: Microinverter,
    modules: Sequence[PlacedModule],
    to_box_in: float,
    voltage_v: float,
    *,
    three_phase: bool,
) -> TrunkRun | None:
    """The trunk from the box to the last unit, None where its resistance is not known.

    A unit takes a connector, and a step longer than the pitch as many more as it spans, so also the
    way from the box to the first unit. On three phases every third unit is on one pair of
    lines, and the rise is along those (interpretation).

    Args:
        unit: The microinverter.
        modules: Modules of the branch, from the box on.
        to_box_in: Way from the first of them to the box [in].
        voltage_v: Nominal voltage between the lines [V].
        three_phase: Whether the service has three phases.

    Source: NEC chapter 9, Table 8, for the resistance where the catalog states none.
    """
    ohm = ohm_per_kft(unit.trunk)
    if ohm is None:
        return None
    pitches = _pitches(unit, modules, to_box_in)
    pitch_ft, every = unit.trunk.pitch / 12.0, _PAIRS if three_phase else 1
    ends = [sum(pitches[: n + 1]) for n in range(0, len(pitches), every)]
    steps = [ends[0], *(after - before for before, after in pairwise(ends))]
    drop_v = math.fsum(
        voltage_drop.segment_drop(
            (len(steps) - n) * unit.ac_current_a, step * pitch_ft, ohm, voltage_v, "single_phase"
        ).drop_v
        for n, step in enumerate(steps)
    )
    return TrunkRun(len(steps), sum(pitches) * pitch_ft, ohm, Drop(drop_v, voltage_v))


def ohm_per_kft(trunk: Trunk) -> float | None:
    """Resistance of a conductor of a trunk cable: its maker's, or by its size; None unknown."""
    if trunk.ohm_per_kft is not None:
        return trunk.ohm_per_kft
    conductor = _CONDUCTOR.match(trunk.conductor)
    if conductor is None:
        return None
    try:
        return resistance.dc_resistance_ohm_per_kft(
            conductor["size"], conductor["material"].lower()
        )
    except ValueError:
        return None


def pitches_along(way_in: float, pitch_in: float) -> int:
    """Whole pitches of cable that reach along a way; one at least, for the connector at its end."""
    return max(math.ceil(way_in / pitch_in - _NOISE), 1)


def _pitches(unit: Microinverter, modules: Sequence[PlacedModule], to_box_in: float) -> list[int]:
    """Pitches of cable from the box to the first unit, and from each unit to the next."""
    served = modules[:: unit.modules] or modules[:1]
    ways = (to_box_in, *(step_in(a, b) for a, b in pairwise(served)))
    return [pitches_along(way, unit.trunk.pitch) for way in ways]
