"""Drawn things as shapely shapes, for tests that ask where they lie."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from shapely import box
from shapely.geometry import LineString, Polygon

from planset.drawing.geometry import Box, Placement
from planset.drawing.primitives import Line, Primitive, Text
from planset.drawing.text import text_box

Kind = TypeVar("Kind", bound=Primitive)


def of_kind(parts: Iterable[Primitive], kind: type[Kind]) -> list[Kind]:
    return [part for part in parts if isinstance(part, kind)]


def text_shape(text: Text, slack: float = 1.0) -> Polygon:
    """The rectangle a text covers, turned as it is, descenders included."""
    own = text_box(text.text, (0.0, 0.0), text.height, text.align, slack=slack)
    turned = Placement(text.at, text.rotation_deg)
    return Polygon([turned.apply(corner) for corner in own.corners])


def line_shape(line: Line) -> LineString:
    return LineString([line.a, line.b])


def box_shape(area: Box) -> Polygon:
    return box(area.x0, area.y0, area.x1, area.y1)
