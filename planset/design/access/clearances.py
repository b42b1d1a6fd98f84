"""How far arrays stay from ridges, hips, valleys, roof edges and each other, on the surface."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

import shapely
from shapely import LineString

from planset.design.access.columns import top_of
from planset.design.layout import ArrayOnRoof
from planset.roof.edges import LEVEL_IN, TOUCH_IN
from planset.roof.plane import Plane
from planset.roof.solid import Edge, EdgeKind, Roof

_FAR = 1e5
_NOISE = 1e-6
_EQUAL_LENGTH_IN = 1.0  # slopes nearer in length than this are equal (a survey is no better)

ROOF_EDGES = (
    EdgeKind.EAVE,
    EdgeKind.RAKE,
    EdgeKind.HIGH_EDGE,
    EdgeKind.ROOF_EDGE,
    EdgeKind.PARAPET,
)
"""Edges where the roof ends, not where it meets another plane or a wall."""


@dataclass(frozen=True, slots=True)
class RidgeClearance:
    """How far an array stays below a horizontal ridge, on the surface.

    Attributes:
        array: Id of the array.
        plane: Id of its plane.
        edge: Id of the ridge.
        clear_in: From the ridge line to the nearest hardware [in].
        at: Whether the plane meets it along its length, in a point as the triangle of a hip roof
            does, or as the high edge of a single plane, across which no plane lies.
        highest: Whether no ridge of the building is higher.
        dormer: Whether it is the ridge of a dormer.
    """

    array: str
    plane: str
    edge: str
    clear_in: float
    at: Literal["ridge", "point", "high edge"] = "ridge"
    highest: bool = True
    dormer: bool = False


@dataclass(frozen=True, slots=True)
class EdgeClearance:
    """How far an array stays from an edge of its plane, on the surface.

    Attributes:
        array: Id of the array.
        plane: Id of its plane.
        edge: Id of the edge.
        kind: What the edge is.
        clear_in: From the edge to the nearest hardware [in].
        both_sides: Whether arrays lie on the plane across it, too.
        equal_length: Whether the slope across it is as long, from its lowest to its highest point.
    """

    array: str
    plane: str
    edge: str
    kind: EdgeKind
    clear_in: float
    both_sides: bool = False
    equal_length: bool = False


@dataclass(frozen=True, slots=True)
class ArrayGap:
    """What is clear between two arrays of one plane.

    Attributes:
        arrays: Their ids.
        plane: Id of the plane.
        clear_in: Between their nearest hardware [in].
    """

    arrays: tuple[str, str]
    plane: str
    clear_in: float


def ridge_clearances(
    roof: Roof, arrays: Iterable[ArrayOnRoof], dormer_planes: frozenset[str] = frozenset()
) -> Iterator[RidgeClearance]:
    """One entry per array and ridge above it, square to the ridge.

    Args:
        roof: The roof.
        arrays: The arrays.
        dormer_planes: Ids of the planes of dormers.
    """
    for array in arrays:
        plane = array.plane
        tops = [
            edge.a[2]
            for other in roof.planes_of(plane.building)
            for edge in roof.edges_of(other.id, EdgeKind.RIDGE)
        ]
        for edge, at in ridges_above(roof, plane):
            clear = _below(array, edge, at)
            if clear is not None:
                highest = edge.a[2] > max(tops, default=edge.a[2]) - LEVEL_IN
                dormer = plane.id in dormer_planes
                yield RidgeClearance(array.id, plane.id, edge.id, clear, at, highest, dormer)


def ridges_above(
    roof: Roof, plane: Plane
) -> Iterator[tuple[Edge, Literal["ridge", "point", "high edge"]]]:
    """The ridges a plane meets, and how; the high edge of a plane without one."""
    own = roof.edges_of(plane.id, EdgeKind.RIDGE)
    for edge in own:
        yield edge, "ridge"
    if own:
        return
    for edge in roof.edges_of(plane.id, EdgeKind.HIGH_EDGE):
        yield edge, "high edge"
    corner = plane.to_plan(top_of(plane))
    for edge in roof.edges:
        if edge.kind is EdgeKind.RIDGE and plane.id not in edge.planes:
            near = LineString(edge.plan).distance(shapely.Point(corner)) < 2 * TOUCH_IN
            if near and abs(edge.a[2] - plane.height_at(corner)) < LEVEL_IN:
                yield edge, "point"


def _below(array: ArrayOnRoof, edge: Edge, at: str) -> float | None:
    """From a level edge down to the hardware below it; None when none lies below."""
    ends = [array.plane.to_surface(point) for point in edge.plan]
    reach = array.occupied
    if at == "point":
        return float(min(v for _, v in _nearest_end(array.plane, ends)) - reach.bounds[3])
    us = [u for u, _ in ends]
    under = reach.intersection(shapely.box(min(us), -_FAR, max(us), _FAR))
    return None if under.area < TOUCH_IN else float(ends[0][1] - under.bounds[3])


def _nearest_end(plane: Plane, ends: list[tuple[float, float]]) -> list[tuple[float, float]]:
    top = shapely.Point(top_of(plane))
    return [min(ends, key=lambda end: shapely.Point(end).distance(top))]


def edge_clearances(roof: Roof, arrays: tuple[ArrayOnRoof, ...]) -> Iterator[EdgeClearance]:
    """One entry per array and edge of its plane, square to the edge."""
    carrying = {array.plane.id for array in arrays}
    for array in arrays:
        for edge in roof.edges_of(array.plane.id):
            line = LineString([array.plane.to_surface(point) for point in edge.plan])
            across = [roof.plane(name) for name in edge.planes if name != array.plane.id]
            yield EdgeClearance(
                array.id,
                array.plane.id,
                edge.id,
                edge.kind,
                float(array.occupied.distance(line)),
                any(plane.id in carrying for plane in across),
                all(abs(_rise(plane) - _rise(array.plane)) < _EQUAL_LENGTH_IN for plane in across),
            )


def _rise(plane: Plane) -> float:
    """Length of a slope from its lowest to its highest point, on the surface [in]."""
    ends = [v for _, v in plane.surface_outline]
    return max(ends) - min(ends)


def array_gaps(arrays: tuple[ArrayOnRoof, ...]) -> Iterator[ArrayGap]:
    """What is clear between every two arrays of one plane."""
    for one, other in combinations(arrays, 2):
        if one.plane.id == other.plane.id:
            clear = float(one.occupied.distance(other.occupied))
            yield ArrayGap((one.id, other.id), one.plane.id, clear)


def joined_arrays(
    arrays: Iterable[ArrayOnRoof], gaps: Iterable[ArrayGap], apart_in: float
) -> tuple[tuple[ArrayOnRoof, ...], ...]:
    """The arrays that count as one, because less lies between them than parts two arrays.

    Args:
        arrays: The arrays.
        gaps: What is clear between them.
        apart_in: From this distance on they are two [in].
    """
    group = {array.id: [array] for array in arrays}
    for gap in gaps:
        one, other = (group[name] for name in gap.arrays)
        if gap.clear_in < apart_in - _NOISE and one is not other:
            one += other
            group |= {array.id: one for array in other}
    return tuple(tuple(found) for found in {id(found): found for found in group.values()}.values())
