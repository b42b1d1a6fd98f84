"""Packing and access areas that depend on each other, brought to rest.

Which areas the code requires may depend on how much of the roof the array covers, and how many
modules fit depends on the areas. So they are computed in turn until nothing changes.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar


class Counted(Protocol):
    """Anything that says how many modules it has: a packing, or those of several planes."""

    @property
    def count(self) -> int:
        """Number of modules."""


AreaT = TypeVar("AreaT", bound=Hashable)
PackedT = TypeVar("PackedT", bound=Counted)


@dataclass(frozen=True, slots=True)
class Settled(Generic[AreaT, PackedT]):
    """A packing that keeps out of every area it requires.

    Attributes:
        packing: The packing.
        areas: The areas it was packed outside of.
        required: The areas it requires, all of them among `areas`.
        rounds: How often modules were packed.
    """

    packing: PackedT
    areas: frozenset[AreaT]
    required: frozenset[AreaT]
    rounds: int

    @property
    def exact(self) -> bool:
        """Whether it keeps out of no more than it requires."""
        return self.areas == self.required


def pack_until_stable(
    areas_of: Callable[[PackedT], frozenset[AreaT]],
    pack_with: Callable[[frozenset[AreaT]], PackedT],
    start: frozenset[AreaT] = frozenset(),
    most_rounds: int = 8,
) -> Settled[AreaT, PackedT]:
    """Pack, see which areas the packing requires, and pack again until they agree.

    When the areas go in circles (few modules require little, with little required more modules
    fit, and these require more), the fullest packing met on the way that keeps out of all it
    requires is taken. When there was none, areas are only added, never given back, until one
    does.

    Args:
        areas_of: The areas a packing requires; equal areas compare equal.
        pack_with: The packing outside some areas.
        start: Areas to begin with.
        most_rounds: How often to pack before areas are only added, and again after.

    Raises:
        RuntimeError: Even so the areas did not come to rest: they follow the modules about.
    """
    tried: dict[frozenset[AreaT], Settled[AreaT, PackedT]] = {}
    areas = start
    while areas not in tried and len(tried) < most_rounds:
        tried[areas] = _round(areas_of, pack_with, areas, len(tried) + 1)
        areas = tried[areas].required
    if consistent := [settled for settled in tried.values() if _keeps_out(settled)]:
        return max(consistent, key=lambda settled: (settled.packing.count, -settled.rounds))
    areas = frozenset().union(*(settled.required for settled in tried.values()))
    for number in range(len(tried) + 1, len(tried) + 1 + most_rounds):
        settled = _round(areas_of, pack_with, areas, number)
        if _keeps_out(settled):
            return settled
        areas |= settled.required
    rounds = len(tried) + most_rounds
    msg = f"after {rounds} rounds the modules still require areas they do not keep out of"
    raise RuntimeError(msg)


def _round(
    areas_of: Callable[[PackedT], frozenset[AreaT]],
    pack_with: Callable[[frozenset[AreaT]], PackedT],
    areas: frozenset[AreaT],
    number: int,
) -> Settled[AreaT, PackedT]:
    packing = pack_with(areas)
    return Settled(packing, areas, areas_of(packing), number)


def _keeps_out(settled: Settled[AreaT, PackedT]) -> bool:
    return settled.required <= settled.areas
