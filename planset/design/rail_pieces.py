"""The pieces each rail is made of, and where they are spliced."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from planset.design.holding import ModuleHolding
from planset.design.layout import PlacedArray
from planset.design.racking import Racking, Rail
from planset.design.splicing import Section, Window, fewest_splices, windows

_NOISE_IN = 1e-6
_HALF_FOOT_IN = 1.0
"""What a splice keeps free to either side of the middle of a foot (common practice, no source)."""


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
        span_in: The span it lies in; 0 in a free end [in].
        from_support_in: Distance to the nearer attachment beside it [in].
    """

    rail: str
    along_in: float
    span_in: float
    from_support_in: float


@dataclass(frozen=True, slots=True)
class RailPieces:
    """How the rails of one array are put together.

    Attributes:
        array: Id of the array.
        pieces: By rail, then along it.
        splices: Alike.
        unspliced: Rails longer than the stock for which no place is allowed, or longer than any
            may be; each stands among the pieces as one.
    """

    array: str
    pieces: tuple[RailPiece, ...]
    splices: tuple[SplicePlace, ...] = ()
    unspliced: tuple[str, ...] = ()


def rail_pieces(array: PlacedArray, racking: Racking, holding: ModuleHolding) -> RailPieces:
    """The pieces of an array's rails, as few as its system allows.

    A splice keeps clear of attachments, and of feet where no part is made for it. It keeps out of
    the bay in which the neighboring rail is spliced unless that would take another piece.

    Args:
        array: The array.
        racking: Its rails and attachments.
        holding: What holds its modules.
    """
    work = _Work(array, racking, holding)
    for rail in racking.rails:
        work.make(rail)
    return RailPieces(array.id, tuple(work.pieces), tuple(work.splices), tuple(work.unspliced))


@dataclass
class _Work:
    """The rails of one array, made one by one."""

    array: PlacedArray
    racking: Racking
    holding: ModuleHolding
    pieces: list[RailPiece] = field(default_factory=list)
    splices: list[SplicePlace] = field(default_factory=list)
    unspliced: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Sort what lies along each rail."""
        self._lines = {rail.id: rail.line_in for rail in self.racking.rails}
        self._supports = {
            rail: sorted(item.along_in for item in held)
            for rail, held in self.racking.by_rail.items()
        }
        foot = self.array.system.foot
        self._feet: dict[str, list[float]] = {}
        if foot and not foot.splice_piece:
            for holder in self.holding.holders:
                self._feet.setdefault(holder.rail, []).append(holder.v_in)

    def make(self, rail: Rail) -> None:
        """Add the pieces and splices of a rail."""
        stock, splice = self.array.system.rail.stock_length, self.array.system.rail.splice
        too_long = splice is not None and splice.is_too_long(rail.length_in)
        if rail.length_in <= stock + _NOISE_IN and not too_long:
            self.pieces.append(RailPiece(rail.id, rail.id, rail.start_in, rail.end_in))
            return
        found = self._splices(rail)
        if found is None:
            self.pieces.append(RailPiece(rail.id, rail.id, rail.start_in, rail.end_in))
            self.unspliced.append(rail.id)
            return
        self.pieces.extend(_pieces(rail, found))
        supports = self._supports[rail.id]
        self.splices.extend(_splice_place(rail.id, at, supports) for at in found)

    def _splices(self, rail: Rail) -> tuple[float, ...] | None:
        """Splices of a rail, out of its neighbor's bays where that takes no more of them."""
        system, supports = self.array.system, self._supports[rail.id]
        splice = system.rail.splice
        if splice is None or not supports or splice.is_too_long(rail.length_in):
            return None
        across, along = system.attachment.footprint
        feet = [(at, _HALF_FOOT_IN) for at in self._feet.get(rail.id, ())]
        allowed = windows(supports, splice, along if rail.up else across, feet)
        whole = Section(rail.start_in, rail.end_in, supports[0])

        def fewest(allowed: Sequence[Window]) -> tuple[float, ...] | None:
            return fewest_splices(
                whole, tuple(allowed), system.rail.stock_length, splice.length / 2
            )

        found = fewest(allowed)
        beside = self._beside(rail)
        if found is None or not beside:
            return found
        apart = fewest([one for one in allowed if not any(_in_span(one, at) for at in beside)])
        return apart if apart is not None and len(apart) == len(found) else found

    def _beside(self, rail: Rail) -> list[float]:
        """Splices of the rails on the next line before a rail."""
        before = [line for line in self._lines.values() if line < rail.line_in - _NOISE_IN]
        if not before:
            return []
        line = max(before)
        return [one.along_in for one in self.splices if self._lines[one.rail] == line]


def _in_span(window: Window, at: float) -> bool:
    return window.span[0] - _NOISE_IN <= at <= window.span[1] + _NOISE_IN


def _pieces(rail: Rail, splices: Sequence[float]) -> Iterator[RailPiece]:
    for number, (low, high) in enumerate(pairwise((rail.start_in, *splices, rail.end_in))):
        yield RailPiece(f"{rail.id}{_letters(number)}", rail.id, low, high)


def _letters(number: int) -> str:
    """a, b, ... z, aa, ab, ..."""
    more, last = divmod(number, 26)
    return (_letters(more - 1) if more else "") + chr(ord("a") + last)


def _splice_place(rail: str, at: float, supports: Sequence[float]) -> SplicePlace:
    a, b = next((a, b) for a, b in pairwise(supports) if a - _NOISE_IN <= at <= b + _NOISE_IN)
    return SplicePlace(rail, at, b - a, min(abs(at - a), abs(b - at)))
