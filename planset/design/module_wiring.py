"""What keeps conductors off the roof under the modules, and where bonding lugs sit.

The conductors of a string follow the lower edge of each row of modules, clipped to the frames.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from planset.design.bonding import bonded_sections
from planset.design.layout import PlacedArray
from planset.design.mounted import Mounted

LEAST_CLIPS = 2
"""On every module (common practice, no source)."""

MOST_APART_IN = 24.0
"""From clip to clip (common practice, no source) [in]."""

WIRE_CLIP, BONDING_LUG = "Wire clip", "Bonding lug"
"""What a clip and a lug are called in a drawing."""

_NOISE_IN = 1e-6


@dataclass(frozen=True, slots=True)
class ClipPlace:
    """One wire clip on the lower edge of a module's frame.

    Attributes:
        module: Id of the module.
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
    """

    module: str
    u_in: float
    v_in: float


@dataclass(frozen=True, slots=True)
class LugPlace:
    """One lug for the grounding conductor.

    Attributes:
        rail: Id of the rail it sits on, "" where the section it serves lies on none.
        modules: How many modules it serves.
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
    """

    rail: str
    modules: int
    u_in: float
    v_in: float


def clips_per_module(array: PlacedArray) -> int:
    """Clips on a module: two, or as many as keep them near enough to each other along a row."""
    pitch = array.modules[0].surface.width + array.given.gap
    return max(LEAST_CLIPS, math.ceil((pitch - _NOISE_IN) / MOST_APART_IN))


def clip_spacing_in(array: PlacedArray) -> float:
    """From clip to clip along a row, evenly also from module to module [in]."""
    return (array.modules[0].surface.width + array.given.gap) / clips_per_module(array)


def wire_clips(array: PlacedArray) -> Iterator[ClipPlace]:
    """The clips of an array, module by module from the left."""
    apart = clip_spacing_in(array)
    first = (apart - array.given.gap) / 2
    for module in array.modules:
        for number in range(clips_per_module(array)):
            u = module.surface.x0 + first + number * apart
            yield ClipPlace(module.id, u, module.surface.y0)


def lug_places(one: Mounted) -> Iterator[LugPlace]:
    """The lugs of a mounted array, one to every bonded section."""
    rails = {rail.id: rail for rail in one.racking.rails}
    corners = {module.id: module.surface.corners[0] for module in one.array.modules}
    for section in bonded_sections(one):
        rail = rails.get(section.rail)
        u, v = rail.at(section.along_in) if rail else corners[section.modules[0]]
        yield LugPlace(section.rail, len(section.modules), u, v)
