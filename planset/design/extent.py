"""How far an array reaches: its corner, rows and columns, and the cells left out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.drawing.geometry import Point

if TYPE_CHECKING:
    from planset.job.arrays import Array


@dataclass(frozen=True, slots=True)
class Extent:
    """A grid of modules from a corner.

    Attributes:
        corner: Lower left corner of the frames on the plane, (u, v) [in].
        rows: Rows up the slope.
        columns: Columns along the eave.
        omitted: Cells without a module, as (row, column) from 1.
    """

    corner: Point
    rows: int
    columns: int
    omitted: frozenset[tuple[int, int]] = frozenset()

    @property
    def cells(self) -> tuple[tuple[int, int], ...]:
        """Cells with a module, by row from the eave, then from the left."""
        return tuple(
            (row, column)
            for row in range(1, self.rows + 1)
            for column in range(1, self.columns + 1)
            if (row, column) not in self.omitted
        )


def stated_extents(arrays: Iterable[Array]) -> tuple[Extent, ...]:
    """The extents of arrays that all state theirs."""
    return tuple(extent for given in arrays if (extent := stated_extent(given)))


def stated_extent(given: Array) -> Extent | None:
    """The extent a job states, None when it is to be found."""
    if given.corner is None or given.rows is None or given.columns is None:
        return None
    corner = (given.corner.along, given.corner.up)
    return Extent(corner, given.rows, given.columns, given.omitted)
