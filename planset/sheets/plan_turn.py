"""How a plane is turned in plan."""

from __future__ import annotations

from planset.drawing.geometry import direction_deg
from planset.roof.plane import Plane


def plane_rotation_deg(plane: Plane) -> float:
    """Direction of the plane's eave in plan, from its left end [deg]."""
    return direction_deg((0.0, 0.0), plane.along)
