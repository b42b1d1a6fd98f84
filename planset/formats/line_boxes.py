"""The exact box of the lines a block draws; what is only written has no part in it."""

from __future__ import annotations

import math
from collections.abc import Mapping

from ezdxf.math import ConstructionArc, bulge_to_arc

from planset.drawing.geometry import Box, Placement, box_around, united
from planset.drawing.primitives import Area, Block, Circle, Insert, Line, Polyline, Primitive
from planset.formats.block_order import dependency_order


def line_boxes(blocks: Mapping[str, Block]) -> dict[str, Box]:
    """The box of each block that draws a line, insertions of other blocks included [in].

    An insertion turned by other than a multiple of 90 degrees counts with the corners of its
    block's box.

    Raises:
        graphlib.CycleError: A block inserts itself, directly or through others.
    """
    boxes: dict[str, Box] = {}
    for block in dependency_order(blocks):
        parts = [_line_box(item, boxes) for item in block.primitives]
        drawn = [part for part in parts if part is not None]
        if drawn:
            boxes[block.name] = united(drawn)
    return boxes


def _line_box(item: Primitive, boxes: Mapping[str, Box]) -> Box | None:
    match item:
        case Line(a, b):
            return box_around((a, b))
        case Area(points):
            return box_around(points)
        case Circle((x, y), radius):
            return Box(x, y, x, y).grown(radius)
        case Polyline():
            return _polyline_box(item)
        case Insert(block, at, _, rotation, scale) if block in boxes:
            placed = Placement(at, rotation, scale)
            return box_around(placed.apply(corner) for corner in boxes[block].corners)
    return None


def _polyline_box(item: Polyline) -> Box:
    box = box_around(item.points)
    following = item.points[1:] + (item.points[:1] if item.closed else ())
    for start, end, bulge in zip(item.points, following, item.bulges, strict=False):
        if bulge and start != end:
            center, first, last, radius = bulge_to_arc(start, end, bulge)
            arc = ConstructionArc(center, radius, math.degrees(first), math.degrees(last))
            low, high = arc.bounding_box
            box = united((box, Box(low.x, low.y, high.x, high.y)))
    return box
