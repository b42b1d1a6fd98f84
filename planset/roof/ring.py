"""Rings of corners in plan."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import Polygon

_LEAST_SQIN = 1.0


def is_outline(ring: Sequence[tuple[float, float]]) -> bool:
    """Tell whether corners in a row enclose something, and none of their lines cross.

    Args:
        ring: Corners, in either direction around [in].
    """
    if len(set(ring)) < 3 or len(set(ring)) < len(ring):
        return False
    shape = Polygon(ring)
    return bool(shape.is_valid and shape.area > _LEAST_SQIN)
