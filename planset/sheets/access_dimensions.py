"""Dimensions of fire access areas: across each, from the edge it belongs to, on the slope.

Where modules share the plane the figure is what is CLEAR there, else what is kept free at least.
So it is too where an area is no wider than it must be and the clear figure, rounded down, would
read as less than that: a pathway's share beside a hip.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from planset.design.access.area import AccessArea, AreaKind
from planset.design.design import Design
from planset.drawing.dimension import FIRST_OFFSET, dimension
from planset.drawing.geometry import Point, distance
from planset.drawing.page import View
from planset.drawing.region import Region
from planset.roof.plane import Plane
from planset.sheets.wanted import LAYER, Wanted, distinct
from planset.units import Rounding

_BESIDE_ARRAY_IN = 14.0  # where a setback is dimensioned first, beside an array [in]
_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95)  # of an area's length, the best first
_AT_EAVE_IN = 1.0  # an area that reaches so near the eave is dimensioned there
_TO_ARRAYS = (AreaKind.PERIMETER, AreaKind.INTERIOR_PATHWAY)
_AT_ARRAY_IN = 1.0  # a width ends at an array when it comes so near
_FINE_SHARES = tuple(n / 40 for n in range(1, 40))
_ON_EDGE_IN = 0.1  # of a width, that may lie on the edge it is taken from and so on no plane
_CLEAR_STEP_IN = 0.5  # of what is clear
_REQUIRED_DENOMINATOR = 16  # of what is required
_NOISE = 1e-6
_NOTHING_IN = 0.25  # what is clear is not dimensioned below this


def access_dimensions(design: Design, view: View) -> list[Wanted]:
    """A dimension across every area; those on planes without modules may be left out."""
    made: list[Wanted] = []
    for area in design.access_areas:
        plane = design.roof.plane(area.plane)
        on_it = any(array.plane.id == area.plane for array in design.arrays)
        figure = _figure(area, on_it=on_it)
        if figure.width_in < _NOTHING_IN:
            continue
        ways = [
            dimension(
                view.on_paper.apply(plane.to_plan(a)),
                view.on_paper.apply(plane.to_plan(b)),
                offset,
                LAYER,
                view.scale.factor,
                slope_factor=_slope_factor(plane, a, b),
                rounding=figure.rounding,
                denominator=figure.denominator,
                suffix=figure.words,
                beyond=end,
            )
            for a, b, offset in _places(design, plane, area, figure.width_in, view.scale.factor)
            for end in ("a", "b")
        ]
        name = f"{area.kind.upper()} ON {area.plane.upper()}"
        made.append(Wanted(name, distinct(ways), dispensable=not on_it))
    return made


@dataclass(frozen=True, slots=True)
class _Figure:
    """What a dimension across an area states.

    Attributes:
        width_in: The width, on the surface [in].
        words: After the figure, "CLEAR" or "MIN.".
        rounding: What is clear is rounded down, what is required up, as the area's words are.
        denominator: Fractions of an inch.
    """

    width_in: float
    words: str
    rounding: Rounding
    denominator: int


def _figure(area: AccessArea, *, on_it: bool) -> _Figure:
    # Around a hatch the clear width is taken to the nearest array, whichever way that is.
    if on_it and area.kind is not AreaKind.HATCH_CLEARANCE:
        printed = math.floor(area.available_in / _CLEAR_STEP_IN + _NOISE) * _CLEAR_STEP_IN
        met = area.available_in > area.required_in - _NOISE
        if not met or printed > area.required_in - _NOISE:
            return _Figure(area.available_in, "CLEAR", "down", round(1 / _CLEAR_STEP_IN))
    return _Figure(area.required_in, "MIN.", "up", _REQUIRED_DENOMINATOR)


def _slope_factor(plane: Plane, a: Point, b: Point) -> float:
    """Length on the plane per length in plan, of a line on the surface in any direction."""
    factor = math.dist(a, b) / math.dist(plane.to_plan(a), plane.to_plan(b))
    return factor if factor > 1 + 1e-9 else 1.0


def _places(
    design: Design, plane: Plane, area: AccessArea, width: float, factor: float
) -> Iterator[tuple[Point, Point, float]]:
    """Both ends on the surface, and how far off the dimension line runs [paper in]."""
    a, b = _measured(plane, area, width)
    length = math.dist(a, b)
    tangent = (-(b[1] - a[1]) / length, (b[0] - a[0]) / length)
    reach = sorted(_along(corner, a, tangent) for corner in area.outline)
    low, high = reach[0], reach[-1]

    def shifted(by: float) -> tuple[Point, Point]:
        du, dv = tangent[0] * by, tangent[1] * by
        return ((a[0] + du, a[1] + dv), (b[0] + du, b[1] + dv))

    if area.kind in _TO_ARRAYS:  # elsewhere along the area the width would end at nothing
        yield (a, b, 0.0)
        for share in (*_SHARES, *_FINE_SHARES):
            ends = shifted(low + share * (high - low))
            if any(_at_array(design, plane, end) for end in ends):
                yield (*ends, 0.0)
        return
    foot = min(v for _, v in area.outline)
    if abs(tangent[1]) > 1 - 1e-9 and foot < _AT_EAVE_IN:  # runs up the slope from the eave
        at_eave = ((a[0], foot), (b[0], foot))
        if a[0] > b[0]:
            at_eave = at_eave[::-1]
        yield (*at_eave, -FIRST_OFFSET)
    for edge, past in _beside_arrays(design, plane, a, tangent):
        if low < edge + past < high and area.kind is not AreaKind.PATHWAY:
            yield (*shifted(edge), past / factor)
    ground = Region(plane.surface_polygon)
    on_plane = [
        ends
        for share in (*_SHARES, *_FINE_SHARES)
        if ground.length_along(*(ends := shifted(low + share * (high - low)))) > width - _ON_EDGE_IN
    ]
    for ends in on_plane or [(a, b)]:
        yield (*ends, 0.0)


def _measured(plane: Plane, area: AccessArea, width: float) -> tuple[Point, Point]:
    """From the line the width runs from to as far as it is clear, or must be, on the plane."""
    start, end = area.across
    whole = distance(start, end)
    step = ((end[0] - start[0]) * width / whole, (end[1] - start[1]) * width / whole)
    forward = (start, (start[0] + step[0], start[1] + step[1]))
    backward = (end, (end[0] - step[0], end[1] - step[1]))
    ground = Region(plane.surface_polygon)
    return max((forward, backward), key=lambda way: round(ground.length_along(*way), 3))


def _beside_arrays(
    design: Design, plane: Plane, a: Point, tangent: Point
) -> Iterator[tuple[float, float]]:
    """Either end of each array along an area, and how far past it the line runs [in]."""
    for array in design.arrays:
        if array.plane.id == plane.id:
            ends = sorted(_along(corner, a, tangent) for corner in array.frames.corners)
            first = ((ends[0], -_BESIDE_ARRAY_IN), (ends[-1], _BESIDE_ARRAY_IN))
            yield from first if tangent[0] < 0 else first[::-1]


def _at_array(design: Design, plane: Plane, point: Point) -> bool:
    return any(
        module.surface.grown(array.past_in + _AT_ARRAY_IN).holds(point)
        for array in design.arrays
        if array.plane.id == plane.id and array.hardware.grown(_AT_ARRAY_IN).holds(point)
        for module in array.modules
    )


def _along(point: Point, a: Point, tangent: Point) -> float:
    return (point[0] - a[0]) * tangent[0] + (point[1] - a[1]) * tangent[1]
