"""An area that fire access keeps free on a roof plane, as the plans show it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planset.drawing.geometry import Box, Point, box_around


class AreaKind(StrEnum):
    """What an area is kept free for."""

    PATHWAY = "pathway"
    RIDGE_SETBACK = "ridge setback"
    HIP_VALLEY_SETBACK = "hip or valley setback"
    ESCAPE_PATHWAY = "escape pathway"
    EDGE_SETBACK = "edge setback"
    PERIMETER = "perimeter"
    INTERIOR_PATHWAY = "interior pathway"
    HATCH_CLEARANCE = "hatch clearance"


@dataclass(frozen=True, slots=True)
class AccessArea:
    """An area the code keeps free.

    Attributes:
        kind: What for.
        plane: Id of its plane.
        outline: Its corners on the plane, (u, v), counterclockwise [in].
        across: Where its width is taken, square to it: from the line the width runs from (ridge,
            rake, hip, roof edge) to the far side, (u, v) [in].
        required_in: Required width, on the surface [in].
        available_in: What is clear there, on the surface [in].
    """

    kind: AreaKind
    plane: str
    outline: tuple[Point, ...]
    across: tuple[Point, Point]
    required_in: float
    available_in: float

    @property
    def surface(self) -> Box:
        """Box around it on the plane, (u, v) [in]."""
        return box_around(self.outline)
