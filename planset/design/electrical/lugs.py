"""Grounding lugs: where the equipment grounding conductor meets the rails of the arrays."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.bonding import BondedSection, bonded_sections
from planset.design.electrical.boxes import nearest_box_at
from planset.design.holding import Holder
from planset.design.mounted import Mounted
from planset.design.once import once
from planset.design.racking import Rail
from planset.drawing.geometry import Point

if TYPE_CHECKING:
    from planset.design.design import Design

GROUNDING_LUG = "Grounding lug"
"""What a lug is called in a drawing."""

LUG_WIDTH_IN = 2.0
"""Along its rail, none being stated: a usual size (common practice, no source) [in]."""

_PART_LENGTH_IN = 5.0  # of a clamp or a foot along its rail, none being stated (the same) [in]
_NOISE_IN = 1e-9

Taken = tuple[float, float]
"""What sits on a rail: its middle along it, and how far from there a lug must be [in]."""


@dataclass(frozen=True, slots=True)
class Lug:
    """A lug for the equipment grounding conductor.

    Attributes:
        array: Id of the array.
        rail: Tag of the rail it sits on, "" where the section it serves lies on none.
        along_in: Its place along that rail [in].
        at: Where it sits, (u, v) [in].
        modules: Tags of the modules it bonds.
        clear: Whether a lug's width is left to what else sits on its rail.
    """

    array: str
    rail: str
    along_in: float
    at: Point
    modules: tuple[str, ...]
    clear: bool = True


@once
def lugs(design: Design) -> tuple[Lug, ...]:
    """One for each bonded section, near the end of it that is nearest to the junction box.

    A lug's width is left between it and what else sits on the rail, where the section has room.
    """
    made: list[Lug] = []
    for one in design.mounts:
        box = nearest_box_at(design, one.array) or one.array.frames.corners[0]
        made += [_lug(one, section, box) for section in bonded_sections(one)]
    return tuple(made)


def _lug(one: Mounted, section: BondedSection, box: Point) -> Lug:
    rails = {rail.id: rail for rail in one.racking.rails}
    stretches = list(zip(section.ends[::2], section.ends[1::2], strict=True))
    if not stretches:
        module = next(m for m in one.array.modules if m.id == section.modules[0])
        return Lug(one.id, "", 0.0, module.surface.corners[0], section.modules)
    places = [
        (round(math.dist(rails[tag].at(end), box), 6), tag, end, low, high)
        for (tag, low), (_, high) in stretches
        for end in (low, high)
    ]
    _, tag, end, low, high = min(places, key=lambda place: place[:2])
    taken = _taken(one, rails[tag])
    along = _clear(taken, min(low, high), max(low, high), end)
    clear = _room_in(taken, along) >= -_NOISE_IN
    return Lug(one.id, tag, along, rails[tag].at(along), section.modules, clear)


def _taken(one: Mounted, rail: Rail) -> list[Taken]:
    """What sits on a rail."""
    system, room = one.array.system, LUG_WIDTH_IN * 1.5
    across, along_slope = system.attachment.footprint
    attachment, part = (along_slope if rail.up else across) / 2, _PART_LENGTH_IN / 2
    splice = system.rail.splice.length / 2 if system.rail.splice else 0.0
    return [
        *((item.along_in, attachment + room) for item in one.racking.by_rail[rail.id]),
        *((item.v_in if rail.up else item.u_in, part + room) for item in _held(one, rail)),
        *((item.along_in, splice + room) for item in one.rails.splices if item.rail == rail.id),
    ]


def _held(one: Mounted, rail: Rail) -> list[Holder]:
    return [item for item in one.holding.holders if item.rail == rail.id]


def _clear(taken: Sequence[Taken], low: float, high: float, end: float) -> float:
    """The place nearest to an end that is clear of all, else the one with the most room [in]."""
    edges = (at + side * room for at, room in taken for side in (-1.0, 1.0))
    clear = [
        along
        for along in (end, *edges)
        if low <= along <= high and _room_in(taken, along) >= -_NOISE_IN
    ]
    if clear:
        return min(clear, key=lambda along: abs(along - end))
    between = ((a + room + b - other) / 2 for (a, room), (b, other) in pairwise(sorted(taken)))
    places = [low, high, *(along for along in between if low <= along <= high)]
    return max(places, key=lambda along: (round(_room_in(taken, along), 6), -abs(along - end)))


def _room_in(taken: Sequence[Taken], along: float) -> float:
    """From a lug at a place to the nearest of all else beyond its own width, negative within it."""
    return min((abs(along - at) - room for at, room in taken), default=0.0)
