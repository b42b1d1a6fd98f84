"""Which modules of an array a string or a branch takes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from planset.catalog.module import Module
from planset.design.electrical.boxes import boxes_of_arrays
from planset.design.electrical.string_map import string_order
from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.geometry import Point

if TYPE_CHECKING:
    from planset.job.electrical.electrical import Electrical
    from planset.job.electrical.sources import Branch, StringOfModules


class Allotment:
    """Modules of every array in the order of wiring, handed out circuit by circuit.

    Args:
        electrical: Circuits and junction boxes of the job.
        arrays: Every array where it lies.
    """

    def __init__(self, electrical: Electrical, arrays: Sequence[PlacedArray]) -> None:
        self._waiting = {array.id: _in_order(electrical, arrays, array) for array in arrays}
        self._products = {array.id: array.product for array in arrays}
        self._names = {array.id: array.given.module for array in arrays}

    def take(self, array: str, count: int) -> tuple[PlacedModule, ...]:
        """The next modules of an array; fewer where no more are left."""
        waiting = self._waiting[array]
        taken, self._waiting[array] = waiting[:count], waiting[count:]
        return tuple(taken)

    def product(self, array: str) -> Module:
        """What an array is made of."""
        return self._products[array]

    def name(self, array: str) -> str:
        """Catalog name of that."""
        return self._names[array]


def _in_order(
    electrical: Electrical, arrays: Sequence[PlacedArray], array: PlacedArray
) -> list[PlacedModule]:
    """An array's modules, those of its strings first, then those of its branches."""
    every: list[StringOfModules | Branch] = [*electrical.strings, *electrical.branches]
    circuits = [circuit for circuit in every if circuit.array == array.id]
    branches = any(branch.array == array.id for branch in electrical.branches)
    box = _box_on_plane(electrical, arrays, array)
    ordered = string_order(array, [c.modules for c in circuits], box, branches=branches)
    return [module for modules in ordered for module in modules]


def _box_on_plane(
    electrical: Electrical, arrays: Sequence[PlacedArray], array: PlacedArray
) -> Point | None:
    """Where the box of an array stands, (u, v); None where it stands on another plane [in]."""
    serving = boxes_of_arrays(electrical).get(array.id)
    beside = {other.id for other in arrays if other.plane is array.plane}
    return next(
        (
            (box.at.along, box.at.up)
            for box in electrical.junction_boxes
            if box.id == serving and box.array in beside
        ),
        None,
    )
