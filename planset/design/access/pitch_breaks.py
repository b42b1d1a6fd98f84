"""Clear strips that run over pitch breaks, as on a gambrel roof: from the lowest eave to the ridge.

A pitch break is neither an eave nor a ridge. What is clear above it counts as far as it is clear
below, too; what ends at one below a ridge is no strip of its own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from planset.design.access.strips import ClearStrip
from planset.drawing.geometry import Box
from planset.roof.edges import LEVEL_IN, TOUCH_IN
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof

Strips = list[ClearStrip]

_NOISE = 1e-6


def strips_to_ridge(roof: Roof, plane: Plane, clear_on: Callable[[Plane], Strips]) -> Strips:
    """The strips of a plane from the lowest eave to the ridge; none where they end below it.

    Args:
        roof: The roof.
        plane: The plane.
        clear_on: The strips of one plane alone.
    """
    return [] if leads_to_ridge(roof, plane) else strips_from_eave(roof, plane, clear_on)


def strips_from_eave(roof: Roof, plane: Plane, clear_on: Callable[[Plane], Strips]) -> Strips:
    """The strips of a plane, each carried down over pitch breaks as far as it is clear there.

    Args:
        roof: The roof.
        plane: The plane.
        clear_on: The strips of one plane alone.
    """
    below = [
        (edge, strips_from_eave(roof, other, clear_on))
        for edge, other in _across_breaks(roof, plane)
        if _falls_from(edge, other)
    ]
    alone = clear_on(plane)
    if not below:
        return alone
    ends = [end for strip in alone for end in (strip.surface.x0, strip.surface.x1)]
    found = [
        replace(part, side=_side(part, min(ends), max(ends)))
        for strip in alone
        for part in _carried_down(roof, plane, strip, below)
    ]
    return sorted(found, key=lambda strip: (-strip.width_in, strip.surface.x0))


def leads_to_ridge(roof: Roof, plane: Plane) -> bool:
    """Whether a plane without a ridge goes on to one above the pitch break at its top."""
    if roof.edges_of(plane.id, EdgeKind.RIDGE):
        return False
    above = [
        other
        for edge, other in _across_breaks(roof, plane)
        if _lowest(plane) < edge.a[2] - LEVEL_IN and _lowest(other) > edge.a[2] - LEVEL_IN
    ]
    return any(
        roof.edges_of(other.id, EdgeKind.RIDGE) or leads_to_ridge(roof, other) for other in above
    )


def _across_breaks(roof: Roof, plane: Plane) -> list[tuple[Edge, Plane]]:
    return [
        (edge, roof.plane(name))
        for edge in roof.edges_of(plane.id, EdgeKind.PITCH_BREAK)
        for name in edge.planes
        if name != plane.id
    ]


def _falls_from(edge: Edge, plane: Plane) -> bool:
    """Whether a plane goes down from an edge of it, whatever it does elsewhere."""
    (ax, ay, _), (bx, by, _) = edge.a, edge.b
    side = 1.0 if edge.planes[0] == plane.id else -1.0
    return (plane.downslope[1] * (bx - ax) - plane.downslope[0] * (by - ay)) * side > 0


def _lowest(plane: Plane) -> float:
    return min(plane.height_at(corner) for corner in plane.outline)


def _carried_down(
    roof: Roof, plane: Plane, strip: ClearStrip, below: list[tuple[Edge, Strips]]
) -> Strips:
    """A strip in parts: those that go on down below a pitch break, and what stands beside it."""
    parts: Strips = []
    breaks: list[tuple[float, float]] = []
    for edge, unders in below:
        (here, foot), (end, _) = (plane.to_surface(point) for point in edge.plan)
        if abs(foot - strip.surface.y0) > TOUCH_IN:
            continue
        breaks.append((min(here, end), max(here, end)))
        for under in unders:
            there = roof.plane(under.plane).to_surface(edge.plan[0])[0]
            u0 = max(strip.surface.x0, under.surface.x0 + here - there)
            u1 = min(strip.surface.x1, under.surface.x1 + here - there)
            if u1 - u0 > _NOISE:
                lower = _cut(under, u0 + there - here, u1 + there - here)
                upper = _cut(strip, u0, u1)
                parts.append(replace(upper, unfinished=under.unfinished, below=lower))
    return [*parts, *_beside(strip, breaks)]


def _beside(strip: ClearStrip, breaks: list[tuple[float, float]]) -> Strips:
    """What of a strip does not stand on the breaks at its foot."""
    found: Strips = []
    reached = strip.surface.x0
    for u0, u1 in [*sorted(breaks), (strip.surface.x1, strip.surface.x1)]:
        if min(u0, strip.surface.x1) - reached > _NOISE:
            found.append(_cut(strip, reached, min(u0, strip.surface.x1)))
        reached = max(reached, u1)
    return found


def _cut(strip: ClearStrip, u0: float, u1: float) -> ClearStrip:
    """The part of a strip from u to u, with its way on down."""
    box, below = strip.surface, strip.below
    if below:
        shift = below.surface.x0 - box.x0
        below = _cut(below, u0 + shift, u1 + shift)
    return replace(strip, surface=Box(u0, box.y0, u1, box.y1), below=below)


def _side(strip: ClearStrip, left: float, right: float) -> str:
    if strip.surface.x0 <= left + _NOISE:
        return "left"
    return "right" if strip.surface.x1 >= right - _NOISE else "middle"
