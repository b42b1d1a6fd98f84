"""What a plane must keep free before its array is placed, by the rules in force.

The packing of an array takes these areas as keep-outs. Where the pathway runs is a choice: each is
offered, so that the fitter can try them and keep the one that leaves the most room.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import shapely

from planset.catalog.access import EffectiveAccess, effective_access
from planset.design.access.clearances import ROOF_EDGES, ridges_above
from planset.design.access.edge_band import band_of
from planset.design.access.escape_zones import zone_ground
from planset.design.access.geometry import blocked_on
from planset.design.access.pathways import Pathway
from planset.design.access.pathways_needed import is_hipped
from planset.design.access.pitch_breaks import strips_from_eave
from planset.design.access.placing import pathway_areas, ring
from planset.design.access.strips import ClearStrip, clear_strips, edge_strips
from planset.design.layout import PlacedObstruction
from planset.drawing.geometry import Point
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs

Ring = tuple[Point, ...]

_MEETINGS = (EdgeKind.HIP, EdgeKind.VALLEY)


@dataclass(frozen=True, slots=True)
class PathwayChoice:
    """One way to lay the pathways that a plane needs.

    Attributes:
        name: Where they run: "left", "right", "along front-left hip", "left and right", or
            "elsewhere" when another plane is to serve this one.
        areas: What they take on the plane, (u, v) [in].
    """

    name: str
    areas: tuple[Ring, ...]


def keep_free(
    inputs: Inputs,
    roof: Roof,
    plane: Plane,
    *,
    ridge_in: float,
    carrying: frozenset[str],
    tolerance_in: float,
) -> tuple[Ring, ...]:
    """The areas of a plane that no array may take, whichever way the pathways run.

    A high edge or a dormer's ridge about which the official must be asked is kept free, so that
    nothing need be asked.

    Args:
        inputs: The job and its jurisdiction.
        roof: The roof.
        plane: The plane.
        ridge_in: Setback at its ridges, which follows from the area of all arrays [in].
        carrying: Ids of the planes that carry arrays or will.
        tolerance_in: Added to every width, so that the array is not called tight [in].

    Raises:
        ValueError: The rules of the adopted edition are not entered.
    """
    rules = effective_access(inputs.jurisdiction)
    if plane.pitch <= rules.code.exempt_slope:
        return ()
    widths = [
        (edge, width + tolerance_in)
        for edge, width in _edge_widths(roof, plane, rules, ridge_in, carrying)
        if width > 0
    ]
    areas = [ring(band_of(plane, edge).ground(width)) for edge, width in widths]
    areas += _below_points(roof, plane, rules, ridge_in, tolerance_in)
    areas += _below_openings(inputs, plane, rules, tolerance_in)
    return tuple(area for area in areas if area)


def _edge_widths(
    roof: Roof, plane: Plane, rules: EffectiveAccess, ridge_in: float, carrying: frozenset[str]
) -> list[tuple[Edge, float]]:
    """Every edge of the plane with a width to keep free along it."""
    found = [
        (edge, ridge_in)
        for edge, at in ridges_above(roof, plane)
        if at == "ridge" or (at == "high edge" and rules.readings.shed_high_edge != "edge")
    ]
    for edge in roof.edges_of(plane.id):
        if edge.kind in _MEETINGS and carrying.issuperset(edge.planes):
            found.append((edge, rules.code.hip_valley_setback_in))
        if edge.kind in ROOF_EDGES:
            found.append((edge, rules.edge_setback_in))
        three = rules.three_sides
        if three and (edge.kind is not EdgeKind.EAVE or plane.pitch <= three.eave_slope):
            found.append((edge, three.width))
    return found


def _below_points(
    roof: Roof, plane: Plane, rules: EffectiveAccess, ridge_in: float, tolerance_in: float
) -> list[Ring]:
    """The top of a plane that meets a ridge in one point, where the code asks for it."""
    if not rules.code.ridge_at_a_point:
        return []

    u0, v0, u1, v1 = plane.surface_polygon.bounds
    top = shapely.box(u0, max(v1 - ridge_in - tolerance_in, v0), u1, v1)
    meets = any(at == "point" for _, at in ridges_above(roof, plane))
    return [ring(plane.surface_polygon.intersection(top))] if meets else []


def _below_openings(
    inputs: Inputs, plane: Plane, rules: EffectiveAccess, tolerance_in: float
) -> list[Ring]:
    least = rules.code.escape_pathway_in
    if least <= 0:
        return []
    return [
        ring(zone_ground(plane, opening, max(opening.width, least) + 2 * tolerance_in))
        for opening in inputs.job.building.escape_openings_onto_roof
        if opening.plane == plane.id
    ]


def pathway_choices(
    inputs: Inputs,
    roof: Roof,
    plane: Plane,
    obstructions: tuple[PlacedObstruction, ...],
    *,
    rake_overhang_in: float,
    tolerance_in: float,
) -> tuple[PathwayChoice, ...]:
    """The ways to lay the pathways a plane needs, before its array is placed.

    Args:
        inputs: The job and its jurisdiction.
        roof: The roof.
        plane: The plane.
        obstructions: The obstructions of the job.
        rake_overhang_in: What of the rakes does not count, 0 where the jurisdiction counts it [in].
        tolerance_in: Added to every width, so that the pathway is not called tight [in].

    Raises:
        ValueError: The rules of the adopted edition are not entered.
    """
    rules = effective_access(inputs.jurisdiction)
    if plane.pitch <= rules.code.exempt_slope or rules.three_sides:
        return (PathwayChoice("none needed", ()),)
    width = rules.code.pathway_width_in + tolerance_in
    blocked = blocked_on(plane, (), obstructions)

    def clear_on(one: Plane) -> list[ClearStrip]:
        return clear_strips(roof, one, blocked_on(one, (), obstructions), rake_overhang_in)

    lanes: dict[str, Ring] = {}
    for strip in strips_from_eave(roof, plane, clear_on):
        if not strip.unfinished and strip.width_in >= width:
            lanes |= _lanes(roof, strip, width)
    for side in edge_strips(roof, plane, blocked):
        if not side.unfinished and side.width_in >= width:
            edge = next(e for e in roof.edges_of(plane.id) if e.id == side.edge)
            lanes[f"along {side.edge}"] = ring(band_of(plane, edge).ground(width))
    count = rules.code.pathways_per_plane(hip_roof=is_hipped(roof, plane))
    choices = [
        PathwayChoice(" and ".join(names), tuple(lanes[name] for name in names))
        for names in combinations(lanes, count)
    ]
    if rules.code.adjacent_plane_counts:
        choices.append(PathwayChoice("elsewhere", ()))
    return tuple(choices)


def _lanes(roof: Roof, strip: ClearStrip, width_in: float) -> dict[str, Ring]:
    """The pathways at both sides of a strip, by name; the only one where there is room for one."""
    pathway = Pathway((strip.plane,), strip.width_in, "", strip)
    areas = [a for a in pathway_areas(roof, pathway, width_in, count=2) if a.plane == strip.plane]
    names = ("right", "left") if strip.side == "right" else ("left", "right")
    if pathway.room_for(width_in) < 2:
        areas = areas[:1]
    at = "" if strip.side != "middle" else f" of the strip at {strip.surface.x0:.0f} in"
    return {f"{name}{at}": area.outline for name, area in zip(names, areas, strict=False)}
