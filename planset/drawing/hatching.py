"""Hatching as plain lines, so that every reader shows the same thing."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Polygon, STRtree, union_all
from shapely.affinity import rotate

from planset.drawing.geometry import Point
from planset.drawing.primitives import Line

_LEAST_IN = 1e-3  # where a corner is hardly touched; readers drop what is next to nothing


def hatch(
    outline: tuple[Point, ...],
    spacing: float,
    angle_deg: float,
    layer: str,
    holes: tuple[tuple[Point, ...], ...] = (),
) -> tuple[Line, ...]:
    """Parallel lines that fill a polygon.

    Args:
        outline: Corners [in].
        spacing: Distance between lines, in the same inches.
        angle_deg: Direction of the lines, counterclockwise [deg].
        layer: Layer of the lines.
        holes: Polygons left free.
    """
    area = Polygon(outline).difference(union_all([Polygon(hole) for hole in holes]))
    # The lines of all areas of one angle lie on one grid, so neighbors read as one field.
    level = rotate(area, -angle_deg, origin=(0, 0))
    x0, y0, x1, y1 = level.bounds
    heights = [n * spacing for n in range(math.ceil(y0 / spacing), math.floor(y1 / spacing) + 1)]
    across = np.array([[(x0 - 1, y), (x1 + 1, y)] for y in heights]).reshape(-1, 2, 2)
    cut = shapely.get_parts(shapely.intersection(level, shapely.linestrings(across)))
    # A corner that is touched is a point.
    pieces = [p for p in cut if isinstance(p, LineString) and p.length > _LEAST_IN]
    turned = rotate(MultiLineString(pieces), angle_deg, origin=(0, 0))
    ends = [(piece.coords[0], piece.coords[-1]) for piece in turned.geoms]
    return tuple(Line((a[0], a[1]), (b[0], b[1]), layer) for a, b in ends)


def outside(lines: Iterable[Line], holes: Sequence[Sequence[Point]], least: float) -> list[Line]:
    """The pieces of lines that lie in none of the holes.

    Args:
        lines: The lines [in].
        holes: Corners of each polygon to leave free [in].
        least: Length of the shortest piece kept of a line that is cut [in].
    """
    polygons = [Polygon(hole) for hole in holes]
    tree = STRtree(polygons)
    made: list[Line] = []
    for line in lines:
        whole = LineString((line.a, line.b))
        met = [polygons[n] for n in tree.query(whole, predicate="intersects")]
        if not met:
            made.append(line)
            continue
        for piece in shapely.get_parts(whole.difference(union_all(met))):
            if piece.length > least:
                (ax, ay), (bx, by) = piece.coords
                made.append(Line((ax, ay), (bx, by), line.layer))
    return made
