"""Which roof planes face a street or driveway, and which pathways stand on that side."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

import shapely

from planset.design.access.area import AccessArea
from planset.drawing.geometry import Point
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs
    from planset.job.site import Side

_NOISE = 1e-9
_FAR_IN = 1e5
_AT_FOOT_IN = 0.5


def faces_street(inputs: Inputs, roof: Roof, plane: Plane) -> bool:
    """Tell whether a plane slopes toward a street or driveway.

    The angle allowed between both is a local reading: no code states one (interpretation).
    """
    allowed_deg = inputs.jurisdiction.access.street_angle.value
    return any(
        _angle_deg(plane.downslope, direction) <= allowed_deg + _NOISE
        for direction in street_directions(inputs, roof)
    )


def on_street_side(
    inputs: Inputs, roof: Roof, feet: Sequence[AccessArea], required_in: float
) -> bool:
    """Tell whether a pathway meets its eave on a street or driveway side.

    Its plane slopes toward one, and from its foot no other part of the building stands in the way
    to it. What a pathway's own width covers beside the foot is no such part (interpretation).

    Args:
        inputs: The job and its jurisdiction.
        roof: The roof.
        feet: The parts of the pathway that start at an eave, as placed.
        required_in: Width of a pathway [in].
    """
    allowed_deg = inputs.jurisdiction.access.street_angle.value
    for area in feet:
        plane = roof.plane(area.plane)
        for direction in street_directions(inputs, roof):
            near = _angle_deg(plane.downslope, direction) <= allowed_deg + _NOISE
            if near and _crossed_in(roof, area, direction) <= required_in + _NOISE:
                return True
    return False


def _crossed_in(roof: Roof, area: AccessArea, direction: Point) -> float:
    """How much of its building lies between the foot of a pathway and a street, in plan [in]."""
    plane = roof.plane(area.plane)
    low = min(v for _, v in area.outline)
    foot = [plane.to_plan((u, v)) for u, v in area.outline if v < low + _AT_FOOT_IN]
    dx, dy = direction
    x, y = max(foot, key=lambda point: point[0] * dx + point[1] * dy)
    x, y = x - _AT_FOOT_IN * plane.downslope[0], y - _AT_FOOT_IN * plane.downslope[1]
    way = shapely.LineString([(x, y), (x + _FAR_IN * dx, y + _FAR_IN * dy)])
    outlines = [shapely.Polygon(p.outline, p.holes) for p in roof.planes_of(plane.building)]
    return float(way.intersection(shapely.union_all(outlines)).length)


def street_directions(inputs: Inputs, roof: Roof) -> tuple[Point, ...]:
    """Return the plan directions of the job's street and driveway sides, as unit vectors."""
    site = inputs.job.site
    sides = dict.fromkeys((*site.street_sides, *site.driveway_sides))
    return tuple(direction_of(roof, side) for side in sides)


def direction_of(roof: Roof, side: Side) -> Point:
    """Return the plan direction of a side of the house, as a unit vector.

    Front is where the first plane of the roof slopes down to; left and right are as seen by
    somebody who faces that plane from its eave.
    """
    front = roof.planes[0]
    (down_x, down_y), (right_x, right_y) = front.downslope, front.along
    directions: dict[Side, Point] = {
        "front": (down_x, down_y),
        "back": (-down_x, -down_y),
        "left": (-right_x, -right_y),
        "right": (right_x, right_y),
    }
    return directions[side]


def _angle_deg(a: Point, b: Point) -> float:
    cosine = a[0] * b[0] + a[1] * b[1]
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
