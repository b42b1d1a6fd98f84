"""The outer walls of buildings in plan: the outlines of their roofs, set in by their overhangs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planset.drawing.geometry import Point
from planset.drawing.region import Region
from planset.roof.solid import Edge, EdgeKind, Roof

if TYPE_CHECKING:
    from planset.job.job import Job
    from planset.job.roof import Roof as JobRoof

_ON_OUTLINE_IN = 0.5  # an edge this near the outline of its building lies on it


def buildings(roof: Roof) -> tuple[str, ...]:
    """Ids of all buildings under the roofs, the house, "", first."""
    return tuple(dict.fromkeys(plane.building for plane in roof.planes))


def building_outline(roof: Roof, building: str) -> Region:
    """What the roofs of a building cover in plan [in]."""
    planes = roof.planes_of(building)
    return Region.joined((Region.of(plane.outline) for plane in planes), gap=_ON_OUTLINE_IN)


def outer_edges(roof: Roof, building: str) -> list[Edge]:
    """Edges on the outline of a building: below none of them does its roof go on."""
    outline = building_outline(roof, building)
    names = {plane.id for plane in roof.planes_of(building)}
    return [
        edge
        for edge in roof.edges
        if len(edge.planes) == 1
        and edge.planes[0] in names
        and outline.outline_passes(_middle(edge), _ON_OUTLINE_IN)
    ]


def within_walls(job: Job, roof: Roof, building: str) -> Region:
    """What the walls of a building enclose in plan, the overhangs being those stated [in]."""
    given = job.roof_over(building)
    edges = outer_edges(roof, building)
    strips = [(*edge.plan, overhang_in(given, edge)) for edge in edges]
    return building_outline(roof, building).less_strips(strips)


def overhang_in(given: JobRoof, edge: Edge) -> float:
    """How far a roof goes on past the wall below one of its edges, in plan [in]."""
    return given.rake_overhang if edge.kind is EdgeKind.RAKE else given.eave_overhang


def _middle(edge: Edge) -> Point:
    (x0, y0), (x1, y1) = edge.plan
    return ((x0 + x1) / 2, (y0 + y1) / 2)
