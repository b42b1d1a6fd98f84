"""The modules of an array as a grid of cells: what a line crosses, and where neighbors meet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planset.design.layout import PlacedArray, PlacedModule, module_size
from planset.design.racking import Rail

Cell = tuple[int, int]
Crossing = tuple[float, tuple[str, ...], tuple[str, ...]]
"""Distance along a rail [in], and the modules before and after it there."""

_NOISE_IN = 1e-6


@dataclass(frozen=True, slots=True)
class Scale:
    """Modules and gaps in one direction of a grid; cells are counted from 1.

    Attributes:
        start_in: Where the first cell begins [in].
        size_in: Size of a module [in].
        gap_in: Gap to the next [in].
        count: Cells.
    """

    start_in: float
    size_in: float
    gap_in: float
    count: int

    def begin_in(self, cell: int) -> float:
        """Where a cell begins [in]."""
        return self.start_in + (cell - 1) * (self.size_in + self.gap_in)

    def end_in(self, cell: int) -> float:
        """Where a cell ends [in]."""
        return self.begin_in(cell) + self.size_in

    def meeting_in(self, cell: int, *, before: bool, after: bool) -> float:
        """Where modules before and after the start of a cell meet, or the only one ends [in]."""
        if before and after:
            return self.begin_in(cell) - self.gap_in / 2
        return self.begin_in(cell) if after else self.end_in(cell - 1)

    def at(self, place_in: float) -> tuple[int, ...]:
        """The cell at a place; two where it lies in the gap between them."""
        pitch = self.size_in + self.gap_in
        cell = math.floor((place_in - self.start_in + _NOISE_IN) / pitch) + 1
        inside = place_in <= self.end_in(cell) + _NOISE_IN
        return (cell,) if inside else (cell, cell + 1)


@dataclass(frozen=True, slots=True)
class Grid:
    """The cells of an array.

    Attributes:
        cells: Its modules by row and column.
        across: Its columns along the eave.
        up: Its rows up the slope.
    """

    cells: Mapping[Cell, PlacedModule]
    across: Scale
    up: Scale

    @classmethod
    def of(cls, array: PlacedArray) -> Grid:
        """The grid of an array."""
        width, height = module_size(array.given, array.product)
        extent = array.extent
        return cls(
            {(module.row, module.column): module for module in array.modules},
            Scale(extent.corner[0], width, array.given.gap, extent.columns),
            Scale(extent.corner[1], height, array.given.up_gap, extent.rows),
        )

    def crossings(self, rail: Rail) -> Iterator[Crossing]:
        """Where a rail crosses edges of modules, along it."""
        along, beside = (self.up, self.across) if rail.up else (self.across, self.up)
        lines = beside.at(rail.line_in)
        for cell in range(1, along.count + 2):
            before = self._over(rail.up, cell - 1, lines)
            after = self._over(rail.up, cell, lines)
            if not (before or after):
                continue
            place = along.meeting_in(cell, before=bool(before), after=bool(after))
            if rail.start_in - _NOISE_IN <= place <= rail.end_in + _NOISE_IN:
                yield place, before, after

    def pair(self, row: int, column: int) -> tuple[str, ...]:
        """The module of a cell and the next one in its row, as far as there are any."""
        cells = ((row, column), (row, column + 1))
        return tuple(self.cells[cell].id for cell in cells if cell in self.cells)

    def _over(self, up: bool, along: int, lines: tuple[int, ...]) -> tuple[str, ...]:
        """The modules on a rail in one of the cells along it; in a gap both or none."""
        cells = [(along, line) if up else (line, along) for line in lines]
        found = tuple(self.cells[cell].id for cell in cells if cell in self.cells)
        return found if len(found) == len(lines) else ()


@dataclass(frozen=True, slots=True)
class FrontRun:
    """A front edge: modules side by side with none below.

    Attributes:
        row: Their row.
        v_in: Their lower edge [in].
        top_in: Their upper edge [in].
        u0_in: Left end [in].
        u1_in: Right end [in].
    """

    row: int
    v_in: float
    top_in: float
    u0_in: float
    u1_in: float


def front_runs(grid: Grid) -> Iterator[FrontRun]:
    """The front edges of an array, by row from the eave, then from the left."""
    fronts = {cell for cell in grid.cells if (cell[0] - 1, cell[1]) not in grid.cells}
    for row, column in sorted(fronts):
        if (row, column - 1) in fronts:
            continue
        last = column
        while (row, last + 1) in fronts:
            last += 1
        ends = grid.across.begin_in(column), grid.across.end_in(last)
        yield FrontRun(row, grid.up.begin_in(row), grid.up.end_in(row), *ends)
