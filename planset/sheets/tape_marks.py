"""What is marked off along the eave and up the slope, from which datum, and for which rails."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from string import ascii_uppercase

from planset.design.mounted import Mounted
from planset.roof.plane import Plane, sides

_AT_EAVE_IN = 0.5  # a corner this near the eave line lies on it
_ONE_MARK_IN = 1 / 32  # marks no farther apart are one
_MOST_TAPES = 3  # along one eave; more would be read worse than one with a table


@dataclass(frozen=True, slots=True)
class Eave:
    """A stretch of eave that no wing interrupts: a tape lies on it from end to end.

    Attributes:
        left_in: Left end, u [in].
        right_in: Right end, u [in].
    """

    left_in: float
    right_in: float


@dataclass(frozen=True, slots=True)
class Tape:
    """One tape along an eave.

    Attributes:
        name: A letter where the plane has several, else "".
        eave: What it lies on; its left end is the datum.
        rails: Tags of the rails it is for.
        marks: What is marked off, u in order [in].
        whole: Whether each of its rails takes every mark that lies under it; if not, a table
            tells which marks are whose.
    """

    name: str
    eave: Eave
    rails: tuple[str, ...]
    marks: tuple[float, ...]
    whole: bool = True


def marks(values: Iterable[float]) -> tuple[float, ...]:
    """Distances in order, those that are one only once [in]."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > _ONE_MARK_IN:
            kept.append(value)
    return tuple(kept)


def heights_of(mounted: Mounted) -> tuple[float, ...]:
    """The distinct distances of an array's attachments from the eave [in]."""
    return marks(attachment.v_in for attachment in mounted.racking.attachments)


def eave_of(mounted: Mounted) -> Eave:
    """The stretch of eave below an array; the whole eave where an attachment lies beyond it."""
    plane = mounted.array.plane
    placed = [one.u_in for one in mounted.racking.attachments]
    for eave in eaves(plane):
        if placed and eave.left_in <= min(placed) and max(placed) <= eave.right_in:
            return eave
    return whole_eave(plane)


def eaves(plane: Plane) -> tuple[Eave, ...]:
    """The stretches of a plane's eave, from the left; a wing or a valley's foot parts two."""
    found: list[Eave] = []
    for (u0, v0), (u1, v1) in sides(plane.surface_outline):
        if max(v0, v1) < _AT_EAVE_IN:
            found.append(Eave(min(u0, u1), max(u0, u1)))
    joined: list[Eave] = []
    for eave in sorted(found, key=lambda one: one.left_in):
        if joined and eave.left_in - joined[-1].right_in < _AT_EAVE_IN:
            joined[-1] = replace(joined[-1], right_in=eave.right_in)
        else:
            joined.append(eave)
    return tuple(joined) or (whole_eave(plane),)


def whole_eave(plane: Plane) -> Eave:
    """From the leftmost to the rightmost point on the eave line."""
    at_eave = [u for u, v in plane.surface_outline if v < _AT_EAVE_IN]
    return Eave(min(at_eave), max(at_eave))


@dataclass(frozen=True, slots=True)
class _Row:
    """Rails that share their marks: all of an array's up the slope, or a single one across it."""

    eave: Eave
    rails: tuple[str, ...]
    marks: tuple[float, ...]
    low: float
    high: float
    up: bool


def tapes_along(mounted: Sequence[Mounted]) -> tuple[Tape, ...]:
    """The tapes along the eave of a plane: as few as tell every rail's marks, by eave.

    Rails across the slope share a tape as long as each takes every mark of it that lies under
    it; staggered ones so have two.

    Args:
        mounted: The arrays of the plane.
    """
    grouped: dict[tuple[Eave, bool], list[list[_Row]]] = {}
    for row in (row for one in mounted for row in _rows(one)):
        groups = grouped.setdefault((row.eave, row.up), [])
        home = next((group for group in groups if _agree(group, row)), None)
        if home is None:
            groups.append([row])
        else:
            home.append(row)
    listed = [
        (group, whole)
        for groups in grouped.values()
        for group, whole in (
            [(group, True) for group in groups]
            if len(groups) <= _MOST_TAPES
            else [([row for group in groups for row in group], False)]
        )
    ]
    return tuple(
        Tape(
            ascii_uppercase[n % len(ascii_uppercase)] if len(listed) > 1 else "",
            group[0].eave,
            tuple(rail for row in group for rail in row.rails),
            marks(u for row in group for u in row.marks),
            whole,
        )
        for n, (group, whole) in enumerate(listed)
    )


def _rows(mounted: Mounted) -> Iterator[_Row]:
    eave, racking = eave_of(mounted), mounted.racking
    held = {rail: [one.u_in for one in row] for rail, row in racking.by_rail.items()}
    up = tuple(rail.id for rail in racking.rails if rail.up and held[rail.id])
    if up:
        placed = marks(u for rail in up for u in held[rail])
        yield _Row(eave, up, placed, placed[0], placed[-1], up=True)
    for rail in racking.rails:
        if not rail.up and held[rail.id]:
            yield _Row(eave, (rail.id,), marks(held[rail.id]), rail.start_in, rail.end_in, up=False)


def _agree(group: Sequence[_Row], row: _Row) -> bool:
    """Whether every rail of both takes all marks under it, when they share a tape."""
    if row.up:  # a rail up the slope is seen to stand on its mark
        return True
    together = marks(u for one in (*group, row) for u in one.marks)
    return all(
        len(one.marks) == sum(one.low <= u <= one.high for u in together) for one in (*group, row)
    )
