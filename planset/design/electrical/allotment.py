"""Which modules of an array a string or a branch takes."""

from __future__ import annotations

from collections.abc import Sequence

from planset.catalog.module import Module
from planset.design.layout import PlacedArray


class Allotment:
    """Modules of every array in their order, handed out circuit by circuit."""

    def __init__(self, arrays: Sequence[PlacedArray]) -> None:
        self._waiting = {array.id: [module.id for module in array.modules] for array in arrays}
        self._products = {array.id: array.product for array in arrays}
        self._names = {array.id: array.given.module for array in arrays}

    def take(self, array: str, count: int) -> tuple[str, ...]:
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
