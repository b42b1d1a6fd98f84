"""What is bonded together without a jumper, and the lugs that serve it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from planset.design.grid import Cell, Grid
from planset.design.mounted import Mounted
from planset.design.racking import Rail


@dataclass(frozen=True, slots=True)
class BondedSection:
    """Modules that one lug serves.

    Attributes:
        rail: Id of the rail that carries the lug.
        modules: Ids of the modules bonded to it.
        along_in: Where the lug sits: along its rail, at the lower or left end of what it serves
            there, past the splice [in].
    """

    rail: str
    modules: tuple[str, ...]
    along_in: float


def bonded_sections(one: Mounted) -> tuple[BondedSection, ...]:
    """The sections of a mounted array, one lug each, as its listing counts them.

    By array, modules that meet side by side or one above the other are a section. By rail, each
    rail is, and each of its parts where splices do not bond; an expansion gap parts it in any case,
    since nothing tells that its sliding joint bonds (interpretation).
    """
    if one.array.system.bonding.lug_per == "array":
        return tuple(_blocks(one))
    grid = Grid.of(one.array)
    return tuple(section for rail in one.racking.rails for section in _along(one, grid, rail))


def _blocks(one: Mounted) -> Iterator[BondedSection]:
    """Contiguous blocks of modules, each with the first rail that lies under one of them."""
    grid = Grid.of(one.array)
    under = {rail.id: list(_spans(grid, rail)) for rail in one.racking.rails}
    left = set(grid.cells)
    for first in sorted(grid.cells):
        if first not in left:
            continue
        block = _reached(first, left)
        left -= block
        modules = tuple(grid.cells[cell].id for cell in sorted(block))
        rail, along = next(
            (
                (tag, start)
                for tag, spans in under.items()
                for start, _, held in spans
                if set(held) & set(modules)
            ),
            ("", 0.0),
        )
        yield BondedSection(rail, modules, along)


def _reached(first: Cell, among: set[Cell]) -> set[Cell]:
    """The cells that can be reached from one over shared edges."""
    found, waiting = {first}, [first]
    while waiting:
        row, column = waiting.pop()
        for cell in ((row - 1, column), (row + 1, column), (row, column - 1), (row, column + 1)):
            if cell in among and cell not in found:
                found.add(cell)
                waiting.append(cell)
    return found


def _along(one: Mounted, grid: Grid, rail: Rail) -> Iterator[BondedSection]:
    """The sections of one rail."""
    bonds = one.array.system.bonding.splices_bond
    parted = [
        splice.along_in
        for splice in one.rails.splices
        if splice.rail == rail.id and (splice.expansion or not bonds)
    ]
    splice = one.array.system.rail.splice
    half_splice = splice.length / 2 if splice else 0.0
    spans = list(_spans(grid, rail))
    for low, high in pairwise((rail.start_in, *sorted(parted), rail.end_in)):
        served = [(start, held) for start, end, held in spans if start < high and end > low]
        if served:
            modules = tuple(tag for _, held in served for tag in held)
            clear = low if low == rail.start_in else min(low + half_splice, high)
            yield BondedSection(rail.id, modules, max(clear, served[0][0]))


def _spans(grid: Grid, rail: Rail) -> Iterator[tuple[float, float, tuple[str, ...]]]:
    """From where to where modules lie on a rail."""
    for (start, _, held), (end, _, _) in pairwise(grid.crossings(rail)):
        if held:
            yield start, end, held
