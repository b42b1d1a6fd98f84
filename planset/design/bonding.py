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
        modules: Ids of the modules bonded together.
        ends: Where its lug may sit, clear of splices: id of a rail and the place along it, at both
            ends of what the section covers there [in]. Empty where it lies on no rail.
    """

    modules: tuple[str, ...]
    ends: tuple[tuple[str, float], ...]


def bonded_sections(one: Mounted) -> tuple[BondedSection, ...]:
    """The sections of a mounted array, one lug each, as its listing counts them.

    By array, modules that meet side by side or one above the other are a section. By rail, each
    rail is, and each of its parts where splices do not bond.
    """
    if one.array.system.bonding.lug_per == "array":
        return tuple(_blocks(one))
    grid = Grid.of(one.array)
    return tuple(section for rail in one.racking.rails for section in _along(one, grid, rail))


def _blocks(one: Mounted) -> Iterator[BondedSection]:
    """Contiguous blocks of modules, with every rail that lies under one of them."""
    grid = Grid.of(one.array)
    under = [(rail, list(_spans(grid, rail))) for rail in one.racking.rails]
    left = set(grid.cells)
    for first in sorted(grid.cells):
        if first not in left:
            continue
        block = _reached(first, left)
        left -= block
        modules = tuple(grid.cells[cell].id for cell in sorted(block))
        held_here = frozenset(modules)
        ends: list[tuple[str, float]] = []
        for rail, spans in under:
            served = [(low, high) for low, high, held in spans if not held_here.isdisjoint(held)]
            if served:
                ends += _ends(one, rail, served[0][0], served[-1][1])
        yield BondedSection(modules, tuple(ends))


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
        splice.along_in for splice in one.rails.splices if splice.rail == rail.id and not bonds
    ]
    spans = list(_spans(grid, rail))
    for low, high in pairwise((rail.start_in, *sorted(parted), rail.end_in)):
        served = [(start, end, held) for start, end, held in spans if start < high and end > low]
        if served:
            modules = tuple(tag for _, _, held in served for tag in held)
            first, last = max(low, served[0][0]), min(high, served[-1][1])
            yield BondedSection(modules, _ends(one, rail, first, last))


def _ends(one: Mounted, rail: Rail, low: float, high: float) -> tuple[tuple[str, float], ...]:
    """Both ends of a stretch of a rail, moved inward past a splice that covers one."""
    splice = one.array.system.rail.splice
    half = splice.length / 2 if splice else 0.0
    low, high = max(low, rail.start_in), min(high, rail.end_in)
    at = sorted(each.along_in for each in one.rails.splices if each.rail == rail.id)
    first = next((s + half for s in at if abs(s - low) < half), low)
    last = next((s - half for s in reversed(at) if abs(s - high) < half), high)
    return ((rail.id, min(first, high)), (rail.id, max(last, low)))


def _spans(grid: Grid, rail: Rail) -> Iterator[tuple[float, float, tuple[str, ...]]]:
    """From where to where modules lie on a rail."""
    for (start, _, held), (end, _, _) in pairwise(grid.crossings(rail)):
        if held:
            yield start, end, held
