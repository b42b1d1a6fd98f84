"""Legends of plans: what a line, an outline or a hatch stands for."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Circle, Line, Polyline, Primitive, Text
from planset.drawing.table import Table
from planset.drawing.text import NOTE_HEIGHT, SUBTITLE_HEIGHT
from planset.sheets.note_table import TEXT_LAYER

_PITCH = 0.19
_SWATCH = 0.42

Draw = Callable[[Box], list[Primitive]]
"""Draws a sample into a box [paper in]."""


def legend(
    swatches: Iterable[tuple[str, Draw]], at: Point, width: float, title: str = "LEGEND"
) -> Table:
    """Samples with their words, one below the other.

    Args:
        swatches: Words, and what draws the sample.
        at: Upper left corner [paper in].
        width: Width of the column [in].
        title: Words above them.
    """
    x, top = at
    made: list[Primitive] = [Text(title, (x, top - SUBTITLE_HEIGHT), SUBTITLE_HEIGHT, TEXT_LAYER)]
    level = top - SUBTITLE_HEIGHT - 0.19
    for words, draw in swatches:
        made += draw(Box(x, level - 0.06, x + _SWATCH, level + 0.06))
        at_words = (x + _SWATCH + 0.1, level - NOTE_HEIGHT / 2)
        made.append(Text(words, at_words, NOTE_HEIGHT, TEXT_LAYER))
        level -= _PITCH
    return Table(Box(x, level + _PITCH - 0.08, x + width, top), tuple(made))


def line(layer: str) -> Draw:
    """A line on a layer."""
    return lambda box: [Line((box.x0, box.center[1]), (box.x1, box.center[1]), layer)]


def outline(layer: str) -> Draw:
    """An outline on a layer."""
    return lambda box: [Polyline(box.corners, layer, closed=True)]


def rail_and_attachment(box: Box) -> list[Primitive]:
    """Two lines and a dot."""
    y = box.center[1]
    half = 0.012
    return [
        Line((box.x0, y - half), (box.x1, y - half), "S-ROOF-ANCH"),
        Line((box.x0, y + half), (box.x1, y + half), "S-ROOF-ANCH"),
        Circle(box.center, 0.03, "S-ROOF-ANCH"),
    ]
