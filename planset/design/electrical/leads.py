"""Whether leads reach from each module of a string to the next.

Assumed of every module: its leads leave at the middle of its upper long edge, or in portrait of its
right one. As all modules of an array lie alike, only the distance between like places counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.electrical.module_devices import (
    MICROINVERTER,
    circuit_modules,
    device_of,
    reach_of,
)
from planset.design.electrical.string_map import step_in
from planset.design.layout import PlacedModule

if TYPE_CHECKING:
    from planset.design.design import Design

LEADS_LEAVE = (
    "Leads leave a module at the middle of its upper long edge, in portrait of its right one, and "
    "follow frames and rails."
)
"""What is assumed of every module, as printed."""


@dataclass(frozen=True, slots=True)
class Hop:
    """The way from a module to the next of its circuit.

    Attributes:
        circuit: Id of the string or branch.
        first: Tag of the module.
        second: Tag of the next.
        distance_in: Way between their leads along frames and rails [in].
        reach_in: What the leads or the trunk cable bridge, None where no data sheet tells [in].
        by: What bridges it, as "module leads".
        document: The data sheet that tells of it.
        trunk: Whether it is a trunk cable, whose connectors may be left free.
    """

    circuit: str
    first: str
    second: str
    distance_in: float
    reach_in: float | None
    by: str
    document: str
    trunk: bool


def hops(design: Design) -> tuple[Hop, ...]:
    """Every step from module to module of all strings and branches, in their order."""
    placed = {module.id: module for array in design.arrays for module in array.modules}
    return tuple(
        _hop(design, circuit, number, (placed[first], placed[second]))
        for circuit, tags in circuit_modules(design)
        for number, (first, second) in enumerate(pairwise(tags), 1)
    )


def _hop(design: Design, circuit: str, number: int, ends: tuple[PlacedModule, PlacedModule]) -> Hop:
    """The step from the module of this number, counted from 1, to the next one."""
    first, second = ends
    device = device_of(design, circuit)
    way, trunk = step_in(first, second), False
    if device is not None and number % device.modules == 0:
        by, reach, document = device.joined_by, device.reach_in, device.document
        trunk = device.what == MICROINVERTER
    else:
        module = next(a.product for a in design.arrays if a.id == first.array)
        by, reach = f"leads of module {module.model}", reach_of(module.leads)
        document = module.document
    return Hop(circuit, first.id, second.id, way, reach, by, document, trunk)
