"""Where clips hold leads and array conductors: on module frames, and along the ways to boxes.

On frames they sit along the upper edge of every module, beside which its circuit runs, evenly also
from module to module; where a circuit goes to another row, up the left edge of what it passes; and
along the ways to boxes only where these lie inside of frames (common practice, no source). The job
states how many each module has at least, and how far apart they stand at most.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely

from planset.design.electrical.home_runs import HomeRun, home_runs
from planset.design.electrical.leads import hops
from planset.design.once import once
from planset.drawing.geometry import Point

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
    spacing = design.inputs.job.electrical.wire_clips.spacing
    steps: dict[str, str] = {hop.first: hop.second for hop in hops(design)}
    on_frames = [
        place for array in design.arrays for place in _on_frames(design, array, steps, spacing)
    ]
    ways = [
        ClipPlace(run.array.id, "", at)
        for run in home_runs(design)
        for part in _inside(run)
        for at in _along(part, spacing)
    ]
    return (*on_frames, *ways)


def _on_frames(
    design: Design, array: PlacedArray, steps: Mapping[str, str], spacing_in: float
) -> Iterator[ClipPlace]:
    """Clips on the frames of an array, module by module.

    Args:
        design: The design.
        array: The array.
        steps: By the id of a module that of the next one in its circuit.
        spacing_in: How far clips stand apart at most [in].
    """
    modules = {module.id: module for module in array.modules}
    columns: dict[int, list[PlacedModule]] = {}
    for module in array.modules:
        columns.setdefault(module.column, []).append(module)
    for module in array.modules:
        yield from _upper_edge(design, array, module)
        beyond = modules.get(steps.get(module.id, ""))
        if beyond and beyond.row != module.row:
            yield from _left_edges(module, beyond, columns[beyond.column], spacing_in)


def clip_count(design: Design) -> ClipCount:
    """How many there are of both."""
    places = wire_clips(design)
    at_modules = sum(1 for place in places if place.module)
    return ClipCount(at_modules, len(places) - at_modules)


def clips_per_module(design: Design, array: PlacedArray) -> int:
    """Clips on the upper edge of a module: the job's number, more where its spacing asks for it."""
    given = design.inputs.job.electrical.wire_clips
    return max(given.per_module, _spaced(pitch_in(array), given.spacing))


def clip_spacing_in(design: Design, array: PlacedArray) -> float:
    """From clip to clip along a row, evenly also from module to module [in]."""
    return pitch_in(array) / clips_per_module(design, array)


def pitch_in(array: PlacedArray) -> float:
    """From module to module along a row [in]."""
    return array.modules[0].surface.width + array.given.gap


def _upper_edge(design: Design, array: PlacedArray, module: PlacedModule) -> Iterator[ClipPlace]:
    apart = clip_spacing_in(design, array)
    first = (apart - array.given.gap) / 2
    for number in range(clips_per_module(design, array)):
        at = (module.surface.x0 + first + number * apart, module.surface.y1)
        yield ClipPlace(array.id, module.id, at)


def _left_edges(
    first: PlacedModule, second: PlacedModule, column: Sequence[PlacedModule], spacing_in: float
) -> Iterator[ClipPlace]:
    """Those of a step to another row, in the column of the module that it ends at.

    Evenly, half as far from its ends as from each other; none between two frames.
    """
    low, high = sorted((first.surface.y1, second.surface.y1))
    for v in _evenly(high - low, spacing_in):
        beside = min(column, key=lambda module: abs(_onto(module, low + v) - low - v))
        yield ClipPlace(beside.array, beside.id, (beside.surface.x0, _onto(beside, low + v)))


def _onto(module: PlacedModule, v: float) -> float:
    """The height on the upright edge of a module that is nearest to another."""
    return min(max(v, module.surface.y0), module.surface.y1)


def _inside(run: HomeRun) -> Iterator[Sequence[Point]]:
    """The parts of a way that lie inside of the frames of its array."""
    field = run.array.field.buffer(_NOISE)
    for part in shapely.get_parts(shapely.LineString(run.course).intersection(field)):
        if part.length > _NOISE:
            yield [(float(u), float(v)) for u, v in part.coords]


def _along(course: Sequence[Point], spacing_in: float) -> Iterator[Point]:
    """Evenly along a way, half as far from its ends as from each other."""
    way = shapely.LineString(course)
    for along in _evenly(way.length, spacing_in):
        at = way.interpolate(along)
        yield (at.x, at.y)


def _evenly(length_in: float, spacing_in: float) -> Iterator[float]:
    """Along a length, half as far from its ends as from each other."""
    count = _spaced(length_in, spacing_in)
    for number in range(count):
        yield (number + 0.5) * length_in / count


def _spaced(length_in: float, spacing_in: float) -> int:
    """Clips along a length, none farther than the spacing from the next."""
    return math.ceil(length_in / spacing_in - _NOISE)
