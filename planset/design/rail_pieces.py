"""The pieces each rail is made of, and where they are spliced."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.layout import PlacedArray
from planset.design.racking import Racking


@dataclass(frozen=True, slots=True)
class RailPiece:
    """One piece of a rail.

    Attributes:
        id: Tag, the rail's with a letter where it has several, e.g. "R3a".
        rail: Id of its rail.
        start_in: Its lower or left end, measured along the rail [in].
        end_in: Its other end [in].
    """

    id: str
    rail: str
    start_in: float
    end_in: float

    @property
    def length_in(self) -> float:
        """Length it is cut to [in]."""
        return self.end_in - self.start_in


@dataclass(frozen=True, slots=True)
class SplicePlace:
    """Where two pieces of a rail meet.

    Attributes:
        rail: Id of the rail.
        along_in: Middle of the splice, measured along the rail [in].
        expansion: Whether the rail is parted there by an expansion gap.
        span_in: The span it lies in; 0 in a free end [in].
        from_support_in: Distance to the nearer attachment beside it [in].
    """

    rail: str
    along_in: float
    expansion: bool
    span_in: float
    from_support_in: float


@dataclass(frozen=True, slots=True)
class RailPieces:
    """How the rails of one array are put together.

    Attributes:
        array: Id of the array.
        pieces: By rail, then along it.
        splices: Alike.
        unspliced: Rails longer than the stock for which no splice place is allowed.
    """

    array: str
    pieces: tuple[RailPiece, ...]
    splices: tuple[SplicePlace, ...] = ()
    unspliced: tuple[str, ...] = ()


def rail_pieces(array: PlacedArray, racking: Racking) -> RailPieces:
    """The pieces of an array's rails."""
    pieces = tuple(RailPiece(r.id, r.id, r.start_in, r.end_in) for r in racking.rails)
    return RailPieces(array.id, pieces)
