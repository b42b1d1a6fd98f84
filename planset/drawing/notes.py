"""Headed, numbered notes that flow down columns of a page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planset.drawing.columns import ColumnCursor
from planset.drawing.geometry import Box
from planset.drawing.primitives import Line, Primitive, Text
from planset.drawing.stack import Stack
from planset.drawing.table import CONTINUED
from planset.drawing.text import DESCENT, LINE_PITCH, NOTE_HEIGHT, SUBTITLE_HEIGHT, wrap

_INDENT = 0.24
_ABOVE_RULE = 0.05
_AFTER_HEADING = 0.08
_AFTER_NOTE = 0.03
_AFTER_SECTION = 0.14
_PITCH = NOTE_HEIGHT * LINE_PITCH
_HEADING_PITCH = SUBTITLE_HEIGHT * LINE_PITCH


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and its notes.

    Attributes:
        heading: Capitals.
        notes: Sentences, numbered when `numbered` holds; a section without any is left out.
        numbered: Whether to number them.
    """

    heading: str
    notes: tuple[str, ...]
    numbered: bool = True


def flow(
    sections: Iterable[Section],
    pages: Iterable[tuple[Box, ...]],
    text_layer: str,
    line_layer: str,
) -> Stack:
    """Write sections down columns and on to further pages, no heading alone at a foot.

    A section that goes on in another column has its heading there again, CONT. added.
    A note stays in one column unless it is taller than a whole one.

    Args:
        sections: What to write.
        pages: The columns of each page, all of one width [paper in]; as many pages as may be
            needed.
        text_layer: Layer of the words.
        line_layer: Layer of the rules under headings.

    Raises:
        PagesFullError: The pages were too few.
    """
    writer = _Writer(ColumnCursor(pages), text_layer, line_layer)
    for section in sections:
        if section.notes:
            writer.section(section)
    cursor = writer.cursor
    return Stack(tuple(tuple(page) for page in writer.drawn), cursor.take_rest_of_page())


class _Writer:
    """Writes at a cursor and keeps what it has written, page by page."""

    def __init__(self, cursor: ColumnCursor, text_layer: str, line_layer: str) -> None:
        self.cursor = cursor
        self._text_layer = text_layer
        self._line_layer = line_layer
        self.drawn: list[list[Primitive]] = [[]]

    def section(self, section: Section) -> None:
        """A heading and its notes, the heading in one column with the first note."""
        cursor = self.cursor
        heading = wrap(section.heading, SUBTITLE_HEIGHT, cursor.box.width)
        indent = _INDENT if section.numbered else 0.0
        notes = [wrap(note, NOTE_HEIGHT, cursor.box.width - indent) for note in section.notes]
        if not cursor.room_for(_heading_height(heading) + _note_height(notes[0])):
            cursor.room_for(_heading_height(heading) + _note_height(notes[0][:1]))
        self._heading(heading)
        for number, lines in enumerate(notes, 1):
            if number > 1:  # the first has its room with the heading
                self._go_on(section.heading, _note_height(lines))
            self._note(f"{number}." if section.numbered else "", lines, indent)
        cursor.y -= _AFTER_SECTION

    def _go_on(self, heading: str, height: float) -> None:
        """Go to where a further note has room, under the heading again in a new column."""
        cursor = self.cursor
        if cursor.fits(height):
            return
        again = wrap(heading + CONTINUED, SUBTITLE_HEIGHT, cursor.box.width)
        cursor.advance()
        cursor.room_for(_heading_height(again) + height)
        self._heading(again)

    def _heading(self, lines: list[str]) -> None:
        cursor = self.cursor
        for words in lines:
            baseline = cursor.y - SUBTITLE_HEIGHT
            self._draw(Text(words, (cursor.box.x0, baseline), SUBTITLE_HEIGHT, self._text_layer))
            cursor.y -= _HEADING_PITCH
        rule = cursor.y + _HEADING_PITCH - SUBTITLE_HEIGHT - _ABOVE_RULE
        self._draw(Line((cursor.box.x0, rule), (cursor.box.x1, rule), self._line_layer))
        cursor.y = rule - _AFTER_HEADING

    def _note(self, number: str, lines: list[str], indent: float) -> None:
        cursor = self.cursor
        for n, words in enumerate(lines):
            cursor.room_for(_note_height([words]))
            x, baseline = cursor.box.x0, cursor.y - NOTE_HEIGHT
            if number and n == 0:
                self._draw(Text(number, (x, baseline), NOTE_HEIGHT, self._text_layer))
            self._draw(Text(words, (x + indent, baseline), NOTE_HEIGHT, self._text_layer))
            cursor.y -= _PITCH
        cursor.y -= _AFTER_NOTE

    def _draw(self, primitive: Primitive) -> None:
        while len(self.drawn) <= self.cursor.page:
            self.drawn.append([])
        self.drawn[-1].append(primitive)


def _heading_height(lines: list[str]) -> float:
    return SUBTITLE_HEIGHT + (len(lines) - 1) * _HEADING_PITCH + _ABOVE_RULE + _AFTER_HEADING


def _note_height(lines: list[str]) -> float:
    """From the top of the first line's capitals to the descenders of the last [in]."""
    return NOTE_HEIGHT * (1 + DESCENT) + (len(lines) - 1) * _PITCH
