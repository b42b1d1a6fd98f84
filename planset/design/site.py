"""The lot in the plan of the house: its lines, what stands on it, what is how far from what."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely import union_all
from shapely.geometry import LinearRing, LineString, Polygon
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from planset.design.access.area import AccessArea, AreaKind
from planset.design.access.street import direction_of
from planset.design.walls import buildings, within_walls
from planset.drawing.geometry import Point, distance
from planset.job.site_plan import GAS_METER, HOUSE
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.design.electrical.topology import Topology
    from planset.job.load import Inputs
    from planset.job.site_plan import OnWall, Ring, SitePlan

_OUTWARD: dict[str, Point] = {
    "front": (0.0, -1.0),
    "back": (0.0, 1.0),
    "left": (-1.0, 0.0),
    "right": (1.0, 0.0),
}
_AT_FOOT_IN = 0.5


@dataclass(frozen=True, slots=True)
class LotLine:
    """A property line.

    Attributes:
        id: As it is tagged: PL1 is the first of the job.
        kind: "front", "side", "street_side" or "rear".
        a: Its first corner; the lot lies left of the way to the other one, in plan [in].
        b: Its other corner, in plan [in].
        setback_in: What has to be kept from it [in].
    """

    id: str
    kind: str
    a: Point
    b: Point
    setback_in: float

    @property
    def length_in(self) -> float:
        """From corner to corner [in]."""
        return distance(self.a, self.b)

    @property
    def outward(self) -> Point:
        """Direction square to it, out of the lot, as a unit vector in plan."""
        (x0, y0), (x1, y1) = self.a, self.b
        return ((y1 - y0) / self.length_in, (x0 - x1) / self.length_in)

    def bearing_deg(self, front_azimuth_deg: float) -> float:
        """Bearing from its first corner to the other, clockwise from true north [deg]."""
        (x0, y0), (x1, y1) = self.a, self.b
        clockwise_from_back = math.degrees(math.atan2(x1 - x0, y1 - y0))
        return (front_azimuth_deg + 180.0 + clockwise_from_back) % 360.0


@dataclass(frozen=True, slots=True)
class Body:
    """What stands on the lot, a building of the job or another structure.

    Attributes:
        id: "HOUSE", or its id in the job.
        rings: Outlines of its walls in plan [in].
    """

    id: str
    rings: tuple[Ring, ...]

    @property
    def shape(self) -> BaseGeometry:
        """What its walls enclose, courtyards included."""
        return union_all([Polygon(ring) for ring in self.rings])


@dataclass(frozen=True, slots=True)
class OnSite:
    """Equipment at a wall.

    Attributes:
        id: Its tag on every sheet; "GM" for the gas meter.
        name: What it is, as the diagram has it: "MAIN SERVICE PANEL".
        at: Where it stands, on the outer face of the wall, in plan [in].
        outward: Direction away from the building.
        inside: Whether it stands on the inner side of the wall.
        off_wall_in: How far past the end of the walls of that side it is stated, 0 on them [in].
    """

    id: str
    name: str
    at: Point
    outward: Point
    inside: bool
    off_wall_in: float


@dataclass(frozen=True, slots=True)
class StreetOnPlan:
    """A street along a property line.

    Attributes:
        name: Its name.
        line: The property line it runs along.
        edge_in: How far beyond that its pavement begins, None where that is not known [in].
    """

    name: str
    line: LotLine
    edge_in: float | None


@dataclass(frozen=True, slots=True)
class Site:
    """The lot and what stands on it, in the plan of the house.

    Attributes:
        lines: Property lines, counterclockwise around the lot.
        buildings: The buildings of the job, the house first.
        structures: Other structures.
        driveways: Outlines of driveways.
        streets: Streets.
        equipment: Electrical equipment, and the gas meter last if there is one.
        access_points: Where pathways on the roof meet an eave.
        walk: The way of the fire service, to the nearest of these if there is one.
    """

    lines: tuple[LotLine, ...]
    buildings: tuple[Body, ...]
    structures: tuple[Body, ...]
    driveways: tuple[Ring, ...]
    streets: tuple[StreetOnPlan, ...]
    equipment: tuple[OnSite, ...]
    access_points: tuple[Point, ...]
    walk: tuple[Point, ...]

    @property
    def ring(self) -> Ring:
        """Corners of the lot, counterclockwise [in]."""
        return tuple(line.a for line in self.lines)


def site_of(
    inputs: Inputs, roof: Roof, areas: tuple[AccessArea, ...], topology: Topology
) -> Site | None:
    """The lot of a job, None where it describes none.

    Args:
        inputs: The job.
        roof: Its roofs.
        areas: What fire access keeps free on them.
        topology: What the electrical equipment is.
    """
    plan = inputs.job.site_plan
    if plan is None:
        return None
    bodies = tuple(
        Body(name or HOUSE, tuple(within_walls(inputs.job, roof, name).rings))
        for name in buildings(roof)
    )
    origin = _origin(plan, bodies[0])
    points = access_points(roof, areas)
    lines = _lines(plan, origin)
    return Site(
        lines=lines,
        buildings=bodies,
        structures=tuple(Body(one.id, (_moved(one.ring, origin),)) for one in plan.structures),
        driveways=tuple(_moved(one.ring, origin) for one in plan.driveway),
        streets=tuple(
            StreetOnPlan(one.name, _toward(lines, direction_of(roof, one.side)), one.edge)
            for one in plan.streets
        ),
        equipment=_equipment(plan, bodies, topology),
        access_points=points,
        walk=_walk(plan, origin, points),
    )


def access_points(roof: Roof, areas: tuple[AccessArea, ...]) -> tuple[Point, ...]:
    """The middle of the foot of every pathway, where the roof is climbed, in plan [in]."""
    found = []
    for area in areas:
        if area.kind is AreaKind.PATHWAY:
            low = min(v for _, v in area.outline)
            foot = [u for u, v in area.outline if v < low + _AT_FOOT_IN]
            middle = ((min(foot) + max(foot)) / 2, low)
            found.append(roof.plane(area.plane).to_plan(middle))
    return tuple(found)


def _origin(plan: SitePlan, house: Body) -> Point:
    """What distances are taken from, in plan: of the walls the corner nearest the roof's."""
    if plan.measured_from == "roof":
        return (0.0, 0.0)
    corners = [point for ring in house.rings for point in ring]
    return min(corners, key=lambda point: distance(point, (0.0, 0.0)))


def _moved(ring: Ring, origin: Point) -> Ring:
    return tuple((x + origin[0], y + origin[1]) for x, y in ring)


def _lines(plan: SitePlan, origin: Point) -> tuple[LotLine, ...]:
    """The property lines, numbered as the job lists them, counterclockwise."""
    ring = _moved(plan.lot_ring, origin)
    ends = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    forward = LinearRing(ring).is_ccw
    made = [
        LotLine(f"PL{n}", given.line, a if forward else b, b if forward else a, given.setback)
        for n, (given, (a, b)) in enumerate(zip(plan.lot, ends, strict=True), 1)
    ]
    return tuple(made if forward else made[::-1])


def _toward(lines: tuple[LotLine, ...], direction: Point) -> LotLine:
    """The longest property line among those that face a direction best."""

    def facing(line: LotLine) -> tuple[float, float]:
        x, y = line.outward
        return (round(x * direction[0] + y * direction[1], 3), line.length_in)

    return max(lines, key=facing)


def _equipment(plan: SitePlan, bodies: tuple[Body, ...], topology: Topology) -> tuple[OnSite, ...]:
    made = [_placed(one.tag, topology.words_of(one.tag), one, bodies) for one in plan.equipment]
    if plan.gas_meter:
        made.append(_placed(GAS_METER, "GAS METER", plan.gas_meter, bodies))
    return tuple(made)


def _placed(tag: str, name: str, given: OnWall, bodies: tuple[Body, ...]) -> OnSite:
    """Where somebody meets the walls who walks toward a side at a distance along it."""
    shape = next(body.shape for body in bodies if body.id == (given.building or HOUSE))
    x0, y0, x1, y1 = shape.bounds
    side_in = x1 - x0 if given.wall in ("front", "back") else y1 - y0
    past = max(-given.along, given.along - side_in, 0.0)
    start, end = {
        "front": ((x0 + given.along, y0 - 1), (x0 + given.along, y1)),
        "back": ((x1 - given.along, y1 + 1), (x1 - given.along, y0)),
        "left": ((x0 - 1, y1 - given.along), (x1, y1 - given.along)),
        "right": ((x1 + 1, y0 + given.along), (x0, y0 + given.along)),
    }[given.wall]
    met = shape.intersection(LineString((start, end)))
    at, _ = nearest_points(shape if met.is_empty else met, Dot(start))
    return OnSite(tag, name, (at.x, at.y), _OUTWARD[given.wall], given.inside, past)


def _walk(plan: SitePlan, origin: Point, points: tuple[Point, ...]) -> tuple[Point, ...]:
    ring = tuple((place.right, place.back) for place in plan.access_walk)
    way = _moved(ring, origin)
    if not points:
        return way
    return (*way, min(points, key=lambda point: distance(point, way[-1])))
