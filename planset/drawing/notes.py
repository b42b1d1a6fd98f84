"""Headed, numbered notes that flow down columns of a page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planset.drawing.geometry import Box
from planset.drawing.primitives import Line, Primitive, Text
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, SUBTITLE_HEIGHT, wrap

_INDENT = 0.24
_AFTER_HEADING = 0.08
_AFTER_NOTE = 0.03
_AFTER_SECTION = 0.14
_HEADING_PITCH = SUBTITLE_HEIGHT * LINE_PITCH


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and its notes.

    Attributes:
        heading: Capitals.
        notes: Sentences, numbered when `numbered` holds.
        numbered: Whether to number them.
    """

    heading: str
    notes: tuple[str, ...]
    numbered: bool = True


class _Pen:
    """Where the next line goes, on which page."""

    def __init__(self, pages: Iterable[tuple[Box, ...]]) -> None:
        self._pages = iter(pages)
        self._columns = iter(next(self._pages))
        self.drawn: list[list[Primitive]] = [[]]
        self.box = next(self._columns)
        self.y = self.box.y1

    def draw(self, primitive: Primitive) -> None:
        self.drawn[-1].append(primitive)

    def room_for(self, height: float) -> None:
        """Go to the next column, or page, when `height` inches do not fit below."""
        if self.y - height >= self.box.y0 - 1e-9 or self.y == self.box.y1:
            return
        column = next(self._columns, None)
        if column is None:
            self._columns = iter(next(self._pages))
            self.drawn.append([])
            column = next(self._columns)
        self.box = column
        self.y = column.y1


def flow(
    sections: Iterable[Section],
    pages: Iterable[tuple[Box, ...]],
    text_layer: str,
    line_layer: str,
) -> list[tuple[Primitive, ...]]:
    """Write sections down columns and on to further pages, no heading alone at a foot.

    Args:
        sections: What to write.
        pages: The columns of each page [paper in]; as many pages as may be needed.
        text_layer: Layer of the words.
        line_layer: Layer of the rules under headings.

    Returns:
        The primitives of each page used.

    Raises:
        StopIteration: The pages were too few.
    """
    pen = _Pen(pages)
    pitch = NOTE_HEIGHT * LINE_PITCH
    for section in sections:
        first = wrap(section.notes[0], NOTE_HEIGHT, pen.box.width - _INDENT)
        heading = wrap(section.heading, SUBTITLE_HEIGHT, pen.box.width)
        pen.room_for(len(heading) * _HEADING_PITCH + _AFTER_HEADING + len(first) * pitch)
        _heading(pen, heading, text_layer, line_layer)
        for number, note in enumerate(section.notes, 1):
            _note(pen, f"{number}." if section.numbered else "", note, text_layer)
        pen.y -= _AFTER_SECTION
    return [tuple(drawn) for drawn in pen.drawn]


def _heading(pen: _Pen, lines: list[str], text_layer: str, line_layer: str) -> None:
    for words in lines:
        pen.draw(Text(words, (pen.box.x0, pen.y - SUBTITLE_HEIGHT), SUBTITLE_HEIGHT, text_layer))
        pen.y -= _HEADING_PITCH
    rule = pen.y + _HEADING_PITCH - SUBTITLE_HEIGHT - 0.05
    pen.draw(Line((pen.box.x0, rule), (pen.box.x1, rule), line_layer))
    pen.y = rule - _AFTER_HEADING


def _note(pen: _Pen, number: str, note: str, layer: str) -> None:
    indent = _INDENT if number else 0.0
    lines = wrap(note, NOTE_HEIGHT, pen.box.width - indent)
    pitch = NOTE_HEIGHT * LINE_PITCH
    pen.room_for(NOTE_HEIGHT + (len(lines) - 1) * pitch)
    baseline = pen.y - NOTE_HEIGHT
    if number:
        pen.draw(Text(number, (pen.box.x0, baseline), NOTE_HEIGHT, layer))
    for n, line in enumerate(lines):
        pen.draw(Text(line, (pen.box.x0 + indent, baseline - n * pitch), NOTE_HEIGHT, layer))
    pen.y = baseline - (len(lines) - 1) * pitch - (pitch - NOTE_HEIGHT) - _AFTER_NOTE
