"""Dimensions of the site plan: walls to property lines, rounded down."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planset.design.site import Body, LotLine, Site
from planset.design.site_distances import apart_in, nearest_points_to
from planset.drawing.dimension import dimension
from planset.drawing.geometry import Point, distance
from planset.drawing.page import View
from planset.sheets.wanted import Wanted, distinct
from planset.units import judged_denominator

LAYER = "C-ANNO-DIMS"

_SHARES = (
    0.4,
    0.6,
    0.25,
    0.75,
    0.5,
    0.2,
    0.8,
    0.1,
    0.9,
    0.0,
    1.0,
)  # of a wall, where a line may start
_AS_NEAR_IN = 0.01
_LEAST_IN = 1.0  # walls nearer than that to a line have no room for a dimension


def dimensions(site: Site, view: View) -> tuple[Wanted, ...]:
    """The house to every property line, each other building and structure to its nearest one."""
    house, *others = (*site.buildings, *site.structures)
    pairs = [(house, line) for line in site.lines]
    pairs += [(one, min(site.lines, key=lambda line: apart_in(one, line))) for one in others]
    wanted = (_wanted(body, line, view) for body, line in pairs if apart_in(body, line) > _LEAST_IN)
    return tuple(wanted)


def _wanted(body: Body, line: LotLine, view: View) -> Wanted:
    factor, at = view.scale.factor, view.on_paper.apply
    ways = [
        dimension(
            at(here),
            at(there),
            0.0,
            LAYER,
            factor,
            rounding="down",
            denominator=judged_denominator(apart_in(body, line)),
            suffix="CLEAR",
            beyond=beyond,
            share=share,
        )
        for beyond in ("b", "a")
        for share in (0.5, 0.3, 0.7)
        for here, there in nearest_pairs(body, line)
    ]
    return Wanted(f"{body.id} TO {line.id}", distinct(ways))


def nearest_pairs(body: Body, line: LotLine) -> list[tuple[Point, Point]]:
    """Points of the walls as near to a property line as any, each with its foot on the line.

    Of walls along the line these are many, those in the middle of them first.
    """
    least = apart_in(body, line)
    found = [
        (point, foot)
        for share in _SHARES
        for point in _on_walls(body, share)
        if (foot := _foot(point, line)) and distance(point, foot) <= least + _AS_NEAR_IN
    ]
    return found or [nearest_points_to(body, line)]


def _on_walls(body: Body, share: float) -> Iterator[Point]:
    for ring in body.rings:
        for (x0, y0), (x1, y1) in pairwise((*ring, ring[0])):
            yield (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)


def _foot(point: Point, line: LotLine) -> Point | None:
    """Where a point meets a property line square to it, None past the ends."""
    (x0, y0), (x1, y1) = line.a, line.b
    along = (point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)
    part = along / line.length_in**2
    return (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part) if 0 <= part <= 1 else None
