"""The areas kept free on a plane of a building other than a dwelling, as the plans show them.

Each is as wide as is asked for, and a pathway too narrow as wide as it is. Areas of one plane do
not overlap, so that no hatch is drawn over another: what a perimeter takes is left out of a
pathway, and so on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from shapely import LineString, Polygon, get_parts
from shapely.geometry.base import BaseGeometry

from planset.catalog.access import Readings
from planset.codes.other_roof_access import OtherAccess
from planset.design.access.area import AccessArea, AreaKind
from planset.design.access.other.lanes import Axis, Interval, Lane, spans, walkway
from planset.design.access.other.paths import HatchAccess, StraightPath
from planset.design.access.other.perimeter import EdgeClearance, moved
from planset.drawing.geometry import Box, Point, offset_left

if TYPE_CHECKING:
    from planset.design.access.other.geometry import PlaneAccess

_NOISE = 1e-6
_LEAST_SQIN = 144.0  # a scrap smaller than a square foot is not drawn


def access_areas(rules: OtherAccess, read: Readings, access: PlaneAccess) -> tuple[AccessArea, ...]:
    """Perimeter, hatch clearances, and the pathways on one plane.

    Args:
        rules: The adopted edition's numbers.
        read: How the jurisdiction reads them.
        access: What is found on the plane.
    """
    left: BaseGeometry = access.inside
    made: list[AccessArea] = []
    for wanted in _wanted(rules, read, access):
        for piece in _pieces(wanted, left):
            corners = _counterclockwise(piece)
            across = _through(wanted.across, piece)
            made.append(replace(wanted, outline=corners, across=across))
            left = left.difference(piece)
    return tuple(made)


def _wanted(rules: OtherAccess, read: Readings, access: PlaneAccess) -> Iterator[AccessArea]:
    """Areas before they are cut where they meet, by rank."""
    plane = access.plane.id
    for edge in access.edges:
        yield _perimeter(edge, access.perimeter_in)
    if rules.hatch_clear_in:
        for hatch in access.hatches:
            yield _around_hatch(hatch, Box(*access.inside.bounds), rules.hatch_clear_in, plane)
    for relief in access.lanes:
        if relief.option is not None or relief.lane in access.unmet:
            box = _walkway(relief.lane, access.standing, relief.required_in)
            area = _pathway(box, relief.lane.axis, relief.required_in, relief.width_in, plane)
            yield replace(area, across=_between_modules(area.across, relief.lane, access.frames))
    if access.center_lines_asked_for(rules, read):
        within, width = Box(*access.inside.bounds), rules.centerline_pathway_in
        for line in access.center_lines:
            box = _middle_strip(within, line.axis, width)
            yield _pathway(box, line.axis, width, line.clear_in, plane)
    ways = [(hatch.path, rules.hatch_clear_in) for hatch in access.hatches]
    ways += [(path, rules.straight_pathway_in) for path in access.paths]
    ways += [(path, rules.skylight_pathway_in) for path in access.skylight_paths]
    for path, width in ways:
        if width and path.width_in >= width - _NOISE:
            yield _way(path, width, plane)


def _perimeter(edge: EdgeClearance, width_in: float) -> AccessArea:
    a, b = edge.line
    inward = offset_left(a, b, width_in)
    return AccessArea(
        AreaKind.PERIMETER,
        edge.plane,
        (a, b, moved(b, inward), moved(a, inward)),
        (edge.foot, moved(edge.foot, inward)),
        width_in,
        edge.clear_in,
    )


def _around_hatch(hatch: HatchAccess, within: Box, width_in: float, plane: str) -> AccessArea:
    at = hatch.path.item.surface
    u, v = at.center
    rooms = {
        within.x1 - at.x1: ((at.x1, v), (at.x1 + width_in, v)),
        at.x0 - within.x0: ((at.x0, v), (at.x0 - width_in, v)),
        within.y1 - at.y1: ((u, at.y1), (u, at.y1 + width_in)),
        at.y0 - within.y0: ((u, at.y0), (u, at.y0 - width_in)),
    }
    corners = at.grown(width_in).corners
    across = rooms[max(rooms)]
    return AccessArea(AreaKind.HATCH_CLEARANCE, plane, corners, across, width_in, hatch.clear_in)


def _pathway(
    box: Box, axis: Axis, required_in: float, available_in: float, plane: str
) -> AccessArea:
    u, v = box.center
    across = ((u, box.y0), (u, box.y1)) if axis == "along" else ((box.x0, v), (box.x1, v))
    kind = AreaKind.INTERIOR_PATHWAY
    return AccessArea(kind, plane, box.corners, across, required_in, available_in)


def _walkway(lane: Lane, standing: tuple[Box, ...], width_in: float) -> Box:
    """The required width at the near side of the widest straight way through a lane.

    Its width is so taken from the modules, or what else bounds the way, and not from thin air.
    """
    low, high = walkway(lane, standing)
    return _across(lane.box, lane.axis, low, min(low + width_in, high))


def _between_modules(
    across: tuple[Point, Point], lane: Lane, frames: tuple[Box, ...]
) -> tuple[Point, Point]:
    """A segment across a lane, moved to where modules stand on both of its sides."""
    box, up = lane.box, lane.axis == "up"
    crossing: Axis = "along" if up else "up"
    near = [f for f in frames if abs((f.x1 - box.x0) if up else (f.y1 - box.y0)) < _NOISE]
    far = [f for f in frames if abs((f.x0 - box.x1) if up else (f.y0 - box.y1)) < _NOISE]
    ends = (box.y0, box.y1) if up else (box.x0, box.x1)
    shared = [
        span
        for side in _common(ends, spans(near, crossing))
        for span in _common(side, spans(far, crossing))
    ]
    if not shared:
        return across
    low, high = max(shared, key=lambda span: span[1] - span[0])
    (u0, v0), (u1, v1), middle = *across, (low + high) / 2
    return ((u0, middle), (u1, middle)) if up else ((middle, v0), (middle, v1))


def _common(span: Interval, others: list[Interval]) -> list[Interval]:
    """What a span shares with others."""
    a, b = span
    return [(max(a, c), min(b, d)) for c, d in others if min(b, d) > max(a, c)]


def _middle_strip(within: Box, axis: Axis, width_in: float) -> Box:
    middle = within.center[1] if axis == "along" else within.center[0]
    return _across(within, axis, middle - width_in / 2, middle + width_in / 2)


def _across(box: Box, axis: Axis, low: float, high: float) -> Box:
    if axis == "along":
        return Box(box.x0, low, box.x1, high)
    return Box(low, box.y0, high, box.y1)


def _way(path: StraightPath, width_in: float, plane: str) -> AccessArea:
    """The required width of a way, as near to the middle of what it serves as is clear."""
    axis: Axis = "up" if path.toward in ("front", "back") else "along"
    strip, middle = path.strip, path.item.surface.center
    low, high = (strip.x0, strip.x1) if axis == "up" else (strip.y0, strip.y1)
    start = middle[0] if axis == "up" else middle[1]
    start = min(max(start - width_in / 2, low), high - width_in)
    box = _across(strip, axis, start, start + width_in)
    return _pathway(box, axis, width_in, path.width_in, plane)


def _pieces(wanted: AccessArea, left: BaseGeometry) -> list[Polygon]:
    """What of an area is left; of a pathway only parts of its whole width are worth drawing."""
    outline = Polygon(wanted.outline)
    if outline.area < _NOISE:
        return []
    parts = [part for part in get_parts(outline.intersection(left)) if part.area >= _LEAST_SQIN]
    if wanted.kind is AreaKind.INTERIOR_PATHWAY:
        (u0, v0), (u1, v1) = wanted.across
        parts = [
            part
            for part in parts
            if Box(*part.bounds).width >= abs(u1 - u0) - _NOISE
            and Box(*part.bounds).height >= abs(v1 - v0) - _NOISE
        ]
    return [part for part in parts if isinstance(part, Polygon)]


def _counterclockwise(piece: Polygon) -> tuple[Point, ...]:
    ring = piece.exterior if piece.exterior.is_ccw else piece.exterior.reverse()
    return tuple((float(u) + 0.0, float(v) + 0.0) for u, v in ring.coords[:-1])


def _through(across: tuple[Point, Point], piece: Polygon) -> tuple[Point, Point]:
    """A segment moved square to itself until it runs through a piece."""
    if piece.buffer(_NOISE).covers(LineString(across)):
        return across
    (a, b), inner = across, piece.representative_point()
    side = offset_left(a, b, 1.0)
    by = (inner.x - a[0]) * side[0] + (inner.y - a[1]) * side[1]
    shift = (side[0] * by, side[1] * by)
    return (moved(a, shift), moved(b, shift))
