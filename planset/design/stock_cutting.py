"""Rail pieces cut from stock lengths, as few as can be.

A saw cut between two pieces takes the kerf, and so does the one before an offcut; what is left
need not be an offcut. So n pieces fit where they and n - 1 kerfs do: as boxes, each longer by a
kerf, in stock longer by a kerf. Few stock lengths are sought by packing; what proves them fewest is
a lower bound, else the linear program over cutting patterns and an exact search of those patterns
that could do better.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from planset.design.cutting.bound import martello_toth_bound
from planset.design.cutting.packing import Demand, Pattern, packed
from planset.design.rail_pieces import RailPiece

_PER_IN = 1_000_000
"""Lengths are compared in millionths of an inch, which arithmetic does not blur."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One stock length and what is cut from it.

    Attributes:
        pieces: Ids of the pieces, longest first.
        offcut_in: What is left, saw cuts taken off [in].
    """

    pieces: tuple[str, ...]
    offcut_in: float


@dataclass(frozen=True, slots=True)
class CutList:
    """How the pieces of one rail profile are cut over the whole job.

    Attributes:
        system: Model of the mounting system.
        stock_in: Stock length [in].
        kerf_in: What a saw cut takes [in].
        bars: Stock lengths used, those with the longest pieces first.
        least_bars: A count that no cut list can beat.
        uncut: Ids of pieces longer than the stock, which are in no bar.
    """

    system: str
    stock_in: float
    kerf_in: float
    bars: tuple[Bar, ...]
    least_bars: int
    uncut: tuple[str, ...] = ()

    @property
    def proven(self) -> bool:
        """Whether no cut list needs fewer stock lengths."""
        return len(self.bars) == self.least_bars


def cut_list(system: str, pieces: Sequence[RailPiece], stock_in: float, kerf_in: float) -> CutList:
    """The pieces of a profile cut from stock, of which the fewest are used that could be found.

    Args:
        system: Model of the mounting system.
        pieces: All pieces of the job from this stock; those longer than it are left out.
        stock_in: Stock length [in].
        kerf_in: What a saw cut takes [in].
    """
    size = {piece.id: round((piece.length_in + kerf_in) * _PER_IN) for piece in pieces}
    stock = round((stock_in + kerf_in) * _PER_IN)
    cut = [piece for piece in pieces if size[piece.id] <= stock]
    demand: Demand = Counter(size[piece.id] for piece in cut)
    patterns, least = fewest_patterns(demand, stock)
    waiting: dict[int, list[RailPiece]] = {}
    for piece in reversed(cut):
        waiting.setdefault(size[piece.id], []).append(piece)
    bars = []
    for pattern in patterns:
        taken = [waiting[length].pop() for length in pattern if waiting[length]]
        used = sum(piece.length_in + kerf_in for piece in taken)
        bars.append(Bar(tuple(piece.id for piece in taken), max(stock_in - used, 0.0)))
    uncut = tuple(piece.id for piece in pieces if size[piece.id] > stock)
    return CutList(system, stock_in, kerf_in, tuple(bars), least, uncut)


def fewest_patterns(demand: Demand, stock: int) -> tuple[list[Pattern], int]:
    """Cutting patterns that meet a demand, and a count that none can beat.

    Args:
        demand: How many are wanted of each length, kerf included.
        stock: Stock length, a kerf included, in the same unit.
    """
    if not demand:
        return [], 0
    patterns = packed(demand, stock)
    least = martello_toth_bound(demand, stock)
    if len(patterns) > least:
        from planset.design.cutting.search import improved  # noqa: PLC0415  # few need its solver

        patterns, least = improved(demand, stock, patterns, least)
    return sorted(patterns, reverse=True), least
