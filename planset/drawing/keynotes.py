"""Notes in a column beside a detail, each with a leader to what it names."""

from __future__ import annotations

from dataclasses import dataclass

from planset.drawing.dimension import leader
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Primitive, Text
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, wrap

_SHOULDER = 1 / 8
_TEXT_GAP = 0.05
_NOTE_GAP = 0.09


class ColumnFullError(ValueError):
    """The notes are taller than their column."""


@dataclass(frozen=True, slots=True)
class Keynote:
    """One note.

    Attributes:
        words: The note.
        anchor: What it names [paper in].
        end: End of its leader, "arrow" on an edge or "dot" on a surface.
    """

    words: str
    anchor: Point
    end: str = "arrow"


def keynote_column(
    notes: list[Keynote], column: Box, text_layer: str, leader_layer: str
) -> tuple[Primitive, ...]:
    """Place notes in the order of what they name, so that no two leaders cross.

    Args:
        notes: The notes, in any order.
        column: Where the words stand, left or right of everything named [paper in].
        text_layer: Layer of the words.
        leader_layer: Layer of the leaders.

    Raises:
        ColumnFullError: The notes do not fit the column.
    """
    ordered = sorted(notes, key=lambda note: -note.anchor[1])
    lines = {note: wrap(note.words, NOTE_HEIGHT, column.width) for note in ordered}
    for _ in range(len(ordered) ** 2):
        placed = _placed(ordered, lines, column)
        crossed = _first_crossing(placed)
        if crossed is None:
            break
        ordered[crossed], ordered[crossed + 1] = ordered[crossed + 1], ordered[crossed]
    made: list[Primitive] = []
    for note, top, course in placed:
        made += _words(lines[note], top, column, text_layer, flush_left=course[0] > note.anchor)
        made.append(leader(course, leader_layer, end=note.end))
    return tuple(made)


_Placed = list[tuple[Keynote, float, tuple[Point, ...]]]
"""Notes from the top, each with the top of its words and the course of its leader."""


def _placed(ordered: list[Keynote], lines: dict[Keynote, list[str]], column: Box) -> _Placed:
    heights = [_height(lines[note]) for note in ordered]
    tops = _tops([note.anchor[1] for note in ordered], heights, column)
    return [
        (note, top, _course(note, top, column)) for note, top in zip(ordered, tops, strict=True)
    ]


def _first_crossing(placed: _Placed) -> int | None:
    """The first note whose leader crosses that of the note below it."""
    for number, (above, below) in enumerate(zip(placed, placed[1:], strict=False)):
        if _cross(above[2][-2:], below[2][-2:]):
            return number
    return None


def _cross(first: tuple[Point, ...], second: tuple[Point, ...]) -> bool:
    """Whether two segments cross."""

    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    (a, b), (c, d) = first, second
    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _height(lines: list[str]) -> float:
    return NOTE_HEIGHT * (1 + (len(lines) - 1) * LINE_PITCH)


def _tops(wanted: list[float], heights: list[float], column: Box) -> list[float]:
    """Tops of the notes: as near what they name as their neighbors allow."""
    if sum(heights) + _NOTE_GAP * (len(heights) - 1) > column.height + 1e-9:
        msg = f"{len(heights)} notes do not fit a column {column.height:.1f} in high"
        raise ColumnFullError(msg)
    tops: list[float] = []
    limit = column.y1
    for want, height in zip(wanted, heights, strict=True):
        top = min(want + NOTE_HEIGHT / 2, limit)
        tops.append(top)
        limit = top - height - _NOTE_GAP
    floor = column.y0
    for number in range(len(tops) - 1, -1, -1):
        tops[number] = max(tops[number], floor + heights[number])
        floor = tops[number] + _NOTE_GAP
    return tops


def _words(
    lines: list[str], top: float, column: Box, layer: str, *, flush_left: bool
) -> list[Primitive]:
    """The words, flush toward the drawing."""
    x = column.x0 if flush_left else column.x1
    align = "left" if flush_left else "right"
    return [
        Text(
            words,
            (x, top - NOTE_HEIGHT - n * NOTE_HEIGHT * LINE_PITCH),
            NOTE_HEIGHT,
            layer,
            align,
        )
        for n, words in enumerate(lines)
    ]


def _course(note: Keynote, top: float, column: Box) -> tuple[Point, ...]:
    """From the first line, over a shoulder, to what is named."""
    y = top - NOTE_HEIGHT / 2
    if column.center[0] > note.anchor[0]:
        edge = column.x0 - _TEXT_GAP
        return ((edge, y), (edge - _SHOULDER, y), note.anchor)
    edge = column.x1 + _TEXT_GAP
    return ((edge, y), (edge + _SHOULDER, y), note.anchor)
