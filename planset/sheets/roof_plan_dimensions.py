"""Dimensions of the roof plan: along the eave in plan, up the slope on the surface."""

from __future__ import annotations

from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.design.roof import Plane
from planset.drawing.dimension import FIRST_OFFSET, NEXT_OFFSET, dimension
from planset.drawing.geometry import Point
from planset.drawing.page import View
from planset.drawing.primitives import Dimension
from planset.sheets.plan_blocks import roof_extent
from planset.units import Rounding

LAYER = "A-ANNO-DIMS"
_RIDGE_LINE_FROM_ARRAY = 14.0  # where the ridge clearance is dimensioned, beside the array [in]


def dimensions(design: Design, view: View) -> tuple[Dimension, ...]:
    """All dimensions of the plan."""
    made: list[Dimension] = []
    for plane in design.roof.planes:
        arrays = [array for array in design.arrays if array.plane.id == plane.id]
        if arrays:
            made += _along_eave(design, plane, arrays, view)
            made += _up_slope(plane, arrays, view)
    made += _overall(design, view)
    return tuple(made)


def _along_eave(
    design: Design, plane: Plane, arrays: list[PlacedArray], view: View
) -> list[Dimension]:
    """Clear pathway widths nearest the eave, then rake to array to rake, then the whole eave."""
    length = max(u for u, _ in plane.surface_outline)
    strips = design.access.strips_on(plane.id)
    areas = [a for a in design.access_areas if a.kind == "pathway" and a.plane == plane.id]
    used = [s for s in strips if any(s.surface.overlaps(area.surface) for area in areas)]
    made = [
        _eave_dimension(plane, view, s.surface.x0, s.surface.x1, 0, rounding="down", suffix="CLEAR")
        for s in used
    ]
    stations = sorted({0.0, length, *(x for a in arrays for x in (a.frames.x0, a.frames.x1))})
    made += [
        _eave_dimension(plane, view, a, b, 1) for a, b in zip(stations, stations[1:], strict=False)
    ]
    made.append(_eave_dimension(plane, view, 0.0, length, 2))
    return made


def _eave_dimension(
    plane: Plane,
    view: View,
    u0: float,
    u1: float,
    row: int,
    *,
    rounding: Rounding = "nearest",
    suffix: str = "",
) -> Dimension:
    a, b = _on_paper(view, plane, (u0, 0.0)), _on_paper(view, plane, (u1, 0.0))
    offset = FIRST_OFFSET + row * NEXT_OFFSET
    return dimension(a, b, -offset, LAYER, view.scale.factor, rounding=rounding, suffix=suffix)


def _up_slope(plane: Plane, arrays: list[PlacedArray], view: View) -> list[Dimension]:
    """Eave to array to ridge beside the left rake; ridge clearance beside the array."""
    ridge = max(v for _, v in plane.surface_outline)
    low, high = min(a.frames.y0 for a in arrays), max(a.frames.y1 for a in arrays)
    factor = plane.slope_factor
    stations = [0.0, low, high, ridge]
    ends = ["a", "b", "b"]
    made = [
        dimension(
            _on_paper(view, plane, (0.0, v0)),
            _on_paper(view, plane, (0.0, v1)),
            FIRST_OFFSET,
            LAYER,
            view.scale.factor,
            slope_factor=factor,
            beyond=end,
        )
        for v0, v1, end in zip(stations, stations[1:], ends, strict=False)
    ]
    made.append(
        dimension(
            _on_paper(view, plane, (0.0, 0.0)),
            _on_paper(view, plane, (0.0, ridge)),
            FIRST_OFFSET + NEXT_OFFSET,
            LAYER,
            view.scale.factor,
            slope_factor=factor,
        )
    )
    top = max(arrays, key=lambda array: array.hardware.y1)
    u = top.frames.x1 + _RIDGE_LINE_FROM_ARRAY
    made.append(
        dimension(
            _on_paper(view, plane, (u, top.hardware.y1)),
            _on_paper(view, plane, (u, ridge)),
            0.0,
            LAYER,
            view.scale.factor,
            slope_factor=factor,
            rounding="down",
            suffix="CLEAR",
        )
    )
    return made


def _overall(design: Design, view: View) -> list[Dimension]:
    """The depth of the roof in plan, beside its right side."""
    box = roof_extent(design)
    lower = view.on_paper.apply((box.x1, box.y0))
    upper = view.on_paper.apply((box.x1, box.y1))
    return [dimension(lower, upper, -FIRST_OFFSET, LAYER, view.scale.factor, suffix="IN PLAN")]


def _on_paper(view: View, plane: Plane, surface: Point) -> Point:
    return view.on_paper.apply(plane.to_plan(surface))
