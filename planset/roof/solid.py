"""The roof as a solid: planes, and the edges between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from planset.roof.plane import Plane, Point, Point3


class EdgeKind(StrEnum):
    """What an edge of a roof plane is, by its geometry."""

    EAVE = "eave"
    RAKE = "rake"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    PITCH_BREAK = "pitch break"
    HIGH_EDGE = "high edge"
    HEADWALL = "headwall"
    SIDEWALL = "sidewall"
    ROOF_EDGE = "roof edge"
    PARAPET = "parapet"


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of the roof.

    Attributes:
        id: Name unique on the roof, e.g. "front eave".
        kind: What it is.
        a: One end in plan, with its height [in].
        b: Other end [in].
        planes: Ids of the planes it bounds, one or two.
    """

    id: str
    kind: EdgeKind
    a: Point3
    b: Point3
    planes: tuple[str, ...]

    @property
    def plan(self) -> tuple[Point, Point]:
        """Both ends in plan [in]."""
        return (self.a[:2], self.b[:2])

    @property
    def length_in(self) -> float:
        """True length on the roof [in]."""
        return math.dist(self.a, self.b)


@dataclass(frozen=True, slots=True)
class Roof:
    """All planes and edges of the roofs of a job.

    Attributes:
        planes: Planes by order of the job, those of the house first.
        edges: Edges, each once.
    """

    planes: tuple[Plane, ...]
    edges: tuple[Edge, ...]

    def plane(self, plane_id: str) -> Plane:
        """The plane of that id.

        Raises:
            KeyError: The roof has no such plane.
        """
        for plane in self.planes:
            if plane.id == plane_id:
                return plane
        raise KeyError(plane_id)

    def planes_of(self, building: str) -> tuple[Plane, ...]:
        """The planes over one building; "" is the house."""
        return tuple(plane for plane in self.planes if plane.building == building)

    def over(self, building: str) -> Roof:
        """The roof of one building by itself; "" is the house."""
        names = {plane.id for plane in self.planes_of(building)}
        edges = tuple(edge for edge in self.edges if names.issuperset(edge.planes))
        return Roof(self.planes_of(building), edges)

    def edges_of(self, plane_id: str, kind: EdgeKind | None = None) -> tuple[Edge, ...]:
        """Edges that bound a plane, of one kind or of all."""
        return tuple(
            edge
            for edge in self.edges
            if plane_id in edge.planes and (kind is None or edge.kind == kind)
        )

    @property
    def plan_area_sqin(self) -> float:
        """Area of all planes in plan, overhangs included [sq in]."""
        return sum(plane.plan_area_sqin for plane in self.planes)

    def plan_area_of(self, building: str) -> float:
        """Area in plan of the roof over one building, overhangs included [sq in]."""
        return sum(plane.plan_area_sqin for plane in self.planes_of(building))
