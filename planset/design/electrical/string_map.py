"""In which order the modules of an array are wired, so that their leads reach.

A string or branch goes on from a module to one beside it: back and forth by rows or by columns, or,
where omitted cells leave dead ends, from those inward. Of the ways to do so the one is taken whose
longest step is shortest; among those the one with the least way to go in all, the conductors to the
junction box included: from both ends of a string, from one end of a branch.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence, Set
from itertools import accumulate, groupby, pairwise, product

from planset.design.grid import Cell
from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.geometry import Point

_NOISE_IN = 1e-6
_FIRST_MODULES = 12  # of an array, from which a walk is tried
_MOST_STEPS = 4_000  # of one walk, there and back, before it is given up

Ordered = tuple[PlacedModule, ...]
_Neighbors = Mapping[Cell, Set[Cell]]


def step_in(a: PlacedModule, b: PlacedModule) -> float:
    """Way from a module to another of its array along frames and rails, on the surface [in].

    Between like places of both, first along the eave, then up the slope: leads are fixed to what
    runs square (common practice, no source).
    """
    return abs(a.surface.x0 - b.surface.x0) + abs(a.surface.y0 - b.surface.y0)


def string_order(
    array: PlacedArray,
    counts: Sequence[int],
    box: Point | None = None,
    *,
    branches: bool = False,
) -> tuple[Ordered, ...]:
    """The modules of each string or branch of an array, in the order in which they are wired.

    Args:
        array: The array.
        counts: Modules of each of its circuits; what is over in the array is left out.
        box: Where its junction box stands on its plane, (u, v); None where it is elsewhere [in].
        branches: Whether they are branches, which begin at the box and end under the array.
    """
    ways = [_shared_out(way, counts) for way in (*_ways(array), *_walks(array, counts))]
    if branches and box is not None:
        ways = [tuple(_from_box(modules, box) for modules in way) for way in ways]
    return min(ways, key=lambda way: _measure(way, box, branches))


def _from_box(modules: Ordered, box: Point) -> Ordered:
    """The same modules, the end nearer to the box first."""
    if modules and _to_box(modules[-1], box) < _to_box(modules[0], box) - _NOISE_IN:
        return modules[::-1]
    return modules


def _measure(
    circuits: tuple[Ordered, ...], box: Point | None, branches: bool
) -> tuple[float, float]:
    """Longest step, then the whole way, rounded so that equal ways keep their order [in]."""
    steps = [step_in(a, b) for modules in circuits for a, b in pairwise(modules)]
    whole = sum(steps)
    if box is not None:
        ends = [end for modules in circuits if modules for end in (modules[0], modules[-1])]
        whole += sum(_to_box(end, box) for end in (ends[::2] if branches else ends))
    return round(max(steps, default=0.0), 6), round(whole, 6)


def _to_box(module: PlacedModule, box: Point) -> float:
    u, v = module.surface.center
    return abs(u - box[0]) + abs(v - box[1])


def _shared_out(order: Ordered, counts: Sequence[int]) -> tuple[Ordered, ...]:
    made: list[Ordered] = []
    start = 0
    for count in counts:
        made.append(order[start : start + count])
        start += count
    return tuple(made)


def _ways(array: PlacedArray) -> Iterator[Ordered]:
    """Back and forth by rows, then by columns, from each corner of the array."""
    by_row: tuple[Callable[[PlacedModule], int], ...] = (_row, _column)
    for (outer, inner), down, back in product((by_row, by_row[::-1]), (False, True), (False, True)):
        lines = sorted(array.modules, key=lambda m: (outer(m), inner(m)))
        grouped = [list(line) for _, line in groupby(lines, key=outer)]
        if down:
            grouped.reverse()
        made: list[PlacedModule] = []
        for number, line in enumerate(grouped):
            made += reversed(line) if (number % 2 == 1) != back else line
        yield tuple(made)


def _walks(array: PlacedArray, counts: Sequence[int]) -> Iterator[Ordered]:
    """Ways from module to module, one from each of several first modules.

    Every step is to a module beside, or where no such way is found to one of the next but one. A
    rectangle is done by rows or columns, so only arrays with omitted cells are walked.
    """
    cells = {(module.row, module.column): module for module in array.modules}
    if len(cells) == array.extent.rows * array.extent.columns:
        return
    beside, next_but_one = (_neighbors(cells, reach) for reach in (1, 2))
    starts = _few_ways_first(cells, set(cells), beside)[:_FIRST_MODULES]
    for near in (beside, next_but_one):
        ways = [_walk(start, set(cells), counts, beside, near) for start in starts]
        yield from (tuple(cells[cell] for cell in way) for way in ways if way)
        if any(ways):
            return


def _walk(
    start: Cell, left: set[Cell], counts: Sequence[int], beside: _Neighbors, near: _Neighbors
) -> list[Cell]:
    """One such way, tried with the modules first that have the fewest ways on; [] if none is found.

    A new circuit may begin anywhere.

    Args:
        start: The first module.
        left: All modules; used up.
        counts: Modules per circuit.
        beside: The modules beside each.
        near: Those that a step may lead to.
    """
    begins = set(accumulate(counts))
    total = min(sum(counts), len(left))
    path: list[Cell] = []
    choices = [iter([start])]
    for _ in range(_MOST_STEPS):
        if len(path) == total or not choices:
            break
        cell = next(choices[-1], None)
        if cell is None:
            choices.pop()
            if path:
                left.add(path.pop())
            continue
        path.append(cell)
        left.discard(cell)
        onward = left if len(path) in begins else near[cell] & left
        choices.append(iter(_few_ways_first(onward, left, beside, cell)))
    return path if len(path) == total else []


def _few_ways_first(
    cells: Iterable[Cell], left: Set[Cell], beside: _Neighbors, here: Cell | None = None
) -> list[Cell]:
    """Modules beside before others, each kind by how few ways on there are from it."""
    first = beside[here] if here else left
    return sorted(cells, key=lambda cell: (cell not in first, len(beside[cell] & left), cell))


def _neighbors(cells: Collection[Cell], reach: int) -> _Neighbors:
    """Of each cell the others no more than so many steps away, rows and columns added up."""
    around = [
        (up, across)
        for up in range(-reach, reach + 1)
        for across in range(abs(up) - reach, reach - abs(up) + 1)
        if up or across
    ]
    return {
        (row, column): {(row + up, column + across) for up, across in around}.intersection(cells)
        for row, column in cells
    }


def _row(module: PlacedModule) -> int:
    return module.row


def _column(module: PlacedModule) -> int:
    return module.column
