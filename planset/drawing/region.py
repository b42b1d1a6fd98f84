"""Parts of a plan or a sheet of any outline: what words may stand in, what lines may cross."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.polygon import orient
from shapely.ops import polylabel

from planset.drawing.geometry import Box, Point

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_STRAIGHT = 0.01  # a corner of an outline that stands out no further is none [in]
_WIDEST_WITHIN = 0.1  # how near the widest spot is found [in]
_ONE_LINE = 1e-4  # how far apart two lines are drawn as one [in]
_FULL = 0.99  # of its box, from which a region counts as a rectangle


class Region:
    """A part of the plane, in one piece or several.

    Args:
        shape: Its geometry [in].
    """

    def __init__(self, shape: BaseGeometry) -> None:
        self._shape = shape
        shapely.prepare(shape)

    @classmethod
    def of(cls, ring: Iterable[Point], holes: Iterable[Sequence[Point]] = ()) -> Region:
        """The inside of a ring of corners, without holes."""
        return cls(shapely.Polygon(list(ring), list(holes)))

    @classmethod
    def joined(cls, regions: Iterable[Region], gap: float = 0.0) -> Region:
        """Several as one, gaps between them no wider than twice `gap` closed."""
        whole = shapely.union_all([region._shape for region in regions])
        if gap:
            whole = whole.buffer(gap, join_style="mitre").buffer(-gap, join_style="mitre")
        return cls(whole)

    @property
    def is_empty(self) -> bool:
        """Whether nothing is left of it."""
        return bool(self._shape.is_empty)

    @property
    def box(self) -> Box:
        """The box around it."""
        return Box(*self._shape.bounds)

    @property
    def is_rectangle(self) -> bool:
        """Whether it fills the box around it, or nearly."""
        return float(self._shape.area) > _FULL * self.box.width * self.box.height

    @property
    def inner_point(self) -> Point:
        """A point inside."""
        point = self._shape.representative_point()
        return (point.x, point.y)

    @property
    def widest_spot(self) -> Point:
        """The point with most room around it, in its largest part."""
        parts = [part for part in shapely.get_parts(self._shape) if part.geom_type == "Polygon"]
        return _widest_spot(max(parts, key=lambda part: part.area))

    @property
    def rings(self) -> list[tuple[Point, ...]]:
        """Its outlines and holes, each from its lowest corner on the left."""
        parts = [part for part in shapely.get_parts(self._shape) if part.geom_type == "Polygon"]
        straight = [orient(part.simplify(_STRAIGHT)) for part in parts]
        return [
            _from_the_first([(x, y) for x, y in list(ring.coords)[:-1]])
            for part in straight
            for ring in (part.exterior, *part.interiors)
        ]

    def grown(self, by: float) -> Region:
        """With its outline moved outward, inward when negative."""
        return Region(self._shape.buffer(by, join_style="mitre"))

    def within(self, box: Box) -> Region:
        """What lies in a box."""
        return Region(self._shape.intersection(shapely.box(box.x0, box.y0, box.x1, box.y1)))

    def less(self, *others: Region) -> Region:
        """Without what others cover."""
        return Region(self._shape.difference(shapely.union_all([o._shape for o in others])))

    def less_strips(self, strips: Iterable[tuple[Point, Point, float]]) -> Region:
        """Without what lies nearer to lines than a distance, their ends drawn out by it."""
        cut = [
            shapely.LineString((a, b)).buffer(by, cap_style="square", join_style="mitre")
            for a, b, by in strips
            if by
        ]
        return Region(self._shape.difference(shapely.union_all(cut)))

    def holds(self, box: Box) -> bool:
        """Whether a box lies inside."""
        return bool(self._shape.contains(shapely.box(box.x0, box.y0, box.x1, box.y1)))

    def holds_rings(self, rings: Sequence[Sequence[Point]]) -> list[bool]:
        """Whether the inside of each ring lies inside; all have as many corners."""
        held: list[bool] = shapely.contains(self._shape, shapely.polygons(list(rings))).tolist()
        return held

    def holds_point(self, point: Point) -> bool:
        """Whether a point lies inside."""
        return bool(self._shape.contains(shapely.Point(point)))

    def meets(self, box: Box) -> bool:
        """Whether it shares any point with a box."""
        return bool(self._shape.intersects(shapely.box(box.x0, box.y0, box.x1, box.y1)))

    def meets_each(self, boxes: Sequence[Box]) -> list[bool]:
        """What `meets` tells of each box; quicker for many."""
        edges = np.array(boxes).reshape(-1, 4).T
        met: list[bool] = shapely.intersects(self._shape, shapely.box(*edges)).tolist()
        return met

    def crossed_by(self, a: Point, b: Point) -> bool:
        """Whether it shares any point with a line."""
        return bool(self._shape.intersects(shapely.LineString((a, b))))

    def crossed_by_each(self, lines: Sequence[tuple[Point, Point]]) -> list[bool]:
        """What `crossed_by` tells of each line; quicker for many."""
        crossed: list[bool] = shapely.intersects(self._shape, _straight_lines(lines)).tolist()
        return crossed

    def length_along(self, a: Point, b: Point) -> float:
        """How much of a line lies inside [in]."""
        return float(self._shape.intersection(shapely.LineString((a, b))).length)

    def length_along_each(self, lines: Sequence[tuple[Point, Point]]) -> list[float]:
        """What `length_along` tells of each line; quicker for many [in]."""
        inside = shapely.intersection(self._shape, _straight_lines(lines))
        lengths: list[float] = shapely.length(inside).tolist()
        return lengths

    def outline_passes(self, point: Point, within: float) -> bool:
        """Whether its outline passes a point, no farther off than so [in]."""
        return bool(self._shape.boundary.distance(shapely.Point(point)) < within)


@lru_cache(maxsize=256)  # of one part it is asked for each of its words, at each size tried
def _widest_spot(part: shapely.Polygon) -> Point:
    point = polylabel(part, tolerance=_WIDEST_WITHIN)
    return (point.x, point.y)


def outlines_once(rings: Iterable[Sequence[Point]]) -> list[tuple[Point, ...]]:
    """The outlines of neighbors as lines, what two of them share drawn once.

    Args:
        rings: Corners of each outline [in].

    Returns:
        Lines from fork to fork, and outlines that meet no other, closed by their first corner.
    """
    outlines = [shapely.LinearRing(list(ring)) for ring in rings]
    pieces = shapely.line_merge(shapely.union_all(outlines, grid_size=_ONE_LINE))
    straight = shapely.get_parts(shapely.simplify(pieces, _ONE_LINE))
    return sorted(tuple((x, y) for x, y in piece.coords) for piece in straight)


def _straight_lines(lines: Sequence[tuple[Point, Point]]) -> NDArray[np.object_]:
    made: NDArray[np.object_] = shapely.linestrings(np.array(lines).reshape(-1, 2, 2))
    return made


def _from_the_first(corners: list[Point]) -> tuple[Point, ...]:
    first = corners.index(min(corners))
    return (*corners[first:], *corners[:first])
