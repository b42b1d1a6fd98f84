"""Rafters, rails and attachments in the plane's own frame.

Rails run up the slope on rafter lines; attachments stand on them at the drafter's spacing, so
each stands on a rafter by construction. Other families join here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.geometry import Box
from planset.roof.plane import Plane, sides

if TYPE_CHECKING:
    from planset.job.arrays import ArrayMounting
    from planset.job.framing import Framing
    from planset.job.load import Inputs


_MOST = 2_000  # rafters of a plane, whatever the numbers


@dataclass(frozen=True, slots=True)
class Rafter:
    """One rafter under a plane.

    Attributes:
        plane: Id of the plane.
        number: Counted from the left rake, facing the plane from its eave.
        u_in: Centerline, distance from the left end of the eave [in].
        spans: The parts of that line on the plane, from the eave up [in].
    """

    plane: str
    number: int
    u_in: float
    spans: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Rail:
    """One rail up the slope.

    Attributes:
        id: Tag, e.g. "R1".
        array: Id of its array.
        rafter: Number of the rafter it lies over.
        u_in: Its line, distance from the left end of the eave [in].
        v0_in: Lower end, distance from the eave on the surface [in].
        v1_in: Upper end [in].
    """

    id: str
    array: str
    rafter: int
    u_in: float
    v0_in: float
    v1_in: float

    @property
    def length_in(self) -> float:
        """Length of the rail [in]."""
        return self.v1_in - self.v0_in


@dataclass(frozen=True, slots=True)
class Attachment:
    """One roof attachment.

    Attributes:
        id: Tag, unique in the job, e.g. "H12".
        array: Id of its array.
        rail: Id of its rail.
        rafter: Number of its rafter.
        u_in: Distance from the left end of the eave [in].
        v_in: Distance from the eave on the surface [in].
        tributary: The part of the array whose load it takes, on the surface (u, v) [in].
        continuity: Factor on the tributary load for the beam that the rail is, unitless.
    """

    id: str
    array: str
    rail: str
    rafter: int
    u_in: float
    v_in: float
    tributary: Box
    continuity: float

    @property
    def tributary_sqft(self) -> float:
        """Area whose load it takes [sq ft]."""
        return self.tributary.width * self.tributary.height / 144


@dataclass(frozen=True, slots=True)
class Racking:
    """Rails and attachments of one array.

    Attributes:
        array: Id of the array.
        rails: Rails from the left.
        attachments: By rail from the left, then from the eave up.
    """

    array: str
    rails: tuple[Rail, ...]
    attachments: tuple[Attachment, ...]

    @property
    def apart_across_in(self) -> tuple[float, ...]:
        """Distances between neighboring rails, across the slope [in]."""
        lines = sorted({rail.u_in for rail in self.rails})
        return tuple(b - a for a, b in pairwise(lines))


def rafters_under(plane: Plane, framing: Framing) -> tuple[Rafter, ...]:
    """Rafters of a plane at the surveyed spacing, from left to right; none where not surveyed."""
    first = framing.first_rafter_on(plane.id)
    if first is None:
        return ()
    left = min(u for u, _ in plane.surface_outline)
    right = max(u for u, _ in plane.surface_outline)
    leftmost = 0 if left > -1e-9 else max(math.ceil((left - first) / framing.spacing), -_MOST)
    count = math.floor((right - first) / framing.spacing + 1e-9) + 1
    rafters = (
        Rafter(plane.id, number + 1, first + number * framing.spacing)
        for number in range(leftmost, min(count, _MOST))
    )
    return tuple(replace(r, spans=_spans(plane, r.u_in)) for r in rafters)


def _spans(plane: Plane, u: float) -> tuple[tuple[float, float], ...]:
    """The parts of a line up the slope that lie on the plane, from the eave up."""
    crossings = []
    for ring in plane.rings:
        for start, end in sides(ring):
            (u0, v0), (u1, v1) = plane.to_surface(start), plane.to_surface(end)
            if min(u0, u1) <= u < max(u0, u1):
                crossings.append(v0 + (v1 - v0) * (u - u0) / (u1 - u0))
    crossings.sort()
    return tuple(zip(crossings[::2], crossings[1::2], strict=False))


def place_racking(inputs: Inputs, arrays: tuple[PlacedArray, ...]) -> tuple[Racking, ...]:
    """Rails and attachments of every array that has a mounting; tags run on."""
    racks: list[Racking] = []
    rails = attachments = 0
    framing = inputs.job.framing
    for placed in arrays:
        mounting = placed.given.mounting
        if mounting is None or framing is None:
            continue
        rafters = rafters_under(placed.plane, framing)
        rack = _rack(placed, mounting, rafters, rails, attachments)
        rails += len(rack.rails)
        attachments += len(rack.attachments)
        racks.append(rack)
    return tuple(racks)


def _rack(
    placed: PlacedArray,
    mounting: ArrayMounting,
    rafters: tuple[Rafter, ...],
    rails_before: int,
    attachments_before: int,
) -> Racking:
    half = placed.system.rail.width / 2  # a rail half beside the modules carries none
    counted = [rafter for rafter in rafters if rafter.number >= mounting.first_rail_rafter]
    lines = [
        rafter
        for rafter in counted[:: mounting.rail_every]
        if placed.frames.x0 + half <= rafter.u_in <= placed.frames.x1 - half
    ]
    runs = [(rafter, run) for rafter in lines for run in _runs(placed, rafter.u_in)]
    rails = tuple(
        Rail(
            f"R{rails_before + n}",
            placed.id,
            rafter.number,
            rafter.u_in,
            run[0] - placed.past_in,
            run[1] + placed.past_in,
        )
        for n, (rafter, run) in enumerate(runs, 1)
    )
    attachments: list[Attachment] = []
    for rail, (_, (low, high)) in zip(rails, runs, strict=True):
        start = rail.v0_in + mounting.first_attachment
        heights = attachment_heights(start, rail.v1_in, mounting.attachment_spacing)
        u0, u1 = _share_across(placed, rail, rails)
        rows, factors = _shares(heights, low, high), _continuity(heights, low, high)
        for v, (v0, v1), factor in zip(heights, rows, factors, strict=True):
            tag = f"H{attachments_before + len(attachments) + 1:02d}"
            share = Box(u0, v0, u1, v1)
            attachments.append(
                Attachment(tag, placed.id, rail.id, rail.rafter, rail.u_in, v, share, factor)
            )
    return Racking(placed.id, rails, tuple(attachments))


def _runs(placed: PlacedArray, u: float) -> list[tuple[float, float]]:
    """Where a line up the slope lies under modules of rows that follow each other."""
    cells = {(module.row, module.column) for module in placed.modules}
    inside = [m for m in placed.modules if m.surface.x0 <= u <= _right_end(placed, m, cells)]
    runs: list[tuple[float, float]] = []
    reached = 0
    for row in sorted({module.row for module in inside}):
        box = next(module.surface for module in inside if module.row == row)
        if runs and row == reached + 1:
            runs[-1] = (runs[-1][0], box.y1)
        else:
            runs.append((box.y0, box.y1))
        reached = row
    return runs


def _right_end(placed: PlacedArray, module: PlacedModule, cells: set[tuple[int, int]]) -> float:
    """Where a module ends, with the gap to its neighbor on the right when it has one [in]."""
    gap = placed.given.gap if (module.row, module.column + 1) in cells else 0.0
    return module.surface.x1 + gap


def _share_across(placed: PlacedArray, rail: Rail, rails: tuple[Rail, ...]) -> tuple[float, float]:
    """A rail's share along the eave: halfway to its neighbors, or to the end of its modules.

    Of the rows it crosses the widest share counts: with cells left out a neighbor may end sooner.
    """
    shares = []
    for low, high, x0, x1 in _blocks(placed):
        middle = (low + high) / 2
        if not (rail.v0_in < middle < rail.v1_in and x0 <= rail.u_in <= x1):
            continue
        beside = sorted(
            {
                other.u_in
                for other in rails
                if other.v0_in < middle < other.v1_in and x0 <= other.u_in <= x1
            }
        )
        shares.append(dict(zip(beside, _shares(beside, x0, x1), strict=True))[rail.u_in])
    return (min(u0 for u0, _ in shares), max(u1 for _, u1 in shares))


def _blocks(placed: PlacedArray) -> list[tuple[float, float, float, float]]:
    """Modules of a row that stand side by side: bottom and top, left and right."""
    blocks: list[tuple[float, float, float, float]] = []
    previous: PlacedModule | None = None
    for module in placed.modules:
        box = module.surface
        follows = previous is not None and (previous.row, previous.column + 1) == (
            module.row,
            module.column,
        )
        if follows:
            low, high, x0, _ = blocks[-1]
            blocks[-1] = (low, high, x0, box.x1)
        else:
            blocks.append((box.y0, box.y1, box.x0, box.x1))
        previous = module
    return blocks


def attachment_heights(first: float, end: float, spacing: float) -> list[float]:
    """Where attachments stand on a rail, from the first one to its upper end [in]."""
    count = max(math.floor((end - first) / spacing + 1e-9) + 1, 0)
    return [first + n * spacing for n in range(count)]


def _shares(lines: list[float], low: float, high: float) -> list[tuple[float, float]]:
    """Each line's share of the way from low to high: up to halfway to its neighbors.

    A line beyond the ends, as a rail runs past the modules, may be left with none.
    """
    middles = [min(max((a + b) / 2, low), high) for a, b in zip(lines, lines[1:], strict=False)]
    bounds = [low, *middles, high]
    return list(zip(bounds, bounds[1:], strict=False)) if lines else []


def _continuity(heights: list[float], low: float, high: float) -> list[float]:
    """How much more than its tributary load each support of a rail may take.

    Reactions of uniformly loaded continuous beams (any handbook table): 1.25 wL at the middle
    of two spans, at most 1.15 wL from three spans on; a simple span has none. One factor is
    taken for all supports, raised at an end where a long cantilever governs.

    Args:
        heights: The supports from the eave up [in].
        low: Where the load begins [in].
        high: Where it ends [in].
    """
    spans = len(heights) - 1
    if spans < 1:
        return [1.0] * len(heights)
    factor = {1: 1.0, 2: 1.25}.get(spans, 1.15)
    factors = [factor] * len(heights)
    factors[0] = max(factor, _end_factor(heights[0] - low, heights[1] - heights[0]))
    factors[-1] = max(factor, _end_factor(high - heights[-1], heights[-1] - heights[-2]))
    return factors


def _end_factor(cantilever: float, span: float) -> float:
    """End reaction w (L/2 + a) + w a^2 / (2 L) of a simple span, over the tributary w (L/2 + a)."""
    a = max(cantilever, 0.0)
    return 1.0 + a**2 / (span * (span + 2 * a))
