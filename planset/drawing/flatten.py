"""From primitives to strokes and words on paper: blocks expanded, arcs as short chords."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from planset.drawing.geometry import Box, Placement, Point, box_around, distance
from planset.drawing.layers import INHERITED, LAYERS, Layer
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

SAGITTA = 0.001  # how far a chord may stand off its arc [paper in]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line or the outline of a filled area, as plotted.

    Attributes:
        points: Its course [paper in].
        layer: The layer whose pen draws it.
        filled: Whether what it goes around is filled.
    """

    points: tuple[Point, ...]
    layer: Layer
    filled: bool = False


def strokes(
    primitives: Iterable[Primitive],
    placement: Placement,
    blocks: Mapping[str, Block],
    inherited: str = INHERITED,
) -> Iterator[Stroke]:
    """All plotted lines of the primitives, text left out.

    Args:
        primitives: What is drawn.
        placement: From their coordinates to paper.
        blocks: The blocks that insertions name.
        inherited: The layer that stands in for layer "0".
    """
    for part in primitives:
        match part:
            case Insert():
                layer = inherited if part.layer == INHERITED else part.layer
                inner = Placement(part.at, part.rotation_deg, part.scale).within(placement)
                yield from strokes(blocks[part.block].primitives, inner, blocks, layer)
            case Dimension() | Leader():
                yield from strokes(part.marks, placement, blocks, inherited)
            case Text() | Link():
                pass
            case _:
                layer_of = LAYERS[inherited if part.layer == INHERITED else part.layer]
                if layer_of.plotted:
                    points = placement.apply_all(course(part, placement.scale))
                    yield Stroke(points, layer_of, isinstance(part, Area))


def texts(
    primitives: Iterable[Primitive], placement: Placement, blocks: Mapping[str, Block]
) -> Iterator[Text]:
    """All lines of text of the primitives, on paper; those on unplotted layers too.

    Args:
        primitives: What is drawn.
        placement: From their coordinates to paper.
        blocks: The blocks that insertions name.
    """
    for part in primitives:
        match part:
            case Text():
                yield replace(
                    part,
                    at=placement.apply(part.at),
                    height=part.height * placement.scale,
                    rotation_deg=part.rotation_deg + placement.rotation_deg,
                )
            case Insert():
                inner = Placement(part.at, part.rotation_deg, part.scale).within(placement)
                yield from texts(blocks[part.block].primitives, inner, blocks)
                shown = [attribute.text for attribute in part.attributes if attribute.text]
                yield from texts(shown, placement, blocks)
            case Dimension() | Leader():
                yield from texts(part.marks, placement, blocks)
            case _:
                pass


def text_corners(text: Text, slack: float = 1.0, around: float = 0.0) -> tuple[Point, ...]:
    """The corners of a line of text at any rotation, with some room around it [in]."""
    box = text_box(text.text, (0.0, 0.0), text.height, text.align, slack=slack).grown(around)
    turned = Placement(text.at, text.rotation_deg)
    return turned.apply_all(box.corners)


def rotated_text_box(text: Text, slack: float = 1.0) -> Box:
    """The axis-parallel box around a line of text at any rotation [in]."""
    if not text.rotation_deg:
        own = text_box(text.text, (0.0, 0.0), text.height, text.align, slack=slack)
        return own.moved(*text.at)
    return box_around(text_corners(text, slack))


def course(part: Line | Polyline | Circle | Area, scale: float) -> list[Point]:
    """The points a shape runs through, in its own coordinates, fine enough when plotted.

    Args:
        part: The shape.
        scale: Paper inches per inch of its coordinates.
    """
    match part:
        case Line():
            return [part.a, part.b]
        case Circle():
            return _arc(part.center, part.radius, 0.0, 2 * math.pi, scale)
        case Area():
            return [*part.points, part.points[0]]
        case Polyline():
            points = [*part.points, part.points[0]] if part.closed else list(part.points)
            if not any(part.bulges):
                return points
            made = points[:1]
            for start, end, bulge in zip(points, points[1:], part.bulges, strict=False):
                made += _bulged(start, end, bulge, scale)
            return made


def _bulged(start: Point, end: Point, bulge: float, scale: float) -> list[Point]:
    """The points after `start` of a segment whose middle stands off `bulge` half chords."""
    chord = distance(start, end)
    if not bulge or not chord:
        return [end]
    off = (1 - bulge * bulge) / (4 * bulge)  # of the center from the chord, in chords, to the left
    center = (
        (start[0] + end[0]) / 2 - (end[1] - start[1]) * off,
        (start[1] + end[1]) / 2 + (end[0] - start[0]) * off,
    )
    begin = math.atan2(start[1] - center[1], start[0] - center[0])
    points = _arc(center, distance(center, start), begin, 4 * math.atan(bulge), scale)
    return [*points[1:-1], end]


def _arc(center: Point, radius: float, begin: float, sweep: float, scale: float) -> list[Point]:
    """Both ends of an arc and points between them; angles in radians."""
    plotted = max(radius * scale, SAGITTA)
    step = 2 * math.acos(max(0.0, 1 - SAGITTA / plotted))
    count = max(1, math.ceil(abs(sweep) / step - 1e-9))
    turns = (begin + sweep * n / count for n in range(count + 1))
    return [(center[0] + radius * math.cos(t), center[1] + radius * math.sin(t)) for t in turns]
