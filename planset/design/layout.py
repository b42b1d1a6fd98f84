"""Modules and obstructions placed on the roof surface."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Protocol

from shapely import Polygon, box, union_all
from shapely.geometry.base import BaseGeometry

from planset.drawing.geometry import Box, Point, united
from planset.roof.plane import Plane
from planset.roof.solid import Roof

if TYPE_CHECKING:
    from planset.catalog.module import Module
    from planset.catalog.mounting import MountingSystem
    from planset.design.extent import Extent
    from planset.job.arrays import Array, ArrayMounting
    from planset.job.load import Inputs
    from planset.job.obstructions import Obstruction


class ArrayOnRoof(Protocol):
    """What fire access counts as an array, whether this job adds it or it is there already."""

    @property
    def id(self) -> str:
        """Id in the job."""

    @property
    def plane(self) -> Plane:
        """The plane it lies on."""

    @property
    def frames(self) -> Box:
        """Box around the module frames on the plane, (u, v) [in]."""

    @property
    def occupied(self) -> BaseGeometry:
        """What an access area must stay clear of, (u, v) [in]."""

    @property
    def surface_area_sqin(self) -> float:
        """Area on the surface [sq in]."""

    @property
    def plan_area_sqin(self) -> float:
        """Area in plan [sq in]."""


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


@dataclass(frozen=True)
class PlacedArray:
    """One array where it lies.

    Attributes:
        given: The array as the job states it.
        product: The module it is made of.
        mounting: The mounting system under it, None where others design it.
        plane: The plane it lies on.
        extent: Its rows, columns, corner and omitted cells.
        modules: Its modules by row from the eave, then from the left.
        frames: Box around the module frames on the plane, (u, v) [in].
        hardware: Box around frames and rails, what a clearance is measured to [in].
    """

    given: Array
    product: Module
    mounting: MountingSystem | None
    plane: Plane
    extent: Extent
    modules: tuple[PlacedModule, ...]
    frames: Box
    hardware: Box

    @property
    def id(self) -> str:
        """Id in the job."""
        return self.given.id

    @property
    def system(self) -> MountingSystem:
        """The mounting system of an array that has one.

        Raises:
            ValueError: Others design the mounting.
        """
        if self.mounting is None:
            msg = f"array {self.id} has no mounting of ours"
            raise ValueError(msg)
        return self.mounting

    @property
    def stated_mounting(self) -> ArrayMounting:
        """How the job mounts an array that has a mounting.

        Raises:
            ValueError: Others design the mounting.
        """
        if self.given.mounting is None:
            msg = f"array {self.id} has no mounting of ours"
            raise ValueError(msg)
        return self.given.mounting

    @property
    def past_in(self) -> float:
        """How far rails run past the frames, along the rails [in]."""
        return self.mounting.rail.past_module if self.mounting else 0.0

    @cached_property
    def field(self) -> BaseGeometry:
        """Frames with the gaps between them, on the plane (u, v): the array as one area [in].

        Where cells are omitted it ends at the frames of the others.
        """
        frames = {(module.row, module.column): module.surface for module in self.modules}
        joined = []
        for row, column in frames:
            right, above, across = (row, column + 1), (row + 1, column), (row + 1, column + 1)
            for cells in ((right,), (above,), (right, above, across)):
                if all(cell in frames for cell in cells):
                    joined.append(united(frames[cell] for cell in ((row, column), *cells)))
        return union_all([_polygon(area) for area in (*frames.values(), *joined)])

    @cached_property
    def occupied(self) -> BaseGeometry:
        """What an access area must stay clear of: frames with rails and trim past them [in]."""
        boxes = (_with_hardware(module.surface, self.mounting) for module in self.modules)
        return union_all([self.field, *(_polygon(area) for area in boxes)])

    @property
    def surface_area_sqin(self) -> float:
        """Area within the outline of the frames, gaps included, omitted cells not [sq in]."""
        return float(self.field.area)

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
        return self.kind in ("plumbing_vent", "roof_drain")

    @property
    def is_array(self) -> bool:
        """Whether it is an array that is there already; it then is an `ArrayOnRoof`."""
        return self.kind == "existing_array"

    @property
    def frames(self) -> Box:
        """The whole extent on the plane, (u, v) [in]."""
        return self.surface

    @property
    def occupied(self) -> BaseGeometry:
        """The box around it on the plane, (u, v) [in]."""
        return _polygon(self.surface)

    @property
    def surface_area_sqin(self) -> float:
        """Area of that box on the surface [sq in]."""
        return self.surface.width * self.surface.height

    @property
    def plan_area_sqin(self) -> float:
        """The same area in plan [sq in]."""
        return self.surface_area_sqin / self.plane.slope_factor


def existing_arrays(obstructions: Iterable[PlacedObstruction]) -> tuple[PlacedObstruction, ...]:
    """Those of the obstructions that are arrays."""
    return tuple(item for item in obstructions if item.is_array)


def all_arrays(
    arrays: Iterable[PlacedArray], obstructions: Iterable[PlacedObstruction]
) -> tuple[ArrayOnRoof, ...]:
    """The arrays that a job adds, then those that are there already."""
    every: list[ArrayOnRoof] = [*arrays, *existing_arrays(obstructions)]
    return tuple(every)


def place_arrays(
    inputs: Inputs, roof: Roof, extents: tuple[Extent, ...]
) -> tuple[PlacedArray, ...]:
    """Every array of the job on its plane; tags run on from array to array.

    Args:
        inputs: The job and the catalog entries it names.
        roof: The roof.
        extents: Rows, columns, corner and omitted cells of each array.
    """
    placed: list[PlacedArray] = []
    count = 0
    for given, extent in zip(inputs.job.arrays, extents, strict=True):
        array = place_array(inputs, given, roof.plane(given.plane), extent, count)
        placed.append(array)
        count += len(array.modules)
    return tuple(placed)


def place_array(
    inputs: Inputs, given: Array, plane: Plane, extent: Extent, already: int = 0
) -> PlacedArray:
    """One array on its plane.

    Args:
        inputs: The job and the catalog entries it names.
        given: The array as the job states it.
        plane: The plane.
        extent: Rows, columns, corner and omitted cells.
        already: Modules tagged before.
    """
    product = inputs.modules[given.module]
    mounting = inputs.mountings[given.mounting.system] if given.mounting else None
    across, up = module_size(given, product)
    modules: list[PlacedModule] = []
    for row, column in extent.cells:
        u = extent.corner[0] + (column - 1) * (across + given.gap)
        v = extent.corner[1] + (row - 1) * (up + given.up_gap)
        tag = f"M{already + len(modules) + 1:02d}"
        modules.append(PlacedModule(tag, given.id, row, column, Box(u, v, u + across, v + up)))
    frames = united(module.surface for module in modules)
    hardware = _with_hardware(frames, mounting)
    return PlacedArray(given, product, mounting, plane, extent, tuple(modules), frames, hardware)


def apart_in(one: PlacedArray, other: PlacedArray) -> float:
    """Distance between two arrays of one plane, rails included; negative: how deep they overlap."""
    shared = one.occupied.intersection(other.occupied)
    if shared.is_empty or shared.area == 0.0:
        return float(one.occupied.distance(other.occupied))
    x0, y0, x1, y1 = shared.bounds
    return -min(float(x1 - x0), float(y1 - y0))


def module_size(given: Array, product: Module) -> tuple[float, float]:
    """Size of a module along the eave and up the slope, as an array lays it [in]."""
    if given.orientation == "landscape":
        return (product.width, product.height)
    return (product.height, product.width)


def place_obstructions(inputs: Inputs, roof: Roof) -> tuple[PlacedObstruction, ...]:
    """Every obstruction of the job on its plane."""
    return tuple(_stand(item, roof.plane(item.plane)) for item in inputs.job.obstructions)


def surface_to_plan(plane: Plane, box: Box) -> tuple[Point, ...]:
    """The corners of a box on the surface, in plan [in]."""
    return tuple(plane.to_plan(corner) for corner in box.corners)


def _with_hardware(frames: Box, mounting: MountingSystem | None) -> Box:
    """Frames with what stands out beyond them: rails at their ends, a trim along the front [in]."""
    if mounting is None:
        return frames
    past = mounting.rail.past_module
    trim = mounting.trim.depth if mounting.trim else 0.0
    across, up = (past, 0.0) if mounting.across else (0.0, past)
    low = max(up, trim)
    return Box(frames.x0 - across, frames.y0 - low, frames.x1 + across, frames.y1 + up)


def _polygon(area: Box) -> Polygon:
    return box(area.x0, area.y0, area.x1, area.y1)


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
