"""The areas that the access rules for dwellings keep free, as they lie on the roof of a design.

Only pathways that serve are shown: where one is missing no area is made up, and the rules say so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.catalog.access import EffectiveAccess, effective_access
from planset.design.access.area import AccessArea, AreaKind
from planset.design.access.clearances import ROOF_EDGES
from planset.design.access.escape_zones import EscapeZone, escape_zones
from planset.design.access.geometry import AccessGeometry
from planset.design.access.pathways import Pathway
from planset.design.access.pathways_needed import counted_pathways, pathways_by_slope
from planset.design.access.placing import band_areas, clipped, placed, ring
from planset.design.access.scope import (
    Scope,
    access_scopes,
    binding_ridges,
    ridge_setback_in,
)
from planset.design.access.three_sides import relieved_arrays
from planset.design.layout import PlacedArray, PlacedObstruction, all_arrays
from planset.drawing.geometry import Box
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class _Work:
    inputs: Inputs
    roof: Roof
    arrays: tuple[PlacedArray, ...]
    obstructions: tuple[PlacedObstruction, ...]
    access: AccessGeometry
    rules: EffectiveAccess


def required_areas(
    inputs: Inputs,
    roof: Roof,
    arrays: tuple[PlacedArray, ...],
    obstructions: tuple[PlacedObstruction, ...],
    access: AccessGeometry,
) -> tuple[AccessArea, ...]:
    """Every area that is kept free: pathways, setbacks, what lies below escape openings.

    Args:
        inputs: The job and its jurisdiction.
        roof: The roof.
        arrays: The arrays.
        obstructions: The obstructions.
        access: What is measured.

    Raises:
        ValueError: The rules of the adopted edition are not entered.
    """
    rules = effective_access(inputs.jurisdiction)
    work = _Work(inputs, roof, arrays, obstructions, access, rules)
    made: list[AccessArea] = []
    for scope in access_scopes(inputs, roof, arrays, access, rules):
        if not scope.judged:
            continue
        made += _along_three_sides(work, scope) if rules.three_sides else _pathways(work, scope)
        made += _ridges(work, scope)
        made += _hips_and_valleys(work, scope)
        made += _escapes(work, scope)
        made += _roof_edges(work, scope)
    # An opening at the eave has no roof below it, so its pathway has no area.
    return tuple(area for area in made if area.outline)


def _pathways(work: _Work, scope: Scope) -> Iterator[AccessArea]:
    required = work.rules.code.pathway_width_in
    counted: list[tuple[Pathway, int]]
    if work.rules.code.pathways_on_building:
        every = all_arrays(work.arrays, work.obstructions)
        chosen = counted_pathways(
            work.inputs, work.roof, work.access, scope.planes, every, work.rules
        )
        counted = [(pathway, 1) for pathway in chosen]
    else:
        counted = pathways_by_slope(work.roof, work.access, scope.planes, work.arrays, work.rules)
    order = [plane.id for plane in work.roof.planes]
    counted.sort(key=lambda pair: order.index(pair[0].planes[0]))
    for pathway, count in counted:
        yield from placed(work.inputs, work.roof, pathway, required, count)


def _along_three_sides(work: _Work, scope: Scope) -> Iterator[AccessArea]:
    """What a local rule keeps clear beside every array that it does not relieve."""
    rule = work.rules.three_sides
    relieved = relieved_arrays(work.roof, work.arrays, work.access, work.rules)
    on = {a.plane.id for a in work.arrays if not relieved.get(a.id)}
    for plane in scope.planes:
        if rule is None or plane.id not in on:
            continue
        for edge in work.roof.edges_of(plane.id):
            needed = edge.kind is not EdgeKind.EAVE or plane.pitch <= rule.eave_slope
            if needed and edge.kind is not EdgeKind.RIDGE:
                yield from _band(work, AreaKind.EDGE_SETBACK, plane, edge, rule.width)


def _ridges(work: _Work, scope: Scope) -> Iterator[AccessArea]:
    """Both sides of every ridge below which an array lies."""
    done: set[tuple[str, str]] = set()
    names = {plane.id: plane for plane in scope.planes}
    undecided = work.rules.readings.shed_high_edge == "ask"
    added = {array.plane.id for array in work.arrays}
    for ridge in binding_ridges(work.access, work.rules):
        if ridge.plane not in names or (ridge.at == "high edge" and undecided):
            continue
        if work.rules.three_sides and ridge.plane not in added:
            continue
        edge = next(edge for edge in work.roof.edges if edge.id == ridge.edge)
        sides = edge.planes if ridge.at == "ridge" else (ridge.plane,)
        required = _ridge_in(work, names[ridge.plane])
        for name in sides:
            if (name, edge.id) not in done and name in names:
                done.add((name, edge.id))
                yield _below_ridge(work, edge, names[name], ridge.at, required)


def _ridge_in(work: _Work, plane: Plane) -> float:
    rule = work.rules.three_sides
    if rule is None:
        return ridge_setback_in(work.inputs, work.rules, work.access, plane)
    relieved = relieved_arrays(work.roof, work.arrays, work.access, work.rules)
    on = [array.id for array in work.arrays if array.plane.id == plane.id]
    return rule.ridge_setback if all(relieved.get(name) for name in on) else rule.width


def _below_ridge(work: _Work, edge: Edge, plane: Plane, at: str, required_in: float) -> AccessArea:
    ends = [plane.to_surface(point)[0] for point in edge.plan]
    top = plane.to_surface(edge.plan[0])[1]
    bounds = plane.surface_polygon.bounds
    clear = [r.clear_in for r in work.access.ridges if r.edge == edge.id and r.plane == plane.id]
    low = max(top - required_in, min(bounds[1], 0.0))
    if at == "point":
        area = Box(bounds[0], low, bounds[2], top)
        middle = (bounds[0] + bounds[2]) / 2
    else:
        area = Box(min(ends), low, max(ends), top)
        middle = area.center[0]
    across = ((middle, top), (middle, area.y0))
    outline = clipped(plane, area)
    available = min(clear, default=top)
    return AccessArea(AreaKind.RIDGE_SETBACK, plane.id, outline, across, required_in, available)


def _hips_and_valleys(work: _Work, scope: Scope) -> Iterator[AccessArea]:
    width = work.rules.code.hip_valley_setback_in
    names = {plane.id: plane for plane in scope.planes}
    if width <= 0:
        return
    done: set[tuple[str, str]] = set()
    added = {array.plane.id for array in work.arrays}
    for near in work.access.edges:
        is_meeting = near.kind in (EdgeKind.HIP, EdgeKind.VALLEY)
        if not is_meeting or not near.both_sides or near.plane not in names:
            continue
        edge = next(edge for edge in work.roof.edges if edge.id == near.edge)
        if (near.plane, near.edge) not in done and added.intersection(edge.planes):
            done.add((near.plane, near.edge))
            plane = names[near.plane]
            yield from _band(work, AreaKind.HIP_VALLEY_SETBACK, plane, edge, width)


def _escapes(work: _Work, scope: Scope) -> Iterator[AccessArea]:
    least = work.rules.code.escape_pathway_in
    names = {plane.id for plane in scope.planes}
    if least <= 0:
        return
    openings = work.inputs.job.building.escape_openings_onto_roof
    for zone in escape_zones(work.roof, openings, work.arrays, work.obstructions, least):
        if zone.plane.id in names and not zone.ground.is_empty and not zone.arrays:
            yield _escape(zone)


def _escape(zone: EscapeZone) -> AccessArea:
    x0, y0, x1, y1 = zone.ground.bounds
    middle = (y0 + y1) / 2
    clear = zone.width_in if zone.clear_in is None else zone.clear_in
    across = ((x0, middle), (x1, middle))
    outline = ring(zone.ground)
    return AccessArea(AreaKind.ESCAPE_PATHWAY, zone.plane.id, outline, across, zone.width_in, clear)


def _roof_edges(work: _Work, scope: Scope) -> Iterator[AccessArea]:
    width = work.rules.edge_setback_in
    if width <= 0:
        return
    on = {array.plane.id for array in work.arrays}
    for plane in scope.planes:
        for edge in work.roof.edges_of(plane.id):
            if plane.id in on and edge.kind in ROOF_EDGES:
                yield from _band(work, AreaKind.EDGE_SETBACK, plane, edge, width)


def _band(
    work: _Work, kind: AreaKind, plane: Plane, edge: Edge, width_in: float
) -> list[AccessArea]:
    clear = [
        near.clear_in
        for near in work.access.edges
        if near.edge == edge.id and near.plane == plane.id
    ]
    return band_areas(kind, plane, edge, width_in, min(clear, default=width_in))
