"""Modules and obstructions placed on the roof surface."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from planset.design.roof import Plane, Roof
from planset.drawing.geometry import Box, Point, united

if TYPE_CHECKING:
    from planset.catalog.module import Module
    from planset.catalog.mounting import MountingSystem
    from planset.job.arrays import Array
    from planset.job.load import Inputs
    from planset.job.obstructions import Obstruction


@dataclass(frozen=True, slots=True)
class PlacedModule:
    """One module where it lies.

    Attributes:
        id: Tag, unique in the job, e.g. "M07".
        array: Id of its array.
        row: Row from the eave, 1 is the lowest.
        column: Column from the left rake, 1 is the leftmost.
        surface: Its frame on the plane, (u, v) [in].
    """

    id: str
    array: str
    row: int
    column: int
    surface: Box


@dataclass(frozen=True, slots=True)
class PlacedArray:
    """One array where it lies.

    Attributes:
        given: The array as the job states it.
        product: The module it is made of.
        mounting: The mounting system under it.
        plane: The plane it lies on.
        modules: Its modules by row from the eave, then from the left.
        frames: Box around the module frames on the plane, (u, v) [in].
        hardware: Box around frames and rails, what a clearance is measured to [in].
    """

    given: Array
    product: Module
    mounting: MountingSystem
    plane: Plane
    modules: tuple[PlacedModule, ...]
    frames: Box
    hardware: Box

    @property
    def id(self) -> str:
        """Id in the job."""
        return self.given.id

    @property
    def surface_area_sqin(self) -> float:
        """Area within the outline of the frames, gaps included [sq in]."""
        return self.frames.width * self.frames.height

    @property
    def plan_area_sqin(self) -> float:
        """The same area in plan [sq in]."""
        return self.surface_area_sqin / self.plane.slope_factor


@dataclass(frozen=True, slots=True)
class PlacedObstruction:
    """Something on the roof that is not ours.

    Attributes:
        id: Id in the job.
        kind: Kind in the job, e.g. "skylight".
        plane: The plane it stands on.
        surface: Its extent on the plane, (u, v) [in].
        round: Whether it is round in plan of the surface.
        clearance_in: Distance modules keep from it [in].
    """

    id: str
    kind: str
    plane: Plane
    surface: Box
    round: bool
    clearance_in: float

    @property
    def minor(self) -> bool:
        """A vent pipe may stand in a pathway: the code asks for minimal obstructions only."""
        return self.kind == "plumbing_vent"


def place_arrays(inputs: Inputs, roof: Roof) -> tuple[PlacedArray, ...]:
    """Every array of the job on its plane; tags run on from array to array."""
    placed: list[PlacedArray] = []
    count = 0
    for given in inputs.job.arrays:
        mounting = inputs.mountings[given.mounting.system]
        product = inputs.modules[given.module]
        placed.append(_place(given, product, mounting, roof.plane(given.plane), count))
        count += given.rows * given.columns
    return tuple(placed)


def place_obstructions(inputs: Inputs, roof: Roof) -> tuple[PlacedObstruction, ...]:
    """Every obstruction of the job on its plane."""
    return tuple(_stand(item, roof.plane(item.plane)) for item in inputs.job.obstructions)


def surface_to_plan(plane: Plane, box: Box) -> tuple[Point, ...]:
    """The corners of a box on the surface, in plan [in]."""
    return tuple(plane.to_plan(corner) for corner in box.corners)


def _place(
    given: Array, product: Module, mounting: MountingSystem, plane: Plane, already: int
) -> PlacedArray:
    landscape = given.orientation == "landscape"
    across = product.width if landscape else product.height
    up = product.height if landscape else product.width
    modules: list[PlacedModule] = []
    for row in range(given.rows):
        for column in range(given.columns):
            u = given.corner.along + column * (across + given.gap)
            v = given.corner.up + row * (up + given.gap)
            tag = f"M{already + len(modules) + 1:02d}"
            box = Box(u, v, u + across, v + up)
            modules.append(PlacedModule(tag, given.id, row + 1, column + 1, box))
    frames = united(module.surface for module in modules)
    past = mounting.rail.past_module
    hardware = Box(frames.x0, frames.y0 - past, frames.x1, frames.y1 + past)
    return PlacedArray(given, product, mounting, plane, tuple(modules), frames, hardware)


def _stand(item: Obstruction, plane: Plane) -> PlacedObstruction:
    width = item.diameter if item.diameter is not None else item.width
    height = item.diameter if item.diameter is not None else item.height
    if width is None or height is None:  # the job model lets neither through
        msg = f"obstruction {item.id} has no size"
        raise ValueError(msg)
    u, v = item.center.along, item.center.up
    box = Box(u - width / 2, v - height / 2, u + width / 2, v + height / 2)
    is_round = item.diameter is not None
    return PlacedObstruction(item.id, item.kind, plane, box, is_round, item.clearance)
