"""Where clips hold leads and array conductors: on module frames, and along the ways to boxes.

On frames they sit along the lower edge of every module, evenly also from module to module, and up
its right edge where the next module of the circuit is far (common practice, no source). The job
states how many each module has at least, and how far apart they stand at most.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.electrical.home_runs import home_runs
from planset.design.electrical.leads import hops
from planset.design.once import once
from planset.drawing.geometry import Point, distance, toward

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.design.layout import PlacedArray, PlacedModule

LEAST_PER_MODULE = 2
"""Clips that hold the leads of a module (common practice, no source)."""

WIRE_CLIP = "Wire clip"
"""What a clip is called in a drawing."""

_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class ClipPlace:
    """One wire clip.

    Attributes:
        array: Id of the array.
        module: Id of the module on whose frame it sits; "" along the way to a box.
        at: Where, (u, v) [in].
    """

    array: str
    module: str
    at: Point


@dataclass(frozen=True, slots=True)
class ClipCount:
    """Clips of the whole job.

    Attributes:
        at_modules: On the frames of modules.
        at_home_runs: Along the array conductors from the ends of circuits to their junction box.
    """

    at_modules: int
    at_home_runs: int

    @property
    def total(self) -> int:
        """All of them."""
        return self.at_modules + self.at_home_runs


@once
def wire_clips(design: Design) -> tuple[ClipPlace, ...]:
    """Every clip: module by module, then way by way to the boxes."""
    steps = {hop.first: hop.distance_in for hop in hops(design)}
    spacing = design.inputs.job.electrical.wire_clips.spacing
    on_frames = [
        ClipPlace(array.id, module.id, at)
        for array in design.arrays
        for module in array.modules
        for at in (
            *_lower_edge(design, array, module),
            *_upright_edge(design, array, module, steps.get(module.id, 0.0)),
        )
    ]
    ways = [
        ClipPlace(run.array.id, "", at)
        for run in home_runs(design)
        for at in _along(run.course, spacing)
    ]
    return (*on_frames, *ways)


def clip_count(design: Design) -> ClipCount:
    """How many there are of both."""
    places = wire_clips(design)
    at_modules = sum(1 for place in places if place.module)
    return ClipCount(at_modules, len(places) - at_modules)


def clips_per_module(design: Design, array: PlacedArray) -> int:
    """Clips on the lower edge of a module: the job's number, more where its spacing asks for it."""
    given = design.inputs.job.electrical.wire_clips
    return max(given.per_module, _spaced(pitch_in(array), given.spacing))


def clip_spacing_in(design: Design, array: PlacedArray) -> float:
    """From clip to clip along a row, evenly also from module to module [in]."""
    return pitch_in(array) / clips_per_module(design, array)


def pitch_in(array: PlacedArray) -> float:
    """From module to module along a row [in]."""
    return array.modules[0].surface.width + array.given.gap


def _lower_edge(design: Design, array: PlacedArray, module: PlacedModule) -> Iterator[Point]:
    apart = clip_spacing_in(design, array)
    first = (apart - array.given.gap) / 2
    for number in range(clips_per_module(design, array)):
        yield (module.surface.x0 + first + number * apart, module.surface.y0)


def _upright_edge(
    design: Design, array: PlacedArray, module: PlacedModule, step_in: float
) -> Iterator[Point]:
    """Those that a long way to the next module of the circuit adds, up the module's right edge."""
    spacing = design.inputs.job.electrical.wire_clips.spacing
    more = _spaced(step_in, spacing) - clips_per_module(design, array)
    box = module.surface
    for number in range(max(more, 0)):
        yield (box.x1, box.y0 + (number + 0.5) * box.height / more)


def _along(course: Sequence[Point], spacing_in: float) -> Iterator[Point]:
    """Evenly along a way, half as far from its ends as from each other."""
    legs = [(a, b, distance(a, b)) for a, b in pairwise(course)]
    whole = sum(length for _, _, length in legs)
    count = _spaced(whole, spacing_in)
    for number in range(count):
        left = (number + 0.5) * whole / count
        for a, b, length in legs:
            if left <= length:
                yield toward(a, b, left)
                break
            left -= length


def _spaced(length_in: float, spacing_in: float) -> int:
    """Clips along a length, none farther than the spacing from the next."""
    return math.ceil(length_in / spacing_in - _NOISE)
