"""Words and diagrams drawn larger as a whole: text, rules and symbols grow alike."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import (
    Area,
    Attribute,
    Circle,
    Dimension,
    Insert,
    Leader,
    Line,
    Link,
    Polyline,
    Primitive,
    Text,
)


def reduced(box: Box, factor: float) -> Box:
    """The box that becomes `box` when it is enlarged."""
    return Box(box.x0 / factor, box.y0 / factor, box.x1 / factor, box.y1 / factor)


def enlarged(parts: Iterable[Primitive], factor: float) -> tuple[Primitive, ...]:
    """The parts as many times as large, away from the lower left corner of the sheet.

    Args:
        parts: What is drawn [paper in].
        factor: How many times as large.

    Raises:
        TypeError: A dimension is among the parts: enlarged, it would state a wrong length.
    """
    return tuple(_enlarged(part, factor) for part in parts)


def _enlarged(part: Primitive, factor: float) -> Primitive:
    match part:
        case Text():
            return _text(part, factor)
        case Leader():
            marks = tuple(_shape(mark, factor) for mark in part.marks)
            return replace(part, points=_points(part.points, factor), marks=marks)
        case Insert():
            shown = tuple(_attribute(attribute, factor) for attribute in part.attributes)
            at, scale = _point(part.at, factor), part.scale * factor
            return replace(part, at=at, scale=scale, attributes=shown)
        case Link():
            lower_left, upper_right = _points((part.lower_left, part.upper_right), factor)
            return replace(part, lower_left=lower_left, upper_right=upper_right)
        case Dimension():
            msg = f"the dimension {part.text} cannot be enlarged; draw it at the size of its sheet"
            raise TypeError(msg)
        case _:
            return _shape(part, factor)


def _shape(part: Line | Polyline | Circle | Area, factor: float) -> Line | Polyline | Circle | Area:
    match part:
        case Line():
            return replace(part, a=_point(part.a, factor), b=_point(part.b, factor))
        case Circle():
            return replace(part, center=_point(part.center, factor), radius=part.radius * factor)
        case Polyline() | Area():
            return replace(part, points=_points(part.points, factor))


def _text(part: Text, factor: float) -> Text:
    return replace(part, at=_point(part.at, factor), height=part.height * factor)


def _attribute(part: Attribute, factor: float) -> Attribute:
    return replace(part, text=part.text and _text(part.text, factor))


def _point(point: Point, factor: float) -> Point:
    return (point[0] * factor, point[1] * factor)


def _points(points: tuple[Point, ...], factor: float) -> tuple[Point, ...]:
    return tuple(_point(point, factor) for point in points)
