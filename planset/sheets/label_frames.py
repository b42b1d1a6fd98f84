"""A label at full size in a frame, with what is said about it underneath."""

from __future__ import annotations

from dataclasses import dataclass

from planset.citation import CodeEdition
from planset.design.electrical.system import PlacedLabel
from planset.drawing.geometry import Box, Point
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.primitives import (
    Attribute,
    Block,
    Insert,
    Line,
    Polyline,
    Primitive,
    Text,
)
from planset.drawing.text import DESCENT, LINE_PITCH, NOTE_HEIGHT, SUBTITLE_HEIGHT, wrap
from planset.sheets.label_face import Face, Picture, face
from planset.sheets.label_words import heading, notes
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER

_PAD = 0.12
_LEAST_WIDTH = 3.6
_BETWEEN = 0.06  # two sentences
_CARRIED = ("KEY", "QUANTITY", "CLAUSE")


@dataclass(frozen=True, slots=True)
class Frame:
    """A label with its words, before it has a place.

    Attributes:
        placed: The label.
        face: The label at full size.
        clause: That asks for it, with its code.
        title: Key and clause.
        sentences: Lines of each sentence.
        lettering: Times the usual height of notes.
    """

    placed: PlacedLabel
    face: Face
    clause: str
    title: str
    sentences: tuple[tuple[str, ...], ...]
    lettering: float

    @property
    def size(self) -> Point:
        """Width and height [in]."""
        width = max(self.face.width + 2 * _PAD, _LEAST_WIDTH * self.lettering)
        return (width, self.face.height + 2 * _PAD + self._words_height)

    @property
    def _words_height(self) -> float:
        count = sum(len(lines) for lines in self.sentences)
        words = SUBTITLE_HEIGHT * 2 + NOTE_HEIGHT * (count * LINE_PITCH + DESCENT)
        return self.lettering * (words + _BETWEEN * len(self.sentences)) + _PAD

    @property
    def block(self) -> Block:
        """The label alone, its upper left corner at the origin: to be copied into any drawing."""
        drawn = self.face.at((0.0, 0.0))
        shapes = tuple(part for part in drawn if not isinstance(part, Text))
        said = f"Label {self.placed.key} at full size"
        return Block(self._name, shapes, said, _CARRIED, self._words((0.0, 0.0)))

    @property
    def _name(self) -> str:
        return f"LABEL-{self.placed.key}"

    def _words(self, corner: Point) -> tuple[Attribute, ...]:
        """Its lines as values, so that they can be edited and are shown outside blocks, too."""
        lines = [part for part in self.face.at(corner) if isinstance(part, Text)]
        return tuple(Attribute(f"LINE_{n}", line.text, line) for n, line in enumerate(lines, 1))

    def _label(self, corner: Point) -> Insert:
        values = (self.placed.key, str(self.placed.quantity), self.clause)
        carried = (Attribute(*pair) for pair in zip(_CARRIED, values, strict=True))
        attributes = (*carried, *self._words(corner))
        return Insert(self._name, corner, OWN_LAYERS, attributes=attributes, identity=self._name)

    def at(self, corner: Point) -> list[Primitive]:
        """The frame with its upper left corner at a point [paper in]."""
        x, top = corner
        width, height = self.size
        box = Box(x, top - height, x + width, top)
        inside = (x + (width - self.face.width) / 2, top - _PAD)
        level = top - 2 * _PAD - self.face.height
        made: list[Primitive] = [
            Polyline(box.corners, LINE_LAYER, closed=True),
            self._label(inside),
            Line((box.x0, level), (box.x1, level), LINE_LAYER),
        ]
        left, y = x + _PAD, level - 1.6 * SUBTITLE_HEIGHT * self.lettering
        made.append(Text(self.title, (left, y), SUBTITLE_HEIGHT * self.lettering, TEXT_LAYER))
        for lines in self.sentences:
            y -= _BETWEEN * self.lettering
            for line in lines:
                y -= NOTE_HEIGHT * LINE_PITCH * self.lettering
                made.append(Text(line, (left, y), NOTE_HEIGHT * self.lettering, TEXT_LAYER))
        return made


def framed(
    placed: PlacedLabel,
    picture: Picture | None,
    code: CodeEdition,
    most_width: float,
    lettering: float,
) -> Frame:
    """A label in its frame.

    Args:
        placed: The label.
        picture: What stands beside its words, None for nothing.
        code: The electrical code in force.
        most_width: What the sheet has [in].
        lettering: Times the usual height of notes; the label itself keeps its size.

    Raises:
        ViewTooLargeError: The label is wider than the sheet.
    """
    drawn = face(placed, picture, most_width - 2 * _PAD)
    room = max(drawn.width, _LEAST_WIDTH * lettering - 2 * _PAD)
    sentences = tuple(
        tuple(wrap(sentence, NOTE_HEIGHT * lettering, room)) for sentence in notes(placed)
    )
    clause = code.cite(placed.label.clause)
    return Frame(placed, drawn, clause, heading(placed, code), sentences, lettering)
