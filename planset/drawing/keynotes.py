"""Notes in a column beside a detail, each with a leader to what it names."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from itertools import combinations, pairwise

from planset.drawing.dimension import leader
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Primitive, Text
from planset.drawing.text import DESCENT, LINE_PITCH, NOTE_HEIGHT, wrap

_SHOULDER = 1 / 8
_TEXT_GAP = 0.05
_NOTE_GAP = 0.06


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
    """Place notes near what they name, so that no two leaders cross.

    Args:
        notes: The notes, in any order.
        column: Where the words stand, left or right of everything named by more than the
            leaders' shoulders [paper in].
        text_layer: Layer of the words.
        leader_layer: Layer of the leaders.

    Raises:
        ColumnFullError: The notes do not fit the column.
    """
    lines = {note: wrap(note.words, NOTE_HEIGHT, column.width) for note in notes}
    made: list[Primitive] = []
    for note, top, course in _near_what_they_name(notes, lines, column) or _spread(
        notes, lines, column
    ):
        made += _words(lines[note], top, column, text_layer, flush_left=course[0] > note.anchor)
        made.append(leader(course, leader_layer, end=note.end))
    return tuple(made)


_PlacedNote = tuple[Keynote, float, tuple[Point, Point, Point]]
"""A note, the top of its words, and the course of its leader."""

_Placed = list[_PlacedNote]
"""Notes from the top."""


def _near_what_they_name(
    notes: list[Keynote], lines: dict[Keynote, list[str]], column: Box
) -> _Placed | None:
    """Notes as near what they name as their neighbors allow; None when leaders would cross.

    Neighbors whose leaders cross change places, which mends all but a few rare arrangements.
    """
    ordered = sorted(notes, key=lambda note: -note.anchor[1])
    for _ in range(len(ordered) ** 2 + 1):
        heights = [_height(lines[note]) for note in ordered]
        tops = _tops([note.anchor[1] for note in ordered], heights, column)
        placed = [
            (note, top, _course(note.anchor, top, column))
            for note, top in zip(ordered, tops, strict=True)
        ]
        crossing = [n for n, pair in enumerate(pairwise(placed)) if _cross(*pair)]
        if not crossing:
            break
        first = crossing[0]
        ordered[first], ordered[first + 1] = ordered[first + 1], ordered[first]
    return None if any(_cross(*pair) for pair in combinations(placed, 2)) else placed


def _spread(notes: list[Keynote], lines: dict[Keynote, list[str]], column: Box) -> _Placed:
    """Notes spread evenly down the column, so that no two leaders cross.

    From the top, each place goes to the note whose leader leaves all other anchors below it;
    whatever stands further down then reaches its anchor without crossing that leader.
    """
    left = list(notes)
    free = column.height - sum(_height(lines[note]) for note in notes)
    top, placed = column.y1, []
    while left:
        knee = _course(left[0].anchor, top, column)[1]
        note = max(left, key=partial(_rise, knee))
        left.remove(note)
        placed.append((note, top, _course(note.anchor, top, column)))
        top -= _height(lines[note]) + free / max(len(notes) - 1, 1)
    return placed


def _rise(knee: Point, note: Keynote) -> tuple[float, float]:
    """How steeply the leader from a knee to a note's anchor rises; the nearer of two as steep."""
    run = abs(note.anchor[0] - knee[0])
    return ((note.anchor[1] - knee[1]) / max(run, 1e-9), -run)


def _cross(first: _PlacedNote, second: _PlacedNote) -> bool:
    """Whether the leaders of two notes cross beyond their shoulders."""

    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    (_, a, b), (_, c, d) = first[2], second[2]
    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _height(lines: list[str]) -> float:
    """From the top of the first line's capitals to the descenders of the last [in]."""
    return NOTE_HEIGHT * (1 + DESCENT + (len(lines) - 1) * LINE_PITCH)


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


def _course(anchor: Point, top: float, column: Box) -> tuple[Point, Point, Point]:
    """From the first line, over a shoulder, to what is named."""
    y = top - NOTE_HEIGHT / 2
    if column.center[0] > anchor[0]:
        edge = column.x0 - _TEXT_GAP
        return ((edge, y), (edge - _SHOULDER, y), anchor)
    edge = column.x1 + _TEXT_GAP
    return ((edge, y), (edge + _SHOULDER, y), anchor)


def notes_fit(notes: list[Keynote], column: Box) -> bool:
    """Whether a column is high enough for notes.

    Args:
        notes: The notes.
        column: Where the words stand [paper in].
    """
    heights = [_height(wrap(note.words, NOTE_HEIGHT, column.width)) for note in notes]
    return sum(heights) + _NOTE_GAP * (len(heights) - 1) <= column.height + 1e-9
