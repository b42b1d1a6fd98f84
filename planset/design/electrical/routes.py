"""Where raceways lie on the roof.

A route is given by points on a plane, (u, v) along its eave and up its slope, so distances between
them are distances on the surface.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from planset.design.electrical.topology import RunName
from planset.drawing.geometry import Point, distance
from planset.job.electrical.wiring import RoofPlace
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.job.electrical.wiring import Run, Wiring
    from planset.job.load import Inputs

RUNS: tuple[RunName, ...] = (
    "array",
    "dc",
    "branch",
    "output",
    "combined",
    "connection",
    "feeder",
    "battery",
    "backup",
)
"""Names of the runs in `electrical.wiring`, from the array to the service."""


@dataclass(frozen=True, slots=True)
class RoofRoute:
    """A raceway on a roof plane.

    Attributes:
        run: Name of its run in the job's wiring.
        place: Number of the place in that run, counted from 0.
        plane: The plane.
        points: What it goes by, (u, v), in order toward the service [in].
    """

    run: RunName
    place: int
    plane: Plane
    points: tuple[Point, ...]

    @property
    def legs_in(self) -> tuple[float, ...]:
        """Lengths between its points, on the surface [in]."""
        return tuple(distance(a, b) for a, b in pairwise(self.points))

    @property
    def leaves(self) -> Point:
        """Where it leaves the plane, (u, v) [in]."""
        return self.points[-1]


def runs_of(wiring: Wiring) -> tuple[tuple[RunName, Run], ...]:
    """The runs that the job gives, by name, from the array to the service."""
    given = ((name, getattr(wiring, name)) for name in RUNS)
    return tuple((name, run) for name, run in given if run is not None)


def roof_routes(inputs: Inputs, roof: Roof) -> tuple[RoofRoute, ...]:
    """Every raceway on the roof that is given by its points."""
    return tuple(
        RoofRoute(name, number, roof.plane(place.plane or ""), _points(place))
        for name, run in runs_of(inputs.job.electrical.wiring)
        for number, place in enumerate(run.places)
        if isinstance(place, RoofPlace) and place.route
    )


def _points(place: RoofPlace) -> tuple[Point, ...]:
    return tuple((point.along, point.up) for point in place.route)
