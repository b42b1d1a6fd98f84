"""The boxes around what primitives draw, never smaller than what they hold."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping

from planset.drawing.geometry import Box, Placement, Point, box_around, distance
from planset.drawing.primitives import (
    Area,
    Block,
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
from planset.drawing.text import text_box


class BlockBoxes(dict[str, Box | None]):
    """The box around each block in its own frame [in], None for one that draws nothing.

    Each is worked out when it is first asked for.

    Args:
        blocks: The blocks by name.

    Raises:
        KeyError: When asked for a block that is not there, or that inserts one.
    """

    def __init__(self, blocks: Mapping[str, Block]) -> None:
        super().__init__()
        self._blocks = blocks

    def __missing__(self, name: str) -> Box | None:
        box = self[name] = extent(self._blocks[name].primitives, self)
        return box

    def meets(self, block: str, place: Placement, window: Box) -> bool:
        """Whether any of a block, placed, may lie in a window; what lies outside surely does not.

        Args:
            block: Its name.
            place: From the block to where the window is.
            window: The window.
        """
        box = self[block]
        if box is None:
            return False
        middle, reach = place.apply(box.center), math.hypot(box.width, box.height) / 2 * place.scale
        return window.overlaps(Box(*middle, *middle).grown(reach))


def extent(primitives: Iterable[Primitive], boxes: Mapping[str, Box | None]) -> Box | None:
    """A box that holds the primitives (never smaller than they are), None for none [in]."""
    points = list(_outlines(primitives, boxes))
    return box_around(points) if points else None


def _outlines(primitives: Iterable[Primitive], boxes: Mapping[str, Box | None]) -> Iterator[Point]:
    for part in primitives:
        yield from _outline(part, boxes)


def _outline(part: Primitive, boxes: Mapping[str, Box | None]) -> Iterator[Point]:
    match part:
        case Line():
            yield part.a
            yield part.b
        case Polyline():
            yield from _polyline_outline(part)
        case Circle():
            yield from Box(*part.center, *part.center).grown(part.radius).corners
        case Area():
            yield from part.points
        case Text():
            yield from _text_outline(part)
        case Dimension():
            yield part.a
            yield part.b
            yield from _outlines(part.marks, boxes)
        case Leader():
            yield from _outlines(part.marks, boxes)
        case Insert():
            box = boxes[part.block]
            if box:
                place = Placement(part.at, part.rotation_deg, part.scale)
                yield from map(place.apply, box.corners)
            for attribute in part.attributes:
                if attribute.text:
                    yield from _text_outline(attribute.text)
        case Link():
            pass


def _polyline_outline(part: Polyline) -> Iterator[Point]:
    """Vertices, and for an arc a square about each end that is as wide as the arc is high."""
    yield from part.points
    following = (*part.points[1:], part.points[0])
    for start, end, bulge in zip(part.points, following, part.bulges, strict=False):
        height = abs(bulge) * distance(start, end) / 2
        for point in (start, end):
            yield from Box(*point, *point).grown(height).corners


def _text_outline(part: Text) -> Iterator[Point]:
    place = Placement(part.at, part.rotation_deg)
    corners = text_box(part.text, (0.0, 0.0), part.height, part.align).corners
    yield from map(place.apply, corners)
