"""A view of one roof plane in plan, turned so that its eave runs along the foot of the view."""

from __future__ import annotations

from dataclasses import dataclass

from planset.drawing.geometry import Box, Placement, Point, box_around
from planset.drawing.page import View
from planset.drawing.primitives import Insert
from planset.drawing.region import Region
from planset.roof.plane import Plane
from planset.sheets.plan_turn import plane_rotation_deg


def turned(block: str, plane: Plane, layer: str) -> Insert:
    """A block in plan, turned and moved so that the left end of a plane's eave is the origin.

    Args:
        block: Name of the block.
        plane: The plane.
        layer: Layer of the insertion.
    """
    turn = -plane_rotation_deg(plane)
    x, y = Placement(rotation_deg=turn).apply(plane.origin)
    return Insert(block, (-x, -y), layer, turn)


def slope_extent(plane: Plane) -> Box:
    """The plane in such a view: u along the eave, the run away from it [model in]."""
    return box_around((u, v / plane.slope_factor) for u, v in plane.surface_outline)


@dataclass(frozen=True, slots=True)
class SlopeView:
    """A view of a plane, and the way from the plane to paper.

    Attributes:
        plane: The plane.
        view: Its view, everything in it `turned`.
    """

    plane: Plane
    view: View

    def at(self, u: float, v: float) -> Point:
        """A point of the surface on paper [in]."""
        return self.view.on_paper.apply((u, v / self.plane.slope_factor))

    def box(self, surface: Box) -> Box:
        """A box on the surface on paper [in]."""
        (x0, y0), (x1, y1) = self.at(surface.x0, surface.y0), self.at(surface.x1, surface.y1)
        return Box(x0, y0, x1, y1)

    def region(self, outline: tuple[Point, ...], holes: tuple[tuple[Point, ...], ...]) -> Region:
        """A part of the surface on paper."""
        return Region.of(
            [self.at(*corner) for corner in outline],
            [[self.at(*corner) for corner in hole] for hole in holes],
        )
