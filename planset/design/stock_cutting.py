"""Rail pieces cut from stock lengths, as few as can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planset.design.rail_pieces import RailPiece


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
        bars: Stock lengths used.
        least_bars: A count that no cut list can beat.
    """

    system: str
    stock_in: float
    kerf_in: float
    bars: tuple[Bar, ...]
    least_bars: int

    @property
    def proven(self) -> bool:
        """Whether no cut list needs fewer stock lengths."""
        return len(self.bars) == self.least_bars


def cut_list(system: str, pieces: Sequence[RailPiece], stock_in: float, kerf_in: float) -> CutList:
    """The pieces of a profile cut from stock."""
    bars = tuple(Bar((piece.id,), stock_in - piece.length_in) for piece in pieces)
    return CutList(system, stock_in, kerf_in, bars, len(bars))
