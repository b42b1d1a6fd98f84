"""How arrays lie to the edges of the roof and to each other, for panels parallel to the roof.

ASCE 7-16 and 7-22, 29.4.3 and 29.4.4: clearance to edges and ridges, and which modules an exposed
edge of an array raises the uplift of. The clearance is measured in plan, where it is never more
than on the surface; what shelters a module on the surface, where it is never less than in plan.
The text names no basis for either: interpretation, on the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiLineString

from planset.codes.asce7.solar_panels import is_exposed, strict_edge_factor
from planset.design.containment import room_in
from planset.design.layout import PlacedArray, PlacedModule
from planset.drawing.geometry import Box
from planset.roof.plane import Plane
from planset.roof.solid import EdgeKind, Roof

ROOF_EDGES = (
    EdgeKind.EAVE,
    EdgeKind.RAKE,
    EdgeKind.HIGH_EDGE,
    EdgeKind.ROOF_EDGE,
    EdgeKind.PARAPET,
)
_KEPT_CLEAR_OF = (*ROOF_EDGES, EdgeKind.RIDGE, EdgeKind.HIP)
_TOUCH_IN = 1e-6
_FAR_IN = 1e5  # beyond every roof
_LEAST_FACING = 0.5  # share of a side that panels must cover to stand before it: interpretation

SIDES = ("left", "right", "lower", "upper")
"""The sides of a module as one faces the plane from its eave."""

_Table = NDArray[np.float64]
_Cell = tuple[int, int]


@dataclass(frozen=True, slots=True)
class ExposureTest:
    """What the distances of the edge factor's test are multiples of.

    Attributes:
        mean_roof_height_in: h, half of which a roof edge must be away [in].
        height_above_roof_in: Top of the modules above the roof, h2, for the gap to others [in].
        chord_in: Lp, the longer side of a module on the safe side, for the reach [in].
    """

    mean_roof_height_in: float
    height_above_roof_in: float
    chord_in: float


@dataclass(frozen=True, slots=True)
class SideExposure:
    """One side of a module.

    Attributes:
        side: One of SIDES.
        edge_in: Square to the side to the nearest roof edge, None when none lies that way [in].
        panel_in: Square to the side to the next panel of the array, None when none does [in].
        array_in: Square to the side to the next array, None when none does [in].
        exposed: Whether nothing shelters it.
    """

    side: str
    edge_in: float | None
    panel_in: float | None
    array_in: float | None
    exposed: bool


@dataclass(frozen=True, slots=True)
class ModuleExposure:
    """What the edge factor's test says of a module.

    Attributes:
        module: Its tag.
        sides: Its sides, by order of SIDES.
        end_in: From the module to the nearest exposed end of its row or of its column, 0 at that
            end, None when neither has one [in].
        edge_factor: gamma_E of uplift, 1.5 where any of it lies within reach of that end, unitless.
    """

    module: str
    sides: tuple[SideExposure, ...]
    end_in: float | None
    edge_factor: float

    @property
    def exposed(self) -> bool:
        """Whether a side of the module itself is exposed."""
        return any(side.exposed for side in self.sides)


def clearance_in(roof: Roof, plane: Plane, frames: Sequence[Box]) -> float:
    """Least distance of frames from a roof edge, a ridge or a hip, in plan [in].

    Negative where a frame runs over the edge of its plane, whatever that edge is. A plane that has
    no such edge is measured to all it has.

    Args:
        roof: The roof.
        plane: Any plane of it.
        frames: Module frames on it, (u, v) [in].
    """
    room = min(room_in(plane, frame) for frame in frames)
    if room < 0:
        return room
    lines = _lines(roof, plane, _KEPT_CLEAR_OF)
    kept_clear_of = plane.surface_polygon.boundary if lines.is_empty else lines
    in_plan = [1.0, 1.0 / plane.slope_factor]
    areas, edges = (
        shapely.transform(shape, lambda places: places * in_plan)
        for shape in (shapely.box(*_as_columns(frames)), kept_clear_of)
    )
    return float(shapely.distance(areas, edges).min())


def exposures(
    roof: Roof, array: PlacedArray, others: Sequence[PlacedArray], test: ExposureTest
) -> tuple[ModuleExposure, ...]:
    """The strict test of the edge factor on every module of an array.

    A side of a module is exposed when, square to it, the roof edge is farther than half of h and
    nothing stands within the gap, neither a panel nor another array. Every module within reach of
    an exposed end of its row takes the factor, sheltered itself or not; a column up the slope
    counts as a row too. Both are interpretation, on the safe side. What lies on other planes
    shelters nothing.

    Args:
        roof: The roof.
        array: The array.
        others: The other arrays of the job; those on its plane count.
        test: The distances of the test.

    Raises:
        ValueError: A distance of the test is out of range.
    """
    beside = [one for one in others if one.plane.id == array.plane.id and one.id != array.id]
    frames = [module.surface for module in array.modules]
    to_edges = _to_edges(frames, _lines(roof, array.plane, ROOF_EDGES))
    to_panels = _to_panels(frames, frames)
    to_arrays = _to_panels(frames, [module.surface for one in beside for module in one.modules])
    sides = {
        (module.row, module.column): tuple(
            _side(name, to_edges[name][n], to_panels[name][n], to_arrays[name][n], test)
            for name in SIDES
        )
        for n, module in enumerate(array.modules)
    }
    ends = _exposed_ends(array, sides)
    return tuple(
        _exposure(module, sides[module.row, module.column], ends, test) for module in array.modules
    )


def _side(
    name: str,
    edge_in: float | None,
    panel_in: float | None,
    array_in: float | None,
    test: ExposureTest,
) -> SideExposure:
    to_edge, to_panel, to_array = (
        math.inf if way is None else way for way in (edge_in, panel_in, array_in)
    )
    nearest = min(to_panel, to_array)
    free = is_exposed(
        to_edge, test.mean_roof_height_in, nearest, nearest, test.height_above_roof_in
    )
    return SideExposure(name, edge_in, panel_in, array_in, free)


def _exposed_ends(
    array: PlacedArray, sides: dict[_Cell, tuple[SideExposure, ...]]
) -> dict[tuple[str, int], list[float]]:
    """Where rows and columns end at an exposed side: by the side and the row's or column's number.

    Ends are distances from the zero of the plane's frame, of which left and lower ones are
    negative, so that they grow outward [in].
    """
    ends: dict[tuple[str, int], list[float]] = {}
    for module in array.modules:
        for side, line, reach in _outward(module):
            if sides[module.row, module.column][SIDES.index(side)].exposed:
                ends.setdefault((side, line), []).append(reach)
    return ends


def _outward(module: PlacedModule) -> tuple[tuple[str, int, float], ...]:
    """How far each side of a module lies outward, with the number of the line it may end."""
    frame = module.surface
    return (
        ("left", module.row, -frame.x0),
        ("right", module.row, frame.x1),
        ("lower", module.column, -frame.y0),
        ("upper", module.column, frame.y1),
    )


def _exposure(
    module: PlacedModule,
    own: tuple[SideExposure, ...],
    ends: dict[tuple[str, int], list[float]],
    test: ExposureTest,
) -> ModuleExposure:
    ways = [
        max(end - reach, 0.0)
        for side, line, reach in _outward(module)
        for end in ends.get((side, line), ())
        if end - reach > -_TOUCH_IN
    ]
    end = min(ways, default=None)
    factor = strict_edge_factor(end is not None, end or 0.0, test.chord_in)
    return ModuleExposure(module.id, own, end, factor)


def _to_edges(frames: list[Box], edges: MultiLineString) -> dict[str, list[float | None]]:
    """The way from every side of every frame to the nearest roof edge before it [in]."""
    x0, y0, x1, y1 = _as_columns(frames)
    far = np.full(len(frames), _FAR_IN)
    before = {
        "left": (-far, y0, x0, y1),
        "right": (x1, y0, far, y1),
        "lower": (x0, -far, x1, y0),
        "upper": (x0, y1, x1, far),
    }
    found: dict[str, list[float | None]] = {}
    for name, corridor in before.items():
        met = shapely.bounds(shapely.intersection(shapely.box(*corridor), edges))
        ways = {
            "left": x0 - met[:, 2],
            "right": met[:, 0] - x1,
            "lower": y0 - met[:, 3],
            "upper": met[:, 1] - y1,
        }[name]
        found[name] = [None if np.isnan(way) else max(float(way), 0.0) for way in ways]
    return found


def _to_panels(frames: list[Box], panels: list[Box]) -> dict[str, list[float | None]]:
    """The way from every side of every frame to the panels that stand before at least half of it.

    A frame among the panels lies behind its own sides [in].
    """
    mine = [column[:, np.newaxis] for column in _as_columns(frames)]
    x0, y0, x1, y1 = _as_columns(panels)
    ways = {
        "left": mine[0] - x1,
        "right": x0 - mine[2],
        "lower": mine[1] - y1,
        "upper": y0 - mine[3],
    }
    along_v = (np.maximum(mine[1], y0), np.minimum(mine[3], y1), mine[3] - mine[1])
    along_u = (np.maximum(mine[0], x0), np.minimum(mine[2], x1), mine[2] - mine[0])
    found: dict[str, list[float | None]] = {}
    for name in SIDES:
        starts, ends, lengths = along_v if name in SIDES[:2] else along_u
        before = (ends > starts) & (ways[name] > -_TOUCH_IN)
        found[name] = [
            _nearest(
                ways[name][n, stands], starts[n, stands], ends[n, stands], float(lengths[n, 0])
            )
            for n, stands in enumerate(before)
        ]
    return found


def _nearest(ways: _Table, starts: _Table, ends: _Table, length: float) -> float | None:
    spans: list[tuple[float, float]] = []
    for place in np.argsort(ways):
        spans.append((float(starts[place]), float(ends[place])))
        if _covered(spans) >= _LEAST_FACING * length:
            return max(float(ways[place]), 0.0)
    return None


def _covered(spans: list[tuple[float, float]]) -> float:
    """Length of a line that lies under any of several spans of it."""
    total, reached = 0.0, -_FAR_IN
    for start, end in sorted(spans):
        total += max(end - max(start, reached), 0.0)
        reached = max(reached, end)
    return total


def _lines(roof: Roof, plane: Plane, kinds: tuple[EdgeKind, ...]) -> MultiLineString:
    """Edges of a plane of some kinds, on its surface."""
    return MultiLineString(
        [
            [plane.to_surface(end) for end in edge.plan]
            for edge in roof.edges_of(plane.id)
            if edge.kind in kinds
        ]
    )


def _as_columns(frames: Sequence[Box]) -> tuple[_Table, _Table, _Table, _Table]:
    table = np.array([(frame.x0, frame.y0, frame.x1, frame.y1) for frame in frames])
    x0, y0, x1, y1 = table.reshape(-1, 4).T
    return x0, y0, x1, y1
