"""Junction boxes where they stand on the roof, and circuits of each box."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely

from planset.drawing.geometry import Box, Point
from planset.roof.plane import Plane

if TYPE_CHECKING:
    from planset.design.design import Design
    from planset.design.layout import PlacedArray
    from planset.job.electrical.electrical import Electrical
    from planset.job.electrical.sources import Branch, StringOfModules

BOX_SIZE_IN = 8.0
"""Side of a junction box, none being stated: a usual size (common practice, no source) [in]."""

BOX_ASSUMED = f"Junction boxes are taken {BOX_SIZE_IN:g} in square."
"""What is assumed of junction boxes, as printed."""


@dataclass(frozen=True, slots=True)
class PlacedBox:
    """A junction box on its plane.

    Attributes:
        id: Id in the job.
        array: Id of the array it stands at.
        plane: The plane.
        at: Its middle, (u, v) [in].
    """

    id: str
    array: str
    plane: Plane
    at: Point

    @property
    def surface(self) -> Box:
        """What it covers, (u, v) [in]."""
        return Box(*self.at, *self.at).grown(BOX_SIZE_IN / 2)


def placed_boxes(design: Design) -> tuple[PlacedBox, ...]:
    """The junction boxes of the job."""
    return boxes_at(design.inputs.job.electrical, design.arrays)


def boxes_at(electrical: Electrical, arrays: Sequence[PlacedArray]) -> tuple[PlacedBox, ...]:
    """The junction boxes of a job at its arrays."""
    planes = {array.id: array.plane for array in arrays}
    return tuple(
        PlacedBox(box.id, box.array, planes[box.array], (box.at.along, box.at.up))
        for box in electrical.junction_boxes
    )


def from_edge_in(array: PlacedArray, placed: PlacedBox) -> float:
    """Distance between a box and the outline of an array's frames, inward or outward [in]."""
    covered = shapely.box(*placed.surface.corners[0], *placed.surface.corners[2])
    return float(array.field.boundary.distance(covered))


def from_line_in(placed: PlacedBox, ends: tuple[Point, Point]) -> float:
    """Distance on the slope between the middle of a box and a line stated in plan [in]."""
    line = shapely.LineString([placed.plane.to_surface(end) for end in ends])
    return float(line.distance(shapely.Point(placed.at)))


def box_of_circuits(electrical: Electrical) -> Mapping[str, str]:
    """Id of the junction box that each string and branch reaches, by its id."""
    inverters = {inverter.id: inverter.junction_box for inverter in electrical.inverters}
    only = next(iter(inverters), "")
    found = {
        one.id: one.junction_box or inverters[one.inverter or only] for one in electrical.strings
    }
    return found | {branch.id: branch.junction_box for branch in electrical.branches}


def boxes_of_arrays(electrical: Electrical) -> Mapping[str, str]:
    """Id of the box that the first circuit of each array reaches, by the id of the array."""
    reached = box_of_circuits(electrical)
    found: dict[str, str] = {}
    circuits: list[StringOfModules | Branch] = [*electrical.strings, *electrical.branches]
    for circuit in circuits:
        found.setdefault(circuit.array, reached[circuit.id])
    return found


def nearest_box_at(design: Design, array: PlacedArray) -> Point | None:
    """Where the box that serves an array stands, None where it stands on another plane."""
    serving = boxes_of_arrays(design.inputs.job.electrical).get(array.id)
    return next(
        (b.at for b in placed_boxes(design) if b.id == serving and b.plane is array.plane), None
    )
