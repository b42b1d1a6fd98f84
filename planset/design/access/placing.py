"""Areas of a given width on a roof plane: pathways within clear strips, setbacks along edges."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from planset.design.access.area import AccessArea, AreaKind
from planset.design.access.edge_band import band_of
from planset.design.access.pathways import Pathway
from planset.design.access.strips import ClearStrip
from planset.drawing.geometry import Box, Point
from planset.roof.plane import Plane
from planset.roof.solid import Edge, Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

Range = tuple[float, float]


def pathway_areas(
    roof: Roof, pathway: Pathway, required_in: float, feet: Iterable[Range] = (), count: int = 1
) -> list[AccessArea]:
    """A pathway of the required width within what is clear, on each plane it lies on.

    Args:
        roof: The roof.
        pathway: What is clear.
        required_in: Required width [in].
        feet: Ranges of u along the eave where no ladder may stand [in].
        count: How many pathways to lay side by side in a straight strip: at its outer side, then
            at the other.
    """
    if pathway.strip:
        starts = _starts(pathway.strip, required_in, tuple(feet), count)
        return [area for u0 in starts for area in _straight(roof, pathway.strip, u0, required_in)]
    made: list[AccessArea] = []
    left = required_in
    for side in sorted(pathway.sides, key=lambda side: side.width_in):
        share = min(side.width_in, left) if len(pathway.sides) > 1 else left
        left -= share
        if share > 0:
            edge = next(e for e in roof.edges_of(side.plane) if e.id == side.edge)
            made += band_areas(AreaKind.PATHWAY, roof.plane(side.plane), edge, share, side.width_in)
    return made


def placed(
    inputs: Inputs, roof: Roof, pathway: Pathway, required_in: float, count: int = 1
) -> list[AccessArea]:
    """A pathway as the plans show it, its foot beside windows and doors where there is room.

    The part that starts at the lowest eave comes last.

    Args:
        inputs: The job, which names openings below the eaves.
        roof: The roof.
        pathway: What is clear.
        required_in: Required width [in].
        count: How many pathways to lay side by side in a straight strip.
    """
    openings = inputs.job.building.openings_below_eaves or ()
    foot, strip = pathway.planes[-1], pathway.strip
    shift = strip.surface.x0 - strip.on(foot).x0 if strip else 0.0
    starts = [(o.along + shift, o.width) for o in openings if o.plane == foot]
    taken = [(start, start + width) for start, width in starts]
    areas = pathway_areas(roof, pathway, required_in, taken, count)
    return [area for area in areas if area.outline]


def _starts(
    strip: ClearStrip, required_in: float, feet: tuple[Range, ...], count: int
) -> list[float]:
    """Where pathways start along the eave, off the feet that openings below take."""
    box = strip.surface
    last = box.x1 - required_in
    outer, inner = (last, box.x0) if strip.side == "right" else (box.x0, last)
    wanted = [outer, inner][:count]
    low, high = box.x0, last
    if strip.apex_u is not None:
        low, high = max(low, strip.apex_u - required_in), min(high, strip.apex_u)
        wanted = [strip.apex_u - required_in / 2]
    tries = [u for u0, u1 in feet for u in (u0 - required_in, u1) if low <= u <= high]
    starts = []
    for u in wanted:
        start = min(max(u, low), high)
        free = [
            at
            for at in (start, *tries)
            if not any(u0 < at + required_in - 1e-6 and u1 > at + 1e-6 for u0, u1 in feet)
        ]
        starts.append(min(free, key=lambda at: abs(at - start), default=start))
    return starts


def _straight(roof: Roof, strip: ClearStrip, u0: float, required_in: float) -> Iterator[AccessArea]:
    """A pathway on every plane that its strip runs over, from the top down."""
    box, plane = strip.surface, roof.plane(strip.plane)
    area = Box(u0, box.y0, u0 + required_in, box.y1)
    middle = area.center[1] if strip.apex_u is None else box.y0
    across = ((area.x0, middle), (area.x1, middle))
    outline = clipped(plane, area)
    yield AccessArea(AreaKind.PATHWAY, plane.id, outline, across, required_in, strip.width_in)
    if strip.below:
        shift = strip.below.surface.x0 - box.x0
        yield from _straight(roof, strip.below, u0 + shift, required_in)


def clipped(plane: Plane, area: Box) -> tuple[Point, ...]:
    """The corners of the part of a box that lies on a plane, all of the box where it does."""
    whole = shapely.box(area.x0, area.y0, area.x1, area.y1)
    part = whole.intersection(plane.surface_polygon)
    if whole.area - part.area < 1e-3:
        return area.corners
    # Where the box only touches the plane, lines and points are parts of what they share too.
    pieces = [piece for piece in shapely.get_parts(part) if isinstance(piece, Polygon)]
    return ring(max(pieces, key=lambda piece: piece.area, default=Polygon()))


def ring(polygon: BaseGeometry) -> tuple[Point, ...]:
    """The corners of a polygon, counterclockwise, the first one not repeated; none of a line."""
    if polygon.is_empty or not isinstance(polygon, Polygon):
        return ()
    return tuple((x, y) for x, y in orient(polygon).exterior.coords[:-1])


def band_areas(
    kind: AreaKind, plane: Plane, edge: Edge, width_in: float, available_in: float
) -> list[AccessArea]:
    """The ground along an edge of a plane; nothing when there is none.

    Args:
        kind: What it is kept free for.
        plane: The plane.
        edge: The edge.
        width_in: Width square to the edge [in].
        available_in: What is clear there [in].
    """
    band = band_of(plane, edge)
    outline = ring(band.ground(width_in))
    if not outline:
        return []
    return [AccessArea(kind, plane.id, outline, band.across(width_in), width_in, available_in)]
