"""Every part on the rails of an array where it stands: what a plan draws and a table counts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from planset.design.holding import Holder
from planset.design.mounted import Mounted
from planset.design.once import once

SPLICE, SPLICE_SEAT = "splice", "splice seat"
FOOT, COMBINED, MID_CLAMP, END_CLAMP = "foot", "combined", "mid_clamp", "end_clamp"
COUPLING, TRIM, TRIM_JOINT, TRIM_LOCK = "coupling", "trim", "trim_joint", "trim_lock"
KINDS = (
    SPLICE,
    SPLICE_SEAT,
    FOOT,
    COMBINED,
    MID_CLAMP,
    END_CLAMP,
    COUPLING,
    TRIM,
    TRIM_JOINT,
    TRIM_LOCK,
)
"""All kinds in the order in which they are listed."""


@dataclass(frozen=True, slots=True)
class PartPlace:
    """One part where it stands.

    Attributes:
        kind: One of `KINDS`.
        part: Its name in the mounting system.
        rail: Id of its rail, "" for a part on none.
        u_in: Middle, from the left end of the eave [in].
        v_in: Middle, from the eave on the surface [in].
        length_in: Its length along the eave where that is its own, as of a trim piece, else 0 [in].
    """

    kind: str
    part: str
    rail: str
    u_in: float
    v_in: float
    length_in: float = 0.0


@once
def parts_of(mounted: Mounted) -> tuple[PartPlace, ...]:
    """All parts on the rails of an array, kind by kind."""
    found = [
        *_splices(mounted),
        *_splice_seats(mounted),
        *_holders(mounted),
        *_couplings(mounted),
        *_trim(mounted),
    ]
    return tuple(sorted(found, key=lambda place: KINDS.index(place.kind)))


def part_counts(mounted: Mounted) -> dict[tuple[str, str], int]:
    """How many of every part, by kind and name, in the order of `KINDS`."""
    return dict(Counter((place.kind, place.part) for place in parts_of(mounted)))


def _splices(mounted: Mounted) -> Iterator[PartPlace]:
    splice = mounted.array.system.rail.splice
    if splice is None:
        return
    rails = {rail.id: rail for rail in mounted.racking.rails}
    for place in mounted.rails.splices:
        u, v = rails[place.rail].at(place.along_in)
        yield PartPlace(SPLICE, splice.name, place.rail, u, v)


def _splice_seats(mounted: Mounted) -> Iterator[PartPlace]:
    """The part that every foot on a splice needs."""
    foot, splice = mounted.array.system.foot, mounted.array.system.rail.splice
    if foot is None or splice is None or foot.splice_piece is None:
        return
    rails = {rail.id: rail for rail in mounted.racking.rails}
    holders: dict[str, list[Holder]] = {}
    for one in mounted.holding.holders:
        holders.setdefault(one.rail, []).append(one)
    for place in mounted.rails.splices:
        u, v = rails[place.rail].at(place.along_in)
        for one in holders.get(place.rail, ()):
            apart = max(abs(one.u_in - u), abs(one.v_in - v))
            if apart < splice.length / 2:
                yield PartPlace(SPLICE_SEAT, foot.splice_piece, one.rail, one.u_in, one.v_in)


def _holders(mounted: Mounted) -> Iterator[PartPlace]:
    for one in mounted.holding.holders:
        yield PartPlace(one.kind, one.part, one.rail, one.u_in, one.v_in)


def _couplings(mounted: Mounted) -> Iterator[PartPlace]:
    coupling = mounted.array.system.coupling
    if coupling is None:
        return
    for one in mounted.holding.couplings:
        yield PartPlace(COUPLING, coupling.name, "", one.u_in, one.v_in)


def _trim(mounted: Mounted) -> Iterator[PartPlace]:
    """Pieces in front of the modules, joints at their ends, and a lock at every front foot."""
    trim = mounted.array.system.trim
    if trim is None:
        return
    for piece in mounted.holding.trim:
        level = piece.v_in - trim.depth / 2
        middle, length = (piece.u0_in + piece.u1_in) / 2, piece.u1_in - piece.u0_in
        yield PartPlace(TRIM, trim.name, "", middle, level, length)
        if piece.joined:
            yield PartPlace(TRIM_JOINT, trim.joint, "", piece.u1_in, level)
    if trim.lock and mounted.holding.trim:
        for one in mounted.holding.holders:
            if one.front:
                yield PartPlace(TRIM_LOCK, trim.lock, one.rail, one.u_in, one.v_in)
