"""Dimensions of the roof plan: along the eave in plan, up the slope on the surface.

Each dimension is given in several ways, the best one first: its figure past either end of a
short span, its line farther out. The plan takes the first way that has room.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from planset.design.access_strips import ClearStrip
from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.drawing.dimension import FIRST_OFFSET, NEXT_OFFSET, dimension
from planset.drawing.geometry import Point
from planset.drawing.page import View
from planset.drawing.primitives import Dimension
from planset.roof.plane import Plane
from planset.sheets.plan_blocks import roof_extent
from planset.units import Rounding

LAYER = "A-ANNO-DIMS"
_ONE_PLACE_IN = 1e-6  # stations no farther apart are one
_RIDGE_LINE_FROM_ARRAY = 14.0  # where the ridge clearance is dimensioned, beside the array [in]
_ROWS_OUT = 3  # lines farther out that are tried
_SHARES = (0.5, 0.65, 0.35, 0.8, 0.2)  # of a span, where its figure is tried, the best first


@dataclass(frozen=True, slots=True)
class Wanted:
    """A dimension that the plan should show.

    Attributes:
        name: What it measures, for the table of those there was no room to draw.
        ways: How it may be drawn, best first.
    """

    name: str
    ways: tuple[Dimension, ...]


def dimensions(design: Design, view: View) -> tuple[Wanted, ...]:
    """All dimensions of the plan: clearances, then each chain before what stands outside of it."""
    made: list[Wanted] = []
    for plane in design.roof.planes:
        arrays = [array for array in design.arrays if array.plane.id == plane.id]
        if arrays:
            made += _clearances(design, plane, arrays, view)
            made += _along_eave(plane, arrays, view)
            made += _up_slope(plane, arrays, view)
    return (*made, _depth(design, view))


def _along_eave(plane: Plane, arrays: list[PlacedArray], view: View) -> list[Wanted]:
    """Rake to array to rake, then the whole eave."""
    length = max(u for u, _ in plane.surface_outline)
    edges = (x for array in arrays for x in (array.frames.x0, array.frames.x1))
    spans = _spans([0.0, length, *edges])
    names = _names(spans, "LEFT RAKE", "RIGHT RAKE")
    made = [
        Wanted(name, _eave_ways(plane, view, a, b, length))
        for name, (a, b) in zip(names, spans, strict=True)
    ]
    made.append(Wanted("EAVE", (_eave_dimension(plane, view, 0.0, length, 2, "b"),)))
    return made


def _eave_ways(
    plane: Plane, view: View, u0: float, u1: float, length: float
) -> tuple[Dimension, ...]:
    """In the chain; a figure that would stand over its neighbor's span, rather by itself."""
    ends = ("a", "b") if u0 == 0 else ("b", "a")
    chained = [_eave_dimension(plane, view, u0, u1, 1, end) for end in ends]
    outermost, fits = u0 == 0 or u1 == length, chained[0] == chained[1]
    return _distinct(
        [
            _eave_dimension(plane, view, u0, u1, row, end, share=share)
            for row in ((1, 0) if outermost or fits else (0, 1))
            for end in ends
            for share in _SHARES
        ]
    )


def _eave_dimension(
    plane: Plane,
    view: View,
    u0: float,
    u1: float,
    row: int,
    beyond: str,
    *,
    rounding: Rounding = "nearest",
    suffix: str = "",
    share: float = 0.5,
) -> Dimension:
    a, b = _on_paper(view, plane, (u0, 0.0)), _on_paper(view, plane, (u1, 0.0))
    offset = -(FIRST_OFFSET + row * NEXT_OFFSET)
    factor = view.scale.factor
    return dimension(
        a,
        b,
        offset,
        LAYER,
        factor,
        rounding=rounding,
        suffix=suffix,
        beyond=beyond,
        share=share,
    )


def _up_slope(plane: Plane, arrays: list[PlacedArray], view: View) -> list[Wanted]:
    """Eave to array to ridge beside the left rake, then the whole slope."""
    ridge = max(v for _, v in plane.surface_outline)
    low, high = min(a.frames.y0 for a in arrays), max(a.frames.y1 for a in arrays)
    spans = _spans([0.0, low, high, ridge])
    names = _names(spans, "EAVE", "RIDGE")
    made = [
        Wanted(name, _slope_ways(plane, view, v0, v1, first=v0 == 0))
        for name, (v0, v1) in zip(names, spans, strict=True)
    ]
    whole = [_slope_dimension(plane, view, 0.0, ridge, row, "b") for row in range(1, 3 + _ROWS_OUT)]
    return [*made, Wanted("EAVE TO RIDGE", tuple(whole))]


def _slope_ways(
    plane: Plane, view: View, v0: float, v1: float, *, first: bool
) -> tuple[Dimension, ...]:
    ends = ("a", "b") if first else ("b", "a")
    return _distinct(
        [
            _slope_dimension(plane, view, v0, v1, row, end)
            for row in (0, *range(2, 2 + _ROWS_OUT), 1)
            for end in ends
        ]
    )


def _slope_dimension(
    plane: Plane, view: View, v0: float, v1: float, row: int, beyond: str
) -> Dimension:
    return dimension(
        _on_paper(view, plane, (0.0, v0)),
        _on_paper(view, plane, (0.0, v1)),
        FIRST_OFFSET + row * NEXT_OFFSET,
        LAYER,
        view.scale.factor,
        slope_factor=plane.slope_factor,
        beyond=beyond,
    )


def _clearances(
    design: Design, plane: Plane, arrays: list[PlacedArray], view: View
) -> list[Wanted]:
    """Clear pathway widths nearest the eave, and what is clear below the ridge."""
    areas = [a for a in design.access_areas if a.kind == "pathway" and a.plane == plane.id]
    strips = [
        strip
        for strip in design.access.strips_on(plane.id)
        if any(strip.surface.overlaps(area.surface) for area in areas)
    ]
    made = [Wanted("PATHWAY", _strip_ways(plane, view, strip)) for strip in strips]
    ridge = max(v for _, v in plane.surface_outline)
    top = max(arrays, key=lambda array: array.hardware.y1)
    if top.hardware.y1 < ridge - _ONE_PLACE_IN:
        made.append(Wanted("BELOW THE RIDGE", _ridge_ways(plane, top, ridge, view)))
    return made


def _strip_ways(plane: Plane, view: View, strip: ClearStrip) -> tuple[Dimension, ...]:
    inward = ("a", "b") if strip.side == "right" else ("b", "a")
    box = strip.surface
    return _distinct(
        [
            _eave_dimension(plane, view, box.x0, box.x1, 0, end, rounding="down", suffix="CLEAR")
            for end in inward
        ]
    )


def _ridge_ways(
    plane: Plane, array: PlacedArray, ridge: float, view: View
) -> tuple[Dimension, ...]:
    """From the array's hardware to the ridge: beside the array, or above it."""
    frames, length = array.frames, max(u for u, _ in plane.surface_outline)
    free = ((frames.x1, length - frames.x1), (frames.x0, -frames.x0))
    near = min(_RIDGE_LINE_FROM_ARRAY, max(abs(room) for _, room in free) / 2)
    places = [(edge, math.copysign(near, room)) for edge, room in free if abs(room) > near]
    places += [(frames.x0 + share * frames.width, 0.0) for share in (0.5, 0.25, 0.75, 0.1, 0.9)]
    places += [(edge, share * room) for share in (0.3, 0.5, 0.7, 0.9) for edge, room in free]
    return tuple(
        dimension(
            _on_paper(view, plane, (u, array.hardware.y1)),
            _on_paper(view, plane, (u, ridge)),
            -beside / view.scale.factor,
            LAYER,
            view.scale.factor,
            slope_factor=plane.slope_factor,
            rounding="down",
            suffix="CLEAR",
        )
        for u, beside in places
    )


def _depth(design: Design, view: View) -> Wanted:
    """The depth of the roof in plan, at its right or left, outside of what stands there."""
    box = roof_extent(design)
    ways = []
    for row in (0, *range(2, 3 + _ROWS_OUT)):
        offset = FIRST_OFFSET + row * NEXT_OFFSET
        for x, away in ((box.x1, -offset), (box.x0, offset)):
            lower, upper = (view.on_paper.apply((x, y)) for y in (box.y0, box.y1))
            ways.append(dimension(lower, upper, away, LAYER, view.scale.factor, suffix="IN PLAN"))
    return Wanted("ROOF DEPTH", tuple(ways))


def _names(spans: list[tuple[float, float]], first: str, last: str) -> list[str]:
    """What each span of a chain runs between, its ends named."""
    inner = [f"STATION {number}" for number in range(1, len(spans))]
    if len(spans) == 3:
        inner = ["ARRAY", "ARRAY"]
    places = [first, *inner, last]
    return ["ARRAY" if a == b else f"{a} TO {b}" for a, b in pairwise(places)]


def _spans(stations: list[float]) -> list[tuple[float, float]]:
    """From station to station, in order."""
    return [(a, b) for a, b in pairwise(sorted(stations)) if b - a > _ONE_PLACE_IN]


def _distinct(ways: list[Dimension]) -> tuple[Dimension, ...]:
    """The ways without repeats: a figure that fits its span stands in it either way."""
    return tuple(dict.fromkeys(ways))


def _on_paper(view: View, plane: Plane, surface: Point) -> Point:
    return view.on_paper.apply(plane.to_plan(surface))
