"""Legends of plans: what a line, an outline or a hatch stands for."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from planset.drawing.geometry import Box, Point
from planset.drawing.layers import LAYERS, LINETYPES
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.drawing.table import Table
from planset.drawing.text import NOTE_HEIGHT, SUBTITLE_HEIGHT
from planset.sheets.note_table import TEXT_LAYER

_PITCH = 0.19
_SWATCH = 0.42
_MARKS_SHARE = 0.4  # of a sample's width that the short marks of a long pattern take

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
    """A line on a layer; where its pattern is too long for a sample, one repeat drawn small."""
    dash, *rest = LINETYPES[LAYERS[layer].linetype] or (0.0,)

    def draw(box: Box) -> list[Primitive]:
        if dash <= box.width:
            return [_level(box, box.x0, box.x1, layer)]
        small = min(1.0, _MARKS_SHARE * box.width / sum(rest))
        lengths = [length * small for length in rest]
        left = box.center[0] - sum(lengths) / 2
        made: list[Primitive] = [_level(box, box.x0, left, layer)]
        for gap, mark in zip(lengths[::2], (*lengths[1::2], None), strict=True):
            left += gap
            right = box.x1 if mark is None else left + mark
            made.append(_level(box, left, right, layer))
            left = right
        return made

    return draw


def _level(box: Box, x0: float, x1: float, layer: str) -> Line:
    return Line((x0, box.center[1]), (x1, box.center[1]), layer)


def outline(layer: str) -> Draw:
    """An outline on a layer."""
    return lambda box: [Polyline(box.corners, layer, closed=True)]
