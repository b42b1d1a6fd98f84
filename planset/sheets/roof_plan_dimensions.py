"""Dimensions of the roof plan: along the eave in plan, up the slope on the surface.

Each dimension is given in several ways, the best one first: its figure past either end of a
short span, its line farther out, or beside the array it belongs to. The plan takes the first way
that has room.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from operator import itemgetter, or_

from planset.design.design import Design
from planset.design.layout import PlacedArray
from planset.drawing.dimension import dimension, row_offset
from planset.drawing.geometry import Point, box_around
from planset.drawing.page import View
from planset.drawing.primitives import Dimension
from planset.drawing.region import Region
from planset.roof.plane import Plane, polygon_area
from planset.roof.solid import Roof
from planset.sheets.access_dimensions import access_dimensions
from planset.sheets.wanted import LAYER, Wanted, distinct

_ONE_PLACE_IN = 1e-6  # stations no farther apart are one
_ROWS_OUT = 3  # lines farther out that are tried
_SHARES = (0.5, 0.65, 0.35, 0.8, 0.2)  # of a span, where its figure is tried, the best first
_BESIDE_ARRAY = (0.2, 0.32)  # of a line from the array it runs beside [paper in]
_OFF_OTHERS = 0.02  # that a line over another plane reaches into it [paper in]
_OFF_EDGES = 0.06  # that a line keeps from an edge it runs along, not to be lost in it [paper in]
_LONG_IN_EDGE = 0.4  # how much of a line may lie nearer [paper in]
_OFF_ARRAY_IN = 4.0  # that a line up the whole slope keeps from arrays
_ACROSS = (0.0, 1.0, 0.5, 0.25, 0.75, 0.1, 0.9)  # of the upper edge, where such a line is tried
_AT_EAVE_IN = 0.5  # a corner this near the eave line lies on it


def dimensions(design: Design, view: View) -> tuple[Wanted, ...]:
    """All dimensions of the plan: clearances, then each chain before what stands outside of it."""
    made = access_dimensions(design, view)
    for plane in design.roof.planes:
        arrays = [array for array in design.arrays if array.plane.id == plane.id]
        if arrays:
            on_plane = _OnPlane(design.roof, plane, view)
            made += _along_eave(on_plane, arrays)
            made += _up_slope(on_plane, arrays)
    made += _overall(design, view)
    return tuple(sorted(made, key=lambda wanted: wanted.dispensable))


class _OnPlane:
    """Draws dimensions along and up a plane of a view.

    Args:
        roof: The roof.
        plane: The plane.
        view: The view.
    """

    def __init__(self, roof: Roof, plane: Plane, view: View) -> None:
        self.plane, self.view = plane, view
        self._others = Region.joined(
            Region.of(map(view.on_paper.apply, other.outline)).grown(-_OFF_OTHERS)
            for other in roof.planes
            if other is not plane
        )
        own = Region.of(map(view.on_paper.apply, plane.outline))
        self._rim = own.grown(_OFF_EDGES).less(own.grown(-_OFF_EDGES))
        around = box_around(plane.surface_outline)
        self.top = around.y1
        at_eave = [u for u, v in plane.surface_outline if v < _AT_EAVE_IN]
        self.ends = (min(at_eave), max(at_eave))
        area = polygon_area(plane.surface_outline)
        self.rectangular = area > 0.999 * around.width * around.height
        highest = [u for u, v in plane.surface_outline if v > self.top - _AT_EAVE_IN]
        self._below_top = (min(highest), max(highest))

    def free_of(self, arrays: list[PlacedArray]) -> list[float]:
        """Where a line from the eave to the top may run between the arrays [in]."""
        low, high = self._below_top
        tried = [low + share * (high - low) for share in _ACROSS]
        return [u for u in dict.fromkeys(tried) if not any(_under(u, array) for array in arrays)]

    def best_first(self, *ways: Iterable[Dimension]) -> tuple[Dimension, ...]:
        """The ways without repeats, those last whose line is hard to follow.

        Such a line runs over other planes, or in an edge of its own.
        """
        listed = distinct(way for some in ways for way in some)
        lines = [(way.line_a, way.line_b) for way in listed]
        over_others = self._others.crossed_by_each(lines)
        in_edge = [length > _LONG_IN_EDGE for length in self._rim.length_along_each(lines)]
        ranked = sorted(zip(map(or_, over_others, in_edge), listed, strict=True), key=itemgetter(0))
        return tuple(way for _, way in ranked)

    @property
    def name(self) -> str:
        """The plane, as tables name it."""
        return self.plane.id.upper()

    def along(
        self, u0: float, u1: float, offset: float, beyond: str, share: float = 0.5, v: float = 0.0
    ) -> Dimension:
        """From u0 to u1 in plan, on a line so far up the slope of v; below it when negative."""
        factor = self.view.scale.factor
        a, b = self._on_paper((u0, v)), self._on_paper((u1, v))
        return dimension(a, b, offset, LAYER, factor, beyond=beyond, share=share)

    def up(
        self, v0: float, v1: float, offset: float, beyond: str, u: float = 0.0, share: float = 0.5
    ) -> Dimension:
        """From v0 to v1 on the slope, on a line so far left of u; right of it when negative."""
        return dimension(
            self._on_paper((u, v0)),
            self._on_paper((u, v1)),
            offset,
            LAYER,
            self.view.scale.factor,
            slope_factor=self.plane.slope_factor,
            beyond=beyond,
            share=share,
        )

    def _on_paper(self, surface: Point) -> Point:
        return self.view.on_paper.apply(self.plane.to_plan(surface))


def _along_eave(on: _OnPlane, arrays: list[PlacedArray]) -> list[Wanted]:
    """End to array to end, then the whole eave; array by array where arrays stand in each other."""
    left, right = on.ends
    sides = _distinct_spans((a.frames.x0, a.frames.x1) for a in arrays)
    made: list[Wanted] = []
    if _apart(sides):
        spans = _spans([left, right, *(x for side in sides for x in side)])
        names = _names(spans, sides, "LEFT END", "RIGHT END")
        made += [
            Wanted(f"{on.name}: {name}", _eave_ways(on, a, b, _nearest(arrays, a, b)))
            for name, (a, b) in zip(names, spans, strict=True)
        ]
    else:
        for array in arrays:
            box = array.frames
            for name, a, b in ((f"{array.id} WIDTH", box.x0, box.x1),) + (
                ((f"{array.id} FROM LEFT END", left, box.x0),) if box.x0 > left + 1 else ()
            ):
                made.append(Wanted(f"{on.name}: {name}", _beside_ways(on, a, b, array)))
    if right - left > _ONE_PLACE_IN:
        outside = [on.along(left, right, -row_offset(row), "b") for row in (2, 3, 4)]
        inside = [
            on.along(left, right, 0.0, "b", share, v) for v in _between(arrays) for share in _SHARES
        ]
        made.append(Wanted(f"{on.name}: EAVE", on.best_first(outside, inside)))
    return made


def _between(arrays: list[PlacedArray]) -> list[float]:
    """Levels near the eave at which no array stands."""
    lowest = min(array.hardware.y0 for array in arrays)
    return [lowest / 2] if lowest > _OFF_ARRAY_IN else []


def _eave_ways(on: _OnPlane, u0: float, u1: float, near: PlacedArray) -> tuple[Dimension, ...]:
    """In the chain; a figure that would stand over its neighbor's span, rather by itself."""
    left, right = on.ends
    ends = ("a", "b") if u0 == left else ("b", "a")
    chained = [on.along(u0, u1, -row_offset(1), end) for end in ends]
    outermost, fits = u0 == left or u1 == right, chained[0] == chained[1]
    ways = [
        on.along(u0, u1, -row_offset(row), end, share)
        for row in ((1, 0) if outermost or fits else (0, 1))
        for end in ends
        for share in _SHARES
    ]
    return on.best_first(ways, _beside_ways(on, u0, u1, near))


def _beside_ways(on: _OnPlane, u0: float, u1: float, array: PlacedArray) -> tuple[Dimension, ...]:
    """Just below the array, or above it."""
    places = ((array.hardware.y0, -1.0), (array.hardware.y1, 1.0))
    return distinct(
        on.along(u0, u1, way * gap, end, share, v)
        for gap in _BESIDE_ARRAY
        for v, way in places
        for end in ("b", "a")
        for share in _SHARES
    )


def _up_slope(on: _OnPlane, arrays: list[PlacedArray]) -> list[Wanted]:
    """Eave to array to top beside the left end, then the whole slope; else array by array."""
    rows = _distinct_spans((a.frames.y0, a.frames.y1) for a in arrays)
    made: list[Wanted] = []
    if _apart(rows):
        spans = _spans([0.0, on.top, *(y for row in rows for y in row)])
        names = _names(spans, rows, "EAVE", "RIDGE" if on.rectangular else "TOP")
        made += [
            Wanted(f"{on.name}: {name}", _slope_ways(on, a, b, arrays))
            for name, (a, b) in zip(names, spans, strict=True)
        ]
    else:
        for array in arrays:
            box = array.frames
            made.append(
                Wanted(f"{on.name}: {array.id} HEIGHT", _side_ways(on, box.y0, box.y1, [array]))
            )
            if box.y0 > 1:
                name = f"{on.name}: {array.id} FROM EAVE"
                made.append(Wanted(name, _side_ways(on, 0.0, box.y0, [array])))
    outside = [on.up(0.0, on.top, row_offset(row), "b") for row in range(1, 3 + _ROWS_OUT)]
    inside = [
        on.up(0.0, on.top, 0.0, "b", u, share) for u in on.free_of(arrays) for share in _SHARES
    ]
    whole = outside if on.rectangular else [*inside, *outside]
    return [*made, Wanted(f"{on.name}: EAVE TO TOP", on.best_first(whole))]


def _slope_ways(
    on: _OnPlane, v0: float, v1: float, arrays: list[PlacedArray]
) -> tuple[Dimension, ...]:
    ends = ("a", "b") if v0 == 0 else ("b", "a")
    outside = [
        on.up(v0, v1, way * row_offset(row), end, u)
        for u, way in zip(on.ends, (1.0, -1.0), strict=True)
        for row in (0, *range(2, 2 + _ROWS_OUT), 1)
        for end in ends
    ]
    beside = _side_ways(on, v0, v1, arrays)
    return on.best_first(*((outside, beside) if on.rectangular else (beside, outside)))


def _side_ways(
    on: _OnPlane, v0: float, v1: float, arrays: list[PlacedArray]
) -> tuple[Dimension, ...]:
    """Just left of the first array, or right of the last."""
    left, right = min(a.frames.x0 for a in arrays), max(a.frames.x1 for a in arrays)
    return distinct(
        on.up(v0, v1, way * gap, end, u, share)
        for gap in _BESIDE_ARRAY
        for u, way in ((left, 1.0), (right, -1.0))
        for end in ("a", "b")
        for share in _SHARES
    )


def _overall(design: Design, view: View) -> list[Wanted]:
    """The depth and the length of the house in plan, where no eave gives them."""
    box = box_around(p for plane in design.roof.planes_of("") for p in plane.outline)
    rows = (0, *range(2, 3 + _ROWS_OUT))
    made: list[Wanted] = []
    if not _given_by_an_eave(design, box.height, upright=True):
        deep = [
            _plain(view, (x, box.y0), (x, box.y1), away)
            for row in rows
            for x, away in ((box.x1, -row_offset(row)), (box.x0, row_offset(row)))
        ]
        made.append(Wanted("ROOF DEPTH", tuple(deep)))
    if not _given_by_an_eave(design, box.width, upright=False):
        across = [
            _plain(view, (box.x0, y), (box.x1, y), away)
            for row in rows
            for y, away in ((box.y1, row_offset(row)), (box.y0, -row_offset(row)))
        ]
        made.append(Wanted("ROOF LENGTH", tuple(across)))
    return made


def _given_by_an_eave(design: Design, length: float, *, upright: bool) -> bool:
    """Whether the eave of a plane with arrays runs along a whole side of the house."""
    return any(
        abs(array.plane.along[0 if upright else 1]) < _ONE_PLACE_IN
        and abs(max(u for u, v in array.plane.surface_outline if v < _AT_EAVE_IN) - length) < 1
        for array in design.arrays
        if not array.plane.building
    )


def _under(u: float, array: PlacedArray) -> bool:
    return array.frames.x0 - _OFF_ARRAY_IN < u < array.frames.x1 + _OFF_ARRAY_IN


def _plain(view: View, a: Point, b: Point, away: float) -> Dimension:
    ends = (view.on_paper.apply(a), view.on_paper.apply(b))
    return dimension(*ends, away, LAYER, view.scale.factor, suffix="IN PLAN")


def _nearest(arrays: list[PlacedArray], u0: float, u1: float) -> PlacedArray:
    middle = (u0 + u1) / 2
    return min(arrays, key=lambda array: abs(array.frames.center[0] - middle))


_Spans = list[tuple[float, float]]


def _distinct_spans(given: Iterable[tuple[float, float]]) -> _Spans:
    """The spans in order, those that are one only once."""
    made: _Spans = []
    for a, b in sorted(given):
        if not made or max(abs(a - made[-1][0]), abs(b - made[-1][1])) > 0.25:
            made.append((a, b))
    return made


def _apart(spans: _Spans) -> bool:
    return all(one[1] <= other[0] + _ONE_PLACE_IN for one, other in pairwise(spans))


def _names(spans: _Spans, arrays: _Spans, first: str, last: str) -> list[str]:
    """What each span of a chain runs between, its ends named."""
    places = [first, *(f"STATION {number}" for number in range(1, len(spans))), last]
    if len(arrays) == 1 and len(spans) == 3:
        places[1:3] = ["ARRAY", "ARRAY"]
    return ["ARRAY" if a == b else f"{a} TO {b}" for a, b in pairwise(places)]


def _spans(stations: list[float]) -> _Spans:
    """From station to station, in order."""
    return [(a, b) for a, b in pairwise(sorted(stations)) if b - a > _ONE_PLACE_IN]
