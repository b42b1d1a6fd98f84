"""Whether leads reach from each module of a string to the next.

Assumed of every module: its leads leave at the middle of its upper long edge, or in portrait of its
right one. As all modules of an array lie alike, only the distance between like places counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.catalog.module import Leads
from planset.design.electrical.string_map import step_in
from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.geometry import Point

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
    """

    circuit: str
    first: str
    second: str
    distance_in: float
    reach_in: float | None
    by: str
    document: str


@dataclass(frozen=True, slots=True)
class _Bridge:
    """What joins two neighbors."""

    reach_in: float | None
    by: str
    document: str


def leads_place(array: PlacedArray, module: PlacedModule) -> Point:
    """Where the leads of a module leave it, (u, v) [in]."""
    box = module.surface
    u, v = box.center
    return (box.x1, v) if array.given.orientation == "portrait" else (u, box.y1)


def hops(design: Design) -> tuple[Hop, ...]:
    """Every step from module to module of all strings and branches, in their order."""
    placed = {m.id: (array, m) for array in design.arrays for m in array.modules}
    made: list[Hop] = []
    for circuit, modules in circuit_modules(design):
        for number, (first, second) in enumerate(pairwise(modules), 1):
            array, module = placed[first]
            bridge = _bridge(design, circuit, array, number)
            way = step_in(module, placed[second][1])
            made.append(
                Hop(circuit, first, second, way, bridge.reach_in, bridge.by, bridge.document)
            )
    return tuple(made)


def circuit_modules(design: Design) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Id and module tags, in their order, of every string and branch."""
    electrical = design.electrical
    return tuple((one.id, one.modules) for one in (*electrical.strings, *electrical.branches))


def _bridge(design: Design, circuit: str, array: PlacedArray, number: int) -> _Bridge:
    """What joins the module of this number, counted from 1, to the next one."""
    inputs = design.inputs
    for branch in design.electrical.branches:
        if branch.id == circuit:
            inverter = inputs.microinverters[branch.inverter]
            if number % inverter.modules == 0:
                return _Bridge(
                    inverter.trunk.pitch, f"trunk cable {inverter.trunk.model}", inverter.document
                )
            return _of_module(array)
    converter, shutdown = inputs.converter, inputs.shutdown
    if converter is not None and number % converter.modules == 0:
        return _Bridge(_whole(converter.leads), f"leads of {converter.model}", converter.document)
    if converter is None and shutdown is not None and number % shutdown.modules_per_device == 0:
        return _Bridge(_whole(shutdown.leads), f"leads of {shutdown.model}", shutdown.document)
    return _of_module(array)


def _of_module(array: PlacedArray) -> _Bridge:
    module = array.product
    return _Bridge(_whole(module.leads), f"leads of module {module.model}", module.document)


def _whole(leads: Leads | None) -> float | None:
    return None if leads is None else leads.positive + leads.negative
