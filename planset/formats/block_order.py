"""Blocks in an order in which each comes after those it inserts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from graphlib import TopologicalSorter

from planset.drawing.primitives import Block, Insert, Primitive


def inserted_names(primitives: Iterable[Primitive]) -> list[str]:
    """Names of the blocks the primitives insert directly, sorted, each once."""
    return sorted({part.block for part in primitives if isinstance(part, Insert)})


def dependency_order(blocks: Mapping[str, Block]) -> list[Block]:
    """All blocks, each after the blocks it inserts; the same order in every run.

    Raises:
        KeyError: A block inserts one that is not there.
        graphlib.CycleError: A block inserts itself, directly or through others.
    """
    sorter: TopologicalSorter[str] = TopologicalSorter()
    for name in sorted(blocks):
        sorter.add(name, *inserted_names(blocks[name].primitives))
    return [blocks[name] for name in sorter.static_order()]


def blocks_behind(primitives: Iterable[Primitive], blocks: Mapping[str, Block]) -> list[Block]:
    """The blocks the primitives insert, directly or through others, sorted by name.

    Raises:
        KeyError: A block is inserted that is not there.
    """
    waiting = inserted_names(primitives)
    found: dict[str, Block] = {}
    while waiting:
        name = waiting.pop()
        if name not in found:
            found[name] = blocks[name]
            waiting.extend(inserted_names(blocks[name].primitives))
    return [found[name] for name in sorted(found)]
