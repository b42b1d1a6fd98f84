"""What holds the modules on the rails: feet or clamps, couplings, and the trim along the front.

Feet and clamps stand where a rail crosses the edges of modules: in the middle of the gap where two
modules meet there, else at the edge of the frame.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from planset.design.grid import FrontRun, Grid, front_runs
from planset.design.layout import PlacedArray
from planset.design.racking import Racking, Rail

HolderKind = Literal["foot", "combined", "mid_clamp", "end_clamp"]

_NOISE_IN = 1e-6
_CLEAR_OF_FOOT_IN = 3.0
"""A joint of the trim keeps this far from a foot, which it is locked to (common practice, no
source)."""
_LEAST_PART = 1 / 3
"""Of a full piece of trim; a shorter one is shared with the piece before it (common practice, no
source)."""


@dataclass(frozen=True, slots=True)
class Holder:
    """One part that holds modules to a rail.

    Attributes:
        kind: What it is; `combined` stands for a foot and the coupling beside it.
        part: Its name in the mounting system.
        rail: Id of its rail.
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
        modules: Ids of the modules it holds.
        front: Whether it stands at the front edge of the lowest module of its column.
    """

    kind: HolderKind
    part: str
    rail: str
    u_in: float
    v_in: float
    modules: tuple[str, ...]
    front: bool = False


@dataclass(frozen=True, slots=True)
class CouplingPlace:
    """One coupling, at corners of modules that meet.

    Attributes:
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
        modules: Ids of the modules it joins.
    """

    u_in: float
    v_in: float
    modules: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TrimPiece:
    """One piece of the trim along a front edge.

    Attributes:
        number: Counted in its array, from the left.
        v_in: The front edge of the modules, from the eave [in].
        u0_in: Left end [in].
        u1_in: Right end [in].
        joined: Whether a joint follows at its right end.
    """

    number: int
    v_in: float
    u0_in: float
    u1_in: float
    joined: bool


@dataclass(frozen=True, slots=True)
class ModuleHolding:
    """All that holds the modules of one array.

    Attributes:
        array: Id of the array.
        holders: Feet or clamps, by rail, then along it.
        couplings: Couplings that are not part of a combined foot.
        trim: Pieces of the trim.
    """

    array: str
    holders: tuple[Holder, ...] = ()
    couplings: tuple[CouplingPlace, ...] = ()
    trim: tuple[TrimPiece, ...] = ()


def module_holding(array: PlacedArray, racking: Racking) -> ModuleHolding:
    """What holds the modules of an array on its rails.

    A foot and a coupling nearer to each other than the system says are one combined part, at the
    foot's place.
    """
    system = array.system
    grid = Grid.of(array)
    holders = [holder for rail in racking.rails for holder in _along(array, grid, rail)]
    couplings = _couplings(grid) if system.coupling else []
    if system.foot and system.coupling:
        near = system.coupling.interference
        holders, couplings = _combined(holders, couplings, near, system.coupling.combined)
    return ModuleHolding(
        array.id, tuple(holders), tuple(couplings), tuple(_trim(array, grid, holders))
    )


def _along(array: PlacedArray, grid: Grid, rail: Rail) -> Iterator[Holder]:
    """The holders of one rail, along it."""
    foot, clamps = array.system.foot, array.system.clamps
    if not (foot or clamps):
        return
    for along, before, after in grid.crossings(rail):
        between = bool(before and after)
        kind: HolderKind = "mid_clamp" if between else "end_clamp"
        part = ""
        if foot:
            kind, part = "foot", foot.name
        elif clamps:
            part = clamps.mid if between else clamps.end
        u, v = rail.at(along)
        yield Holder(kind, part, rail.id, u, v, (*before, *after), front=rail.up and not before)


def _couplings(grid: Grid) -> list[CouplingPlace]:
    """A coupling on every edge line where two modules of a row meet side by side."""
    found: dict[tuple[int, int], CouplingPlace] = {}
    for row, column in grid.cells:
        if (row, column + 1) not in grid.cells:
            continue
        for line in (row, row + 1):  # the lower edge of the row with that number
            below, above = (grid.pair(near, column) for near in (line - 1, line))
            v = grid.up.meeting_in(line, before=bool(below), after=bool(above))
            u = grid.across.meeting_in(column + 1, before=True, after=True)
            found[line, column] = CouplingPlace(u, v, (*below, *above))
    return [found[key] for key in sorted(found)]


def _combined(
    holders: list[Holder], couplings: list[CouplingPlace], near_in: float, part: str
) -> tuple[list[Holder], list[CouplingPlace]]:
    """Feet and couplings, a coupling made one with the nearest foot where that is too near."""
    result = list(holders)
    feet = sorted((foot.u_in, place) for place, foot in enumerate(holders))
    alone = []
    for coupling in couplings:
        u, v = coupling.u_in, coupling.v_in
        low = bisect_left(feet, (u - near_in, 0))
        high = bisect_left(feet, (u + near_in, 0))
        beside = [
            (math.dist((foot_u, result[place].v_in), (u, v)), place)
            for foot_u, place in feet[low:high]
            if result[place].kind == "foot"
        ]
        apart, place = min(beside, default=(near_in, 0))
        if apart >= near_in:
            alone.append(coupling)
            continue
        foot = result[place]
        modules = tuple(dict.fromkeys((*foot.modules, *coupling.modules)))
        result[place] = replace(foot, kind="combined", part=part, modules=modules)
    return result, alone


def _trim(array: PlacedArray, grid: Grid, holders: list[Holder]) -> Iterator[TrimPiece]:
    """The pieces of trim along every front edge, from the left and the lowest."""
    trim = array.system.trim
    if trim is None:
        return
    number = 0
    for run in front_runs(grid):
        feet = [h.u_in for h in holders if h.front and abs(h.v_in - run.v_in) < _NOISE_IN]
        ends = _trim_ends(run, trim.piece_length, feet)
        for start, end in zip([run.u0_in, *ends], ends, strict=False):
            number += 1
            yield TrimPiece(number, run.v_in, start, end, joined=end != ends[-1])


def _trim_ends(run: FrontRun, piece_in: float, feet: list[float]) -> list[float]:
    """Right ends of the pieces along a front edge: full ones from the left, no sliver at last."""
    start, ends = run.u0_in, []
    while run.u1_in - start > piece_in + _NOISE_IN:
        end = start + piece_in
        rest = run.u1_in - end
        if rest < _LEAST_PART * piece_in:
            end = (start + run.u1_in) / 2
        clear = _clear_of_feet(end, feet)
        start = clear if clear > start else end
        ends.append(start)
    return [*ends, run.u1_in]


def _clear_of_feet(end: float, feet: list[float]) -> float:
    """Where a joint of the trim may be: at a place, or the nearest to its left clear of feet."""
    for foot in sorted(feet, reverse=True):
        if abs(end - foot) < _CLEAR_OF_FOOT_IN - _NOISE_IN:
            end = foot - _CLEAR_OF_FOOT_IN
    return end
