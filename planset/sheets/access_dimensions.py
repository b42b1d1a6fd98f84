"""Dimensions of fire access areas: across each, from the edge it belongs to, on the slope.

Where modules bound the width the figure is what is CLEAR there, else what is kept free at least.
So it is too where an area is no wider than it must be and the clear figure, rounded down, would
read as less than that: a pathway's share beside a hip.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from planset.design.access.area import AccessArea, AreaKind
from planset.design.design import Design
from planset.drawing.dimension import FIRST_OFFSET, dimension, row_offset
from planset.drawing.geometry import Box, Point, distance
from planset.drawing.page import View
from planset.drawing.region import Region
from planset.roof.plane import Plane
from planset.sheets.wanted import LAYER, Wanted, distinct
from planset.units import judged_denominator

_BESIDE_ARRAY_IN = 14.0  # where a setback is dimensioned first, beside an array [in]
_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95)  # of an area's length, the best first
_AT_EAVE_IN = 1.0  # an area that reaches so near the eave is dimensioned there
_TO_ARRAYS = (AreaKind.PERIMETER, AreaKind.INTERIOR_PATHWAY)
# What is clear around a hatch is taken to the nearest array, whichever way that is, and what is
# below an escape opening as far to either side: neither lies across the area from edge to edge.
_LEAST_ONLY = (AreaKind.HATCH_CLEARANCE, AreaKind.ESCAPE_PATHWAY)
_BESIDE_LANE = (0.2, 0.32)  # of a line past the end of an array that it is drawn from [paper in]
_ROWS_BELOW = (0, 1, 2, 3)  # lines outside of the roof, past an eave or a ridge
_ROWS_BESIDE = (2, 3, 4)  # and beside a rake, where the nearer ones belong to a chain
_AT_ARRAY_IN = 1.0  # a width ends at an array when it comes so near
_FINE_SHARES = tuple(n / 40 for n in range(1, 40))
_ON_EDGE_IN = 0.1  # of a width, that may lie on the edge it is taken from and so on no plane
_REQUIRED_DENOMINATOR = 16  # of what is required
_NOISE = 1e-6
_NOTHING_IN = 0.25  # what is clear is not dimensioned below this


def access_dimensions(design: Design, view: View) -> list[Wanted]:
    """A dimension across every area; those on planes without modules may be left out."""
    made: list[Wanted] = []
    factor = view.scale.factor
    for area in design.access_areas:
        plane = design.roof.plane(area.plane)
        on_it = any(array.plane.id == area.plane for array in design.arrays)
        clear = _clear_places(design, plane, area, factor) if on_it else ()
        places = clear or _places(design, plane, area, area.required_in, factor)
        ways = [
            dimension(
                view.on_paper.apply(plane.to_plan(a)),
                view.on_paper.apply(plane.to_plan(b)),
                offset,
                LAYER,
                factor,
                slope_factor=_slope_factor(plane, a, b),
                rounding="down" if clear else "up",
                denominator=judged_denominator(area.available_in)
                if clear
                else _REQUIRED_DENOMINATOR,
                suffix="CLEAR" if clear else "MIN.",
                beyond=end,
            )
            for a, b, offset in places
            for end in ("a", "b")
        ]
        if ways:
            name = f"{area.kind.upper()} ON {area.plane.upper()}"
            made.append(Wanted(name, distinct(ways), dispensable=not on_it))
    return made


def _slope_factor(plane: Plane, a: Point, b: Point) -> float:
    """Length on the plane per length in plan, of a line on the surface in any direction."""
    factor = math.dist(a, b) / math.dist(plane.to_plan(a), plane.to_plan(b))
    return factor if factor > 1 + 1e-9 else 1.0


_Place = tuple[Point, Point, float]
"""Both ends on the surface, and how far off the dimension line runs [paper in]."""


def _clear_places(
    design: Design, plane: Plane, area: AccessArea, factor: float
) -> tuple[_Place, ...]:
    """Where what is clear may be dimensioned; nowhere if no end of it would lie at an array."""
    if area.kind in _LEAST_ONLY or area.available_in < _NOTHING_IN or _reads_as_less(area):
        return ()
    if area.kind not in _TO_ARRAYS:
        return tuple(_places(design, plane, area, area.available_in, factor))
    across = _Across(plane, area, area.available_in)
    inside = [(*across.ends, 0.0)]
    inside += [(*across.at(along), 0.0) for along in across.shares((*_SHARES, *_FINE_SHARES))]
    places = (*inside, *_from_corners(design, plane, area, across, factor))
    near = _near_arrays(design, plane)
    return tuple(place for place in places if any(_at_array(near, end) for end in place[:2]))


def _reads_as_less(area: AccessArea) -> bool:
    """Whether an area is wide enough, and its clear figure rounded down would deny it."""
    steps = judged_denominator(area.available_in)
    printed = math.floor(area.available_in * steps + _NOISE) / steps
    least = area.required_in - _NOISE
    return printed < least <= area.available_in


class _Across:
    """A width of an area, and the same width elsewhere along the area.

    Attributes:
        ends: Where it is measured, on the surface.
        tangent: The way along the area, to the left of the way across.

    Args:
        plane: The plane.
        area: The area.
        width: The width [in].
    """

    def __init__(self, plane: Plane, area: AccessArea, width: float) -> None:
        a, b = self.ends = _measured(plane, area, width)
        length = math.dist(a, b)
        self.tangent = (-(b[1] - a[1]) / length, (b[0] - a[0]) / length)
        reach = sorted(map(self.along, area.outline))
        self.low, self.high = reach[0], reach[-1]

    def along(self, point: Point) -> float:
        """How far along the area a point lies [in]."""
        (u, v), (du, dv) = self.ends[0], self.tangent
        return (point[0] - u) * du + (point[1] - v) * dv

    def at(self, along: float) -> tuple[Point, Point]:
        """The ends of the width so far along the area."""
        du, dv = self.tangent[0] * along, self.tangent[1] * along
        (u0, v0), (u1, v1) = self.ends
        return ((u0 + du, v0 + dv), (u1 + du, v1 + dv))

    def shares(self, shares: Iterable[float]) -> Iterator[float]:
        """How far along the area shares of its length lie."""
        return (self.low + share * (self.high - self.low) for share in shares)


def _places(
    design: Design, plane: Plane, area: AccessArea, width: float, factor: float
) -> Iterator[_Place]:
    """Where a width of an area may be dimensioned, the best place first."""
    if width < _NOTHING_IN:
        return
    across = _Across(plane, area, width)
    (a, b), tangent = across.ends, across.tangent
    if area.kind in _TO_ARRAYS:
        yield (a, b, 0.0)
    foot = min(v for _, v in area.outline)
    if abs(tangent[1]) > 1 - 1e-9 and foot < _AT_EAVE_IN:  # runs up the slope from the eave
        at_eave = ((a[0], foot), (b[0], foot))
        if a[0] > b[0]:
            at_eave = at_eave[::-1]
        yield (*at_eave, -FIRST_OFFSET)
    for edge, past in _beside_arrays(design, plane, across):
        if across.low < edge + past < across.high and area.kind is not AreaKind.PATHWAY:
            yield (*across.at(edge), past / factor)
    ground = Region(plane.surface_polygon)
    shares = [across.at(along) for along in across.shares((*_SHARES, *_FINE_SHARES))]
    on_plane = [ends for ends in shares if ground.length_along(*ends) > width - _ON_EDGE_IN]
    for ends in on_plane or [(a, b)]:
        yield (*ends, 0.0)


def _from_corners(
    design: Design, plane: Plane, area: AccessArea, across: _Across, factor: float
) -> Iterator[_Place]:
    """From corners of arrays: outside of the roof, and of a lane just past the arrays."""
    up_slope = abs(across.tangent[1]) < 1 / 2
    reach = sorted(map(across.along, plane.surface_outline))
    corners = [
        (along, past > 0, (reach[-1] - along) if past > 0 else (along - reach[0]))
        for along, past in _beside_arrays(design, plane, across)
    ]
    if area.kind is AreaKind.INTERIOR_PATHWAY:
        for gap in _BESIDE_LANE:
            for along, high, _ in corners:
                if across.low - _AT_ARRAY_IN < along < across.high + _AT_ARRAY_IN:
                    yield (*across.at(along), gap if high else -gap)
        return
    for along, high, beyond in sorted(corners, key=lambda corner: corner[2]):
        ends = across.at(along)
        edge = across.at(along + (beyond if high else -beyond))
        out = math.dist(plane.to_plan(ends[0]), plane.to_plan(edge[0])) / factor
        for row in _ROWS_BESIDE if up_slope else _ROWS_BELOW:
            away = out + row_offset(row)
            yield (*ends, away if high else -away)


def _measured(plane: Plane, area: AccessArea, width: float) -> tuple[Point, Point]:
    """From the line the width runs from to as far as it is clear, or must be, on the plane."""
    start, end = area.across
    whole = distance(start, end)
    step = ((end[0] - start[0]) * width / whole, (end[1] - start[1]) * width / whole)
    forward = (start, (start[0] + step[0], start[1] + step[1]))
    backward = (end, (end[0] - step[0], end[1] - step[1]))
    ground = Region(plane.surface_polygon)
    return max((forward, backward), key=lambda way: round(ground.length_along(*way), 3))


def _beside_arrays(design: Design, plane: Plane, across: _Across) -> Iterator[tuple[float, float]]:
    """Either end of each array along an area, and how far past it the line runs [in]."""
    for array in design.arrays:
        if array.plane.id == plane.id:
            ends = sorted(map(across.along, array.frames.corners))
            first = ((ends[0], -_BESIDE_ARRAY_IN), (ends[-1], _BESIDE_ARRAY_IN))
            yield from first if across.tangent[0] < 0 else first[::-1]


def _near_arrays(design: Design, plane: Plane) -> list[tuple[Box, list[Box]]]:
    """What is at each array of a plane, and at each of its modules [in]."""
    return [
        (
            array.hardware.grown(_AT_ARRAY_IN),
            [module.surface.grown(array.past_in + _AT_ARRAY_IN) for module in array.modules],
        )
        for array in design.arrays
        if array.plane.id == plane.id
    ]


def _at_array(near: list[tuple[Box, list[Box]]], point: Point) -> bool:
    return any(
        any(module.holds(point) for module in modules)
        for array, modules in near
        if array.holds(point)
    )
