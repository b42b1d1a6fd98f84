"""Roofs given plane by plane, and whether their planes fit together."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

from shapely import Polygon, union_all
from shapely.geometry.polygon import orient

from planset.roof.edges import heights_of_meeting_planes
from planset.roof.envelope import Slope, plane_on
from planset.roof.plane import Plane, Point, Ring
from planset.units import format_feet_inches

OVERLAP_SQIN = 144.0
"""As much may overlap in plan where corners were rounded."""


SHORTEST_SIDE_IN = 0.1
"""Corners nearer to each other are one."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """Two planes that cannot both be as stated.

    Attributes:
        planes: Their ids.
        message: What is wrong, with heights.
        mend: What to correct.
    """

    planes: tuple[str, str]
    message: str
    mend: str


def downslope_of(faces_deg: float, front_azimuth_deg: float) -> Point:
    """The way a plane falls, in plan, from the compass bearings of the plane and of the front."""
    turned = math.radians(front_azimuth_deg - faces_deg)
    return (math.sin(turned) + 0.0, -math.cos(turned) + 0.0)


def free_plane(
    name: str,
    corners: Ring,
    pitch: float,
    faces_deg: float,
    lowest_in: float,
    front_azimuth_deg: float,
) -> Plane:
    """A plane from its corners in plan.

    Args:
        name: Id of the plane.
        corners: In plan, either way round [in].
        pitch: Rise per run, unitless.
        faces_deg: Compass bearing it falls toward [deg].
        lowest_in: Height of its lowest corner above the datum of the roof [in].
        front_azimuth_deg: Compass bearing that -y of the plan faces [deg].

    Raises:
        ValueError: The corners enclose no area, two of them lie in one place, or the outline
            crosses itself.
    """
    polygon = Polygon(corners)
    if not polygon.is_valid or polygon.area < 1.0:
        msg = "its corners enclose no area, or its outline crosses itself; check their order"
        raise ValueError(msg)
    if min(math.dist(*side) for side in pairwise((*corners, corners[0]))) < SHORTEST_SIDE_IN:
        msg = "two corners next to each other lie in one place; remove one"
        raise ValueError(msg)
    ring: Ring = tuple((x, y) for x, y in orient(polygon).exterior.coords[:-1])
    level = Slope(name, downslope_of(faces_deg, front_azimuth_deg), ring[0], 0.0, pitch)
    drop = min(level.height(corner) for corner in ring)
    slope = Slope(name, level.downslope, ring[0], lowest_in - drop, pitch)
    return plane_on(name, ring, slope, front_azimuth_deg)


def overlap_sqin(these: tuple[Plane, ...], those: tuple[Plane, ...]) -> float:
    """How much two groups of planes overlap in plan [sq in]."""
    one = union_all([Polygon(plane.outline) for plane in these])
    return float(one.intersection(union_all([Polygon(plane.outline) for plane in those])).area)


def misfits(
    planes: tuple[Plane, ...], steps: frozenset[frozenset[str]] = frozenset()
) -> Iterator[Misfit]:
    """Yield every two planes that overlap in plan, or whose heights disagree where they meet.

    Args:
        planes: The planes.
        steps: Pairs of planes between which a wall stands, so that heights may differ.
    """
    for one, other in combinations(planes, 2):
        shared = Polygon(one.outline, one.holes).intersection(Polygon(other.outline, other.holes))
        if shared.area > OVERLAP_SQIN:
            yield Misfit(
                (one.id, other.id),
                f"planes {one.id} and {other.id} overlap by {shared.area / 144:.1f} sq ft in plan",
                "correct the corners of one of them",
            )
    told: set[frozenset[str]] = set()
    for meeting in heights_of_meeting_planes(planes):
        pair = frozenset((meeting.plane, meeting.other))
        if pair in told or pair in steps:
            continue
        told.add(pair)
        here = " to ".join(format_feet_inches(height) for height in meeting.heights)
        there = " to ".join(format_feet_inches(height) for height in meeting.other_heights)
        yield Misfit(
            (meeting.plane, meeting.other),
            f"planes {meeting.plane} and {meeting.other} meet from {_place(meeting.a)} to "
            f"{_place(meeting.b)}, where {meeting.plane} stands {here} high and "
            f"{meeting.other} {there}",
            "correct a pitch, a height or a corner, or name both in steps if a wall stands "
            "between them",
        )


def _place(point: Point) -> str:
    return f"({format_feet_inches(point[0])}, {format_feet_inches(point[1])})"
