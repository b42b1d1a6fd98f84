"""The roof as a solid: planes with frames of their own, edges classified from geometry.

Plan frame: inches, x to the right along the front eave, y away from the front, z up from the
front eave line. Plane frame: u along the eave from the left rake (facing the plane from its
eave), v up the slope on the surface, both in inches.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from planset.drawing.geometry import Point

Point3 = tuple[float, float, float]

_TOUCH_IN = 1e-6  # two corners closer than this are one corner


class EdgeKind(StrEnum):
    """What an edge of a roof plane is, by its geometry."""

    EAVE = "eave"
    RAKE = "rake"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    HIGH_EDGE = "high edge"


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
class Plane:
    """One roof plane.

    Attributes:
        id: Name, e.g. "front".
        outline: Corners in plan, counterclockwise [in].
        pitch: Rise per run, unitless.
        downslope: Unit vector in plan that water follows.
        origin: Plan position of u = 0, v = 0: the left end of the eave line [in].
        eave_height_in: Height of the eave line above the front eave line [in].
        azimuth_deg: Compass bearing the plane faces, from true north [deg].
    """

    id: str
    outline: tuple[Point, ...]
    pitch: float
    downslope: Point
    origin: Point
    eave_height_in: float
    azimuth_deg: float

    @property
    def slope_factor(self) -> float:
        """Length up the slope over its length in plan, unitless."""
        return math.hypot(1.0, self.pitch)

    @property
    def slope_deg(self) -> float:
        """Angle from the horizontal, without noise that could cross a limit of a figure [deg]."""
        return round(math.degrees(math.atan(self.pitch)), 9)

    @property
    def along(self) -> Point:
        """Unit vector in plan of u: to the right when facing the plane from its eave."""
        return (-self.downslope[1], self.downslope[0])

    def to_surface(self, point: Point) -> Point:
        """A plan point as (u, v) on the plane [in]."""
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        u = dx * self.along[0] + dy * self.along[1]
        run = -(dx * self.downslope[0] + dy * self.downslope[1])
        return (u, run * self.slope_factor)

    def to_plan(self, surface: Point) -> Point:
        """A point (u, v) on the plane, in plan [in]."""
        u, v = surface
        run = v / self.slope_factor
        return (
            self.origin[0] + u * self.along[0] - run * self.downslope[0],
            self.origin[1] + u * self.along[1] - run * self.downslope[1],
        )

    def lift(self, point: Point) -> Point3:
        """A plan point with its height on the plane [in]."""
        run = self.to_surface(point)[1] / self.slope_factor
        return (point[0], point[1], self.eave_height_in + run * self.pitch)

    @property
    def surface_outline(self) -> tuple[Point, ...]:
        """Corners as (u, v) [in]."""
        return tuple(self.to_surface(corner) for corner in self.outline)

    @property
    def plan_area_sqin(self) -> float:
        """Area in plan [sq in]."""
        return polygon_area(self.outline)


@dataclass(frozen=True, slots=True)
class Roof:
    """All planes and edges of one building's roof.

    Attributes:
        planes: Planes by order of the job.
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


def polygon_area(points: Iterable[Point]) -> float:
    """Area of a polygon in the plane, unsigned [square of the unit of the points]."""
    listed = list(points)
    shifted = listed[1:] + listed[:1]
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(listed, shifted, strict=True))
    return abs(twice) / 2


def gable_roof(
    ridge_length_in: float, depth_in: float, pitch: float, front_azimuth_deg: float
) -> Roof:
    """A gable roof with its ridge parallel to the front eave.

    Args:
        ridge_length_in: Rake to rake in plan, overhangs included [in].
        depth_in: Eave to eave in plan, overhangs included [in].
        pitch: Rise per run, unitless.
        front_azimuth_deg: Compass bearing the front plane faces [deg].
    """
    length, half = ridge_length_in, depth_in / 2
    front = Plane(
        id="front",
        outline=((0.0, 0.0), (length, 0.0), (length, half), (0.0, half)),
        pitch=pitch,
        downslope=(0.0, -1.0),
        origin=(0.0, 0.0),
        eave_height_in=0.0,
        azimuth_deg=front_azimuth_deg % 360,
    )
    back = Plane(
        id="back",
        outline=((length, depth_in), (0.0, depth_in), (0.0, half), (length, half)),
        pitch=pitch,
        downslope=(0.0, 1.0),
        origin=(length, depth_in),
        eave_height_in=0.0,
        azimuth_deg=(front_azimuth_deg + 180) % 360,
    )
    return roof_of((front, back))


def roof_of(planes: tuple[Plane, ...]) -> Roof:
    """The roof of these planes, its edges found and classified from their geometry."""
    edges: list[Edge] = []
    for number, plane in enumerate(planes):
        for start, end in _sides(plane):
            neighbor = _plane_across(planes, number, start, end)
            if neighbor is not None and planes.index(neighbor) < number:
                continue  # named already from the other side
            edges.append(_edge(plane, neighbor, start, end))
    return Roof(planes, tuple(_with_unique_ids(planes, edges)))


def _sides(plane: Plane) -> Iterable[tuple[Point, Point]]:
    corners = plane.outline
    return zip(corners, corners[1:] + corners[:1], strict=True)


def _plane_across(planes: tuple[Plane, ...], number: int, start: Point, end: Point) -> Plane | None:
    """The plane that shares the whole side, heights included."""
    here = planes[number]
    for other in planes:
        if other is here:
            continue
        for a, b in _sides(other):
            ends = ((other.lift(a), here.lift(end)), (other.lift(b), here.lift(start)))
            if all(math.dist(one, two) < _TOUCH_IN for one, two in ends):
                return other
    return None


def _edge(plane: Plane, neighbor: Plane | None, start: Point, end: Point) -> Edge:
    a, b = plane.lift(start), plane.lift(end)
    level = abs(a[2] - b[2]) < _TOUCH_IN
    if neighbor is None:
        kind = _open_edge_kind(plane, start, end, level=level)
        return Edge(f"{plane.id} {kind}", kind, a, b, (plane.id,))
    convex = _folds_down(plane, neighbor)
    sloped = EdgeKind.HIP if convex else EdgeKind.VALLEY
    kind = EdgeKind.RIDGE if level and convex else sloped
    return Edge(f"{plane.id}-{neighbor.id} {kind}", kind, a, b, (plane.id, neighbor.id))


def _open_edge_kind(plane: Plane, start: Point, end: Point, *, level: bool) -> EdgeKind:
    if not level:
        return EdgeKind.RAKE
    lowest = min(v for _, v in plane.surface_outline)
    at_bottom = plane.to_surface(start)[1] <= lowest + _TOUCH_IN
    at_bottom = at_bottom and plane.to_surface(end)[1] <= lowest + _TOUCH_IN
    return EdgeKind.EAVE if at_bottom else EdgeKind.HIGH_EDGE


def _folds_down(plane: Plane, neighbor: Plane) -> bool:
    """Whether the roof is convex along the shared edge: the neighbor's middle lies below."""
    middle = _centroid(neighbor.outline)
    return neighbor.lift(middle)[2] < plane.lift(middle)[2]


def _centroid(points: tuple[Point, ...]) -> Point:
    return (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))


def _with_unique_ids(planes: tuple[Plane, ...], edges: list[Edge]) -> list[Edge]:
    """Tell edges of one name apart, as "front rake left" and "front rake right".

    Left and right are as one faces the plane from its eave, as everywhere in the design.
    """
    of_id = {plane.id: plane for plane in planes}

    def left_to_right(edge: Edge) -> float:
        return sum(of_id[edge.planes[0]].to_surface(end)[0] for end in edge.plan)

    named: list[Edge] = []
    for edge in edges:
        twins = [other for other in edges if other.id == edge.id]
        if len(twins) == 1:
            named.append(edge)
            continue
        place = sorted(twins, key=left_to_right).index(edge)
        words = ("left", "right") if len(twins) == 2 else tuple(map(str, range(1, len(twins) + 1)))
        named.append(Edge(f"{edge.id} {words[place]}", edge.kind, edge.a, edge.b, edge.planes))
    return named
