"""The roofs of several buildings in one plan."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planset.roof.plane import Plane, Point, Point3
from planset.roof.solid import Edge, Roof


def joined(roofs: tuple[Roof, ...]) -> Roof:
    """Several roofs as one."""
    return Roof(
        tuple(plane for roof in roofs for plane in roof.planes),
        tuple(edge for roof in roofs for edge in roof.edges),
    )


def placed(roof: Roof, building: str, at: Point, turn_deg: float, raised_in: float) -> Roof:
    """A roof as the roof of another building, its ids led by that building's.

    Args:
        roof: The roof in a frame of its own.
        building: Id of the building.
        at: Where its origin lies in the plan of the house [in].
        turn_deg: How far it is turned, counterclockwise [deg].
        raised_in: Its eave line above that of the house [in].
    """
    angle = math.radians(turn_deg)
    stands = _Place(at, math.cos(angle), math.sin(angle), raised_in)
    planes = tuple(_plane(plane, building, stands) for plane in roof.planes)
    edges = tuple(_edge(edge, building, stands) for edge in roof.edges)
    return Roof(planes, edges)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a building stands in the plan of the house."""

    at: Point
    cos: float
    sin: float
    raised_in: float

    def turned(self, vector: Point) -> Point:
        x, y = vector
        return (x * self.cos - y * self.sin, x * self.sin + y * self.cos)

    def moved(self, point: Point) -> Point:
        x, y = self.turned(point)
        return (x + self.at[0], y + self.at[1])


def _named(building: str, name: str) -> str:
    return f"{building}-{name}"


def _plane(plane: Plane, building: str, stands: _Place) -> Plane:
    return replace(
        plane,
        id=_named(building, plane.id),
        outline=tuple(stands.moved(corner) for corner in plane.outline),
        holes=tuple(tuple(stands.moved(corner) for corner in hole) for hole in plane.holes),
        downslope=stands.turned(plane.downslope),
        origin=stands.moved(plane.origin),
        eave_height_in=plane.eave_height_in + stands.raised_in,
        building=building,
    )


def _edge(edge: Edge, building: str, stands: _Place) -> Edge:
    def moved(end: Point3) -> Point3:
        x, y = stands.moved(end[:2])
        return (x, y, end[2] + stands.raised_in)

    return replace(
        edge,
        id=_named(building, edge.id),
        a=moved(edge.a),
        b=moved(edge.b),
        planes=tuple(_named(building, name) for name in edge.planes),
    )
