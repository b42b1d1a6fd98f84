"""What fire walls make of a row of townhouses: units whose roofs are judged by themselves, too.

The code does not say whether the row or the unit is the building, so the worse of both counts
(interpretation): the area ratio of either, and pathways on the roof of the unit alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from planset.design.layout import ArrayOnRoof
from planset.roof.plane import Plane, Point

_FAR = 1e6
_SLIVER_SQIN = 1e-3


@dataclass(frozen=True, slots=True)
class Unit:
    """What lies between two fire walls, or between one and the end of the row.

    Attributes:
        x0: From here along the front, in plan [in].
        x1: To here [in].
    """

    x0: float
    x1: float

    @property
    def ground(self) -> Polygon:
        """All of it in plan [in]."""
        return shapely.box(self.x0, -_FAR, self.x1, _FAR)


def units(walls: Sequence[float]) -> tuple[Unit, ...]:
    """The units that fire walls make, left to right.

    Args:
        walls: Where they stand along the front, in plan [in].
    """
    return tuple(Unit(x0, x1) for x0, x1 in pairwise((-_FAR, *sorted(walls), _FAR)))


def areas_in(
    unit: Unit, arrays: Iterable[ArrayOnRoof], planes: Iterable[Plane]
) -> tuple[float, float]:
    """Arrays and roof of a unit in plan [sq in].

    Args:
        unit: The unit.
        arrays: The arrays of the building.
        planes: The planes of the building.
    """
    roof = shapely.union_all([Polygon(plane.outline, plane.holes) for plane in planes])
    covered = 0.0
    for array in arrays:
        share = _in_plan(array).intersection(unit.ground).area / _in_plan(array).area
        covered += share * array.plan_area_sqin
    return covered, float(roof.intersection(unit.ground).area)


def beside_units(
    plane: Plane, walls: Sequence[float], arrays: Sequence[ArrayOnRoof]
) -> BaseGeometry:
    """What of a plane lies over units without any of some arrays, (u, v) [in]."""
    others = [
        unit
        for unit in units(walls)
        if all(_in_plan(a).intersection(unit.ground).area < _SLIVER_SQIN for a in arrays)
    ]
    if len(others) == len(walls) + 1:
        return Polygon()
    corners = [unit.ground.exterior.coords[:-1] for unit in others]
    return shapely.union_all([Polygon([plane.to_surface((x, y)) for x, y in c]) for c in corners])


def _in_plan(array: ArrayOnRoof) -> Polygon:
    corners: list[Point] = [array.plane.to_plan(corner) for corner in array.frames.corners]
    return Polygon(corners)
