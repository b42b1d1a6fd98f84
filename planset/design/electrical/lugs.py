"""Grounding lugs: where the equipment grounding conductor meets the rails of the arrays."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.bonding import BondedSection, bonded_sections
from planset.design.electrical.boxes import nearest_box_at
from planset.design.mounted import Mounted
from planset.design.once import once
from planset.drawing.geometry import Point

if TYPE_CHECKING:
    from planset.design.design import Design

GROUNDING_LUG = "Grounding lug"
"""What a lug is called in a drawing."""


@dataclass(frozen=True, slots=True)
class Lug:
    """A lug for the equipment grounding conductor.

    Attributes:
        array: Id of the array.
        rail: Tag of the rail it sits on, "" where the section it serves lies on none.
        along_in: Its place along that rail [in].
        at: Where it sits, (u, v) [in].
        modules: Tags of the modules it bonds.
    """

    array: str
    rail: str
    along_in: float
    at: Point
    modules: tuple[str, ...]


@once
def lugs(design: Design) -> tuple[Lug, ...]:
    """One for each bonded section, at the end of it that is nearest to the junction box."""
    made: list[Lug] = []
    for one in design.mounts:
        box = nearest_box_at(design, one.array) or one.array.frames.corners[0]
        made += [_lug(one, section, box) for section in bonded_sections(one)]
    return tuple(made)


def _lug(one: Mounted, section: BondedSection, box: Point) -> Lug:
    rails = {rail.id: rail for rail in one.racking.rails}
    places = [(tag, along, rails[tag].at(along)) for tag, along in section.ends]
    if not places:
        module = next(m for m in one.array.modules if m.id == section.modules[0])
        return Lug(one.id, "", 0.0, module.surface.corners[0], section.modules)
    tag, along, at = min(places, key=lambda p: (round(math.dist(p[2], box), 6), p[0]))
    return Lug(one.id, tag, along, at, section.modules)
