"""Rafters, rails and attachments in the plane's own frame.

Rails run up the slope on rafter lines; attachments stand on them at the drafter's spacing, so
each stands on a rafter by construction. Other families join here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.layout import PlacedArray
from planset.design.roof import Plane
from planset.drawing.geometry import Box

if TYPE_CHECKING:
    from planset.job.framing import Framing
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class Rafter:
    """One rafter under a plane.

    Attributes:
        plane: Id of the plane.
        number: Counted from the left rake, facing the plane from its eave.
        u_in: Centerline, distance from the left end of the eave [in].
    """

    plane: str
    number: int
    u_in: float


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


def rafters_under(plane: Plane, framing: Framing) -> tuple[Rafter, ...]:
    """Rafters of a plane at the surveyed spacing, from the left rake to the right."""
    length = max(u for u, _ in plane.surface_outline)
    count = math.floor((length - framing.first_rafter) / framing.spacing + 1e-9) + 1
    return tuple(
        Rafter(plane.id, number + 1, framing.first_rafter + number * framing.spacing)
        for number in range(max(count, 0))
    )


def place_racking(inputs: Inputs, arrays: tuple[PlacedArray, ...]) -> tuple[Racking, ...]:
    """Rails and attachments of every array; tags run on from array to array."""
    racks: list[Racking] = []
    rails = attachments = 0
    for placed in arrays:
        rafters = rafters_under(placed.plane, inputs.job.framing)
        rack = _rack(placed, rafters, rails, attachments)
        rails += len(rack.rails)
        attachments += len(rack.attachments)
        racks.append(rack)
    return tuple(racks)


def _rack(
    placed: PlacedArray,
    rafters: tuple[Rafter, ...],
    rails_before: int,
    attachments_before: int,
) -> Racking:
    mounting = placed.given.mounting
    half = placed.mounting.rail.width / 2  # a rail half beside the modules carries none
    lines = [
        rafter
        for rafter in rafters[mounting.first_rail_rafter - 1 :: mounting.rail_every]
        if placed.frames.x0 + half <= rafter.u_in <= placed.frames.x1 - half
    ]
    low, high = placed.hardware.y0, placed.hardware.y1
    rails = tuple(
        Rail(f"R{rails_before + n}", placed.id, rafter.number, rafter.u_in, low, high)
        for n, rafter in enumerate(lines, 1)
    )
    heights = _attachment_heights(
        low + mounting.first_attachment, high, mounting.attachment_spacing
    )
    columns = _shares([rail.u_in for rail in rails], placed.frames.x0, placed.frames.x1)
    rows = _shares(heights, placed.frames.y0, placed.frames.y1)
    factors = _continuity(heights, placed.frames.y0, placed.frames.y1)
    attachments: list[Attachment] = []
    for rail, (u0, u1) in zip(rails, columns, strict=True):
        for v, (v0, v1), factor in zip(heights, rows, factors, strict=True):
            tag = f"H{attachments_before + len(attachments) + 1:02d}"
            share = Box(u0, v0, u1, v1)
            attachments.append(
                Attachment(tag, placed.id, rail.id, rail.rafter, rail.u_in, v, share, factor)
            )
    return Racking(placed.id, rails, tuple(attachments))


def _attachment_heights(first: float, end: float, spacing: float) -> list[float]:
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
