"""The equipment grounding conductor of a run."""

from __future__ import annotations

from typing import NamedTuple

from planset.codes.nec import conductors, grounding, grounding_electrode
from planset.design.electrical.ratings import wire_size
from planset.design.electrical.topology import Segment
from planset.job.electrical.wiring import Run


class GroundingSize(NamedTuple):
    """An equipment grounding conductor.

    Attributes:
        least: The smallest size that the code takes.
        material: "copper" or "aluminum".
        reason: What it follows from.
    """

    least: str
    material: str
    reason: str


def grounding_of(
    run: Run, group: tuple[Segment, ...], size: str, needed: str, device_a: float | None
) -> GroundingSize:
    """The smallest one for all circuits of a raceway, by its largest device.

    Args:
        run: The run.
        group: Every segment in the raceway.
        size: Size of the circuit conductors.
        needed: The smallest of them that serves, "" where none does.
        device_a: The largest overcurrent device of the group, None without one [A].

    Source: NEC 250.122, 690.45 and 250.120(C); on the supply side 250.102(C)(1).
    """
    if any(segment.supply_side for segment in group):
        least = grounding_electrode.supply_bonding_jumper_size(size, run.material, run.material)
        reason = f"supply-side bonding jumper, Table 250.102(C)(1) for {wire_size(size)}"
        return GroundingSize(least, run.material, reason)
    material = "copper" if run.raceway == "none" else run.material
    least, reason = _by_device(group, size, material, device_a)
    if run.raceway == "none" and grounding.needs_protection(least):
        reason = f"exposed, 250.120(C); by itself {least}, {reason}"
        return GroundingSize(grounding.SMALLEST_EXPOSED, material, reason)
    if any(segment.ac for segment in group) and needed and _larger(size, needed):
        grown = grounding.increased_grounding_size(least, needed, size)
        if grown != least:
            reason = f"{reason}; 250.122(B) for {size} in place of {needed}"
        least = grown
    return GroundingSize(least, material, reason)


def grounded_least(run: Run, segment: Segment, size: str) -> str:
    """Smallest grounded conductor of a segment; "" where only its circuit sizes it.

    Args:
        run: The run.
        segment: The segment.
        size: Size of its ungrounded conductors.

    Source: NEC 2020 and 2023, 250.25, by way of 250.24; NEC 2017, 250.24 [from memory].
    """
    if not segment.supply_side:
        return ""
    return grounding_electrode.supply_bonding_jumper_size(size, run.material, run.material)


def _by_device(
    group: tuple[Segment, ...], size: str, material: str, device_a: float | None
) -> tuple[str, str]:
    assumed = ""
    if device_a is None:
        current_a = max(segment.current_a or 0.0 for segment in group)
        device_a = grounding.assumed_dc_device_a(current_a)
        assumed = " taken by 690.45"
    table = grounding.equipment_grounding_size(device_a, material)
    least = grounding.equipment_grounding_size(device_a, material, size)
    reason = f"Table 250.122 for {device_a:g} A{assumed}"
    return least, reason if least == table else f"{reason}, no larger than the circuit"


def _larger(size: str, other: str) -> bool:
    return conductors.area_cmil(size) > conductors.area_cmil(other)
