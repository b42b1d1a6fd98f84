"""The packing of modules on one plane."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from planset.design.packing.choose import tidy_part
from planset.design.packing.grids import Grid, slid
from planset.design.packing.offsets import fold, most_on_any_grid
from planset.design.packing.positions import Positions, Size, free_positions
from planset.design.packing.search import fullest_grid
from planset.drawing.geometry import Box, Point


@dataclass(frozen=True, slots=True)
class Packing:
    """Modules in rows and columns from a corner, some cells left out.

    Attributes:
        corner: Lower left corner of the frame in row 1, column 1, taken or not, in whole
            sixteenths of an inch (u, v) [in].
        rows: Rows from the eave up.
        columns: Columns from the left.
        omitted: Cells without a module (row, column), counted from 1, row 1 lowest, in order.
        module: Size of a module across and up the slope [in].
        gap: Gap between columns and between rows [in].
        bound: No grid with these gaps, wherever its corner, holds more modules, nor are more
            asked for; None where it is not known.
        proof: How the bound is known, one sentence.
    """

    corner: Point
    rows: int
    columns: int
    omitted: tuple[tuple[int, int], ...]
    module: Size
    gap: Size
    bound: int | None
    proof: str

    @property
    def count(self) -> int:
        """Number of modules."""
        return self.rows * self.columns - len(self.omitted)

    def frames(self) -> Iterator[tuple[int, int, Box]]:
        """Row, column and frame of every module, by row from the lowest, then from the left."""
        left_out = set(self.omitted)
        across, up = self.module
        for row in range(self.rows):
            for column in range(self.columns):
                if (row + 1, column + 1) not in left_out:
                    u = self.corner[0] + column * (across + self.gap[0])
                    v = self.corner[1] + row * (up + self.gap[1])
                    yield row + 1, column + 1, Box(u, v, u + across, v + up)


def pack(
    outline: Sequence[Point],
    keep_outs: Sequence[Sequence[Point]],
    module: Size,
    gap: Size,
    past_in: float = 0.0,
    most: int | None = None,
) -> Packing:
    """As many modules as fit on a plane, on one grid of rows and columns.

    With no limit, or one that is not reached, the array lies in the middle of the room it has;
    with fewer than fit, it is a compact block of full rows next to the upper end of its room.

    Args:
        outline: Corners of the plane, a simple polygon of any shape, u along the eave and v up
            the slope [in].
        keep_outs: Corners of the areas that modules and rails keep out of; they may overlap
            each other and the outline [in].
        module: Size of a module across and up the slope, as it lies [in].
        gap: Gap between columns and between rows [in].
        past_in: Length of the rails beyond the frames, at the lower and upper end of each
            column and on both sides of cells left out [in].
        most: Number of modules wanted; None for all that fit.

    Raises:
        ValueError: The outline or a keep-out is no simple polygon, a size is not positive, or a
            gap, the rails' length or the number wanted is negative, or the plane is so large
            that a grid over it has more than 20,000 cells.
    """
    _check(module, gap, past_in, most)
    positions = free_positions(outline, keep_outs, module, past_in)
    if positions.empty or most == 0:
        why = "None is wanted." if most == 0 else "One module alone does not fit."
        return Packing((0.0, 0.0), 0, 0, (), module, gap, 0, why)
    _check_extent(positions, module)
    folded = fold(positions, (module[0] + gap[0], module[1] + gap[1]))
    bound = most_on_any_grid(folded)
    grid = fullest_grid(folded, positions.box, bound)
    proof = _proof(bound, grid.count if grid else 0)
    if grid is None:
        return Packing((0.0, 0.0), 0, 0, (), module, gap, bound, proof)
    if most is not None and most <= grid.count:
        bound, proof = most, "As many as are wanted."
    limited = most is not None and most < grid.count
    if limited and most is not None:
        grid = tidy_part(grid, most)
    return _stated(_settled(positions, grid, to_top=limited), module, gap, bound, proof)


_MOST_CELLS = 20_000


def _proof(bound: int | None, count: int) -> str:
    if bound is None:
        return "Not known: too many edges to count at every place of the grid."
    counted = "Counted at every place of the grid where the number of modules can change"
    if count < bound:
        return f"{counted}; of corners in whole sixteenths none has more than {count}."
    return f"{counted}."


def _check(module: Size, gap: Size, past_in: float, most: int | None) -> None:
    if not (min(module) > 0 and np.isfinite(module).all()):
        msg = f"a module needs a size, got {module}"
        raise ValueError(msg)
    if not (min(*gap, past_in) >= 0 and np.isfinite([*gap, past_in]).all()):
        msg = f"gaps and rail ends are 0 or more, got {gap} and {past_in}"
        raise ValueError(msg)
    if most is not None and most < 0:
        msg = f"the number of modules is 0 or more, got {most}"
        raise ValueError(msg)


def _check_extent(positions: Positions, module: Size) -> None:
    box = positions.box
    cells = (box.width / module[0] + 1) * (box.height / module[1] + 1)
    if cells > _MOST_CELLS:
        msg = f"modules of {module} in on this plane make {cells:.0f} cells, over {_MOST_CELLS}"
        raise ValueError(msg)


def _settled(positions: Positions, grid: Grid, *, to_top: bool) -> Grid:
    """The grid slid to the middle of its room, or up to the top of it and then to the middle."""
    if not to_top:
        grid = slid(positions, grid, 0.5)
    grid = slid(positions.turned, grid.turned, 1.0 if to_top else 0.5).turned
    return slid(positions, grid, 0.5)


def _stated(grid: Grid, module: Size, gap: Size, bound: int | None, proof: str) -> Packing:
    rows, columns = grid.cells.shape
    omitted = tuple((int(row) + 1, int(column) + 1) for row, column in np.argwhere(~grid.cells))
    return Packing(grid.corner, rows, columns, omitted, module, gap, bound, proof)
