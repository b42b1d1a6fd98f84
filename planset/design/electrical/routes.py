"""Where raceways lie on the roof.

A route is given by points on a plane, (u, v) along its eave and up its slope, so distances between
them are distances on the surface.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.drawing.geometry import Point, distance
from planset.job.electrical.wiring import RoofPlace
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.load import Inputs


@dataclass(frozen=True, slots=True)
class RoofRoute:
    """A raceway on a roof plane.

    Attributes:
        run: Name of its run in the job's wiring.
        box: Junction box whose run it is, "" where that is not said.
        place: Number of the place in that run, counted from 0.
        plane: The plane.
        points: What it goes by, (u, v), in order toward the service [in].
    """

    run: str
    box: str
    place: int
    plane: Plane
    points: tuple[Point, ...]

    @property
    def name(self) -> str:
        """Its run in words, as "dc from JB2"."""
        return run_words(self.run, self.box)

    @property
    def legs_in(self) -> tuple[float, ...]:
        """Lengths between its points, on the surface [in]."""
        return tuple(distance(a, b) for a, b in pairwise(self.points))

    @property
    def leaves(self) -> Point:
        """Where it leaves the plane, (u, v) [in]."""
        return self.points[-1]


def run_words(run: str, box: str) -> str:
    """A run in words: its name, and the junction box whose circuits it carries."""
    if not box:
        return run
    return f"{run} {'to' if run == 'array' else 'from'} {box}"


def roof_routes(inputs: Inputs, roof: Roof) -> tuple[RoofRoute, ...]:
    """Every raceway on the roof that is given by its points."""
    return tuple(
        RoofRoute(stated.name, stated.box, number, roof.plane(place.plane or ""), _points(place))
        for stated in inputs.job.electrical.wiring.runs
        for number, place in enumerate(stated.run.places)
        if isinstance(place, RoofPlace) and place.route
    )


def _points(place: RoofPlace) -> tuple[Point, ...]:
    return tuple((point.along, point.up) for point in place.route)
