"""How far down a diagram reaches, from left to right, so that its page can be used below it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import ceil, floor, inf

from planset.drawing.geometry import Box, box_around, united
from planset.drawing.primitives import Block, Circle, Insert, Line, Polyline, Primitive, Text
from planset.drawing.symbols import Symbol
from planset.drawing.text import SLACK, text_box

_SLOT = 0.25  # width that one level stands for [in]
_CLEAR = 0.2  # kept free around what is drawn [in]


def skyline(
    parts: Iterable[Primitive], symbols: Mapping[str, Symbol], blocks: Iterable[Block], width: float
) -> tuple[float, ...]:
    """Lowest level that is drawn on in each slot, infinite where nothing is drawn.

    Args:
        parts: What is drawn, from a lower left corner at (0, 0).
        symbols: Symbols by name.
        blocks: Further blocks of lines.
        width: Width of the diagram [in].
    """
    extents = {name: symbol.box for name, symbol in symbols.items()}
    for block in blocks:
        extents[block.name] = united(_extent(part, extents) for part in block.primitives)
    lowest = [inf] * max(1, ceil(width / _SLOT))
    for part in parts:
        box = _extent(part, extents).grown(_CLEAR)
        first, last = max(0, floor(box.x0 / _SLOT)), min(len(lowest), ceil(box.x1 / _SLOT))
        for slot in range(first, last):
            lowest[slot] = min(lowest[slot], box.y0)
    return tuple(lowest)


def _extent(part: Primitive, extents: Mapping[str, Box]) -> Box:
    match part:
        case Line():
            return box_around((part.a, part.b))
        case Polyline():
            return box_around(part.points)
        case Circle():
            x, y = part.center
            return Box(x, y, x, y).grown(part.radius)
        case Insert():
            return extents[part.block].moved(*part.at)
        case Text():
            return text_box(part.text, part.at, part.height, part.align, slack=SLACK)
        case _:
            msg = f"the diagram holds a {type(part).__name__}"
            raise TypeError(msg)


def lowest_within(levels: tuple[float, ...], x0: float, x1: float) -> float:
    """Lowest level that is drawn on between two places [in]."""
    return min(levels[floor(x0 / _SLOT) : ceil(x1 / _SLOT)], default=inf)


def drawn_on(levels: tuple[float, ...], top: float) -> Iterator[Box]:
    """Boxes from the skyline up to the top of the diagram [in]."""
    for slot, level in enumerate(levels):
        if level < top:
            yield Box(slot * _SLOT, level, (slot + 1) * _SLOT, top)
