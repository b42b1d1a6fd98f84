"""Which roof planes face a street or driveway."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from planset.drawing.geometry import Point
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs
    from planset.job.site import Side

_NOISE = 1e-9


def faces_street(inputs: Inputs, roof: Roof, plane: Plane) -> bool:
    """Tell whether a plane slopes toward a street or driveway.

    The angle allowed between both is a local reading: no code states one (interpretation).
    """
    allowed_deg = inputs.jurisdiction.access.street_angle.value
    return any(
        _angle_deg(plane.downslope, direction) <= allowed_deg + _NOISE
        for direction in street_directions(inputs, roof)
    )


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
