"""In which order the modules of an array are wired, so that their leads reach.

A string or branch goes on from a module to one beside it, back and forth by rows or by columns. Of
the ways to do so the one is taken whose longest step is shortest; among those the one with the
least way to go in all, the conductors from its ends to the junction box included.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby, pairwise, product

from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.geometry import Point

Ordered = tuple[PlacedModule, ...]


def step_in(a: PlacedModule, b: PlacedModule) -> float:
    """Way from a module to another of its array along frames and rails, on the surface [in].

    Between like places of both, first along the eave, then up the slope: leads are fixed to what
    runs square (common practice, no source).
    """
    return abs(a.surface.x0 - b.surface.x0) + abs(a.surface.y0 - b.surface.y0)


def string_order(
    array: PlacedArray, counts: Sequence[int], box: Point | None = None
) -> tuple[Ordered, ...]:
    """The modules of each string or branch of an array, in the order in which they are wired.

    Args:
        array: The array.
        counts: Modules of each of its circuits; what is over in the array is left out.
        box: Where its junction box stands on its plane, (u, v); None where it is elsewhere [in].
    """
    ways = [_shared_out(way, counts) for way in _ways(array)]
    return min(ways, key=lambda way: _measure(way, box))


def _measure(circuits: tuple[Ordered, ...], box: Point | None) -> tuple[float, float]:
    """Longest step, then the whole way, rounded so that equal ways keep their order [in]."""
    steps = [step_in(a, b) for modules in circuits for a, b in pairwise(modules)]
    whole = sum(steps)
    if box is not None:
        whole += sum(_to_box(end, box) for modules in circuits for end in _ends(modules))
    return round(max(steps, default=0.0), 6), round(whole, 6)


def _ends(modules: Ordered) -> tuple[PlacedModule, ...]:
    return (modules[0], modules[-1]) if modules else ()


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


def _row(module: PlacedModule) -> int:
    return module.row


def _column(module: PlacedModule) -> int:
    return module.column
