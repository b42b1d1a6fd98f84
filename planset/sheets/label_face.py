"""A label at full size: words, letters and colors as its edition fixes them.

What the code leaves open is drawn plain: black on white, in the heights given here.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from planset.codes.nec.labels import Label
from planset.design.electrical.system import PlacedLabel
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Area, Line, Polyline, Primitive, Text
from planset.drawing.text import LINE_PITCH, SLACK, text_width, wrap

TITLE_HEIGHT = 1 / 4  # of letters whose height the code leaves open [in]
REST_HEIGHT = 3 / 16
INK = "E-LABL-BLCK"

_LETTERS = {"white": "E-LABL-WHTE", "black": INK}
_BACKGROUNDS = {"red": "E-LABL-REDB", "yellow": "E-LABL-YELB", "white": ""}
_PLAIN = ("black", "white")
_PROPORTION = 2.2  # width over height that a label comes near to
_BETWEEN_SENTENCES = 0.4  # over the pitch of lines, in heights
_STEP = 0.25  # between the widths that are tried [in]


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture on a label.

    Attributes:
        width: [in].
        height: [in].
        draw: Draws it into a box of that size [paper in].
    """

    width: float
    height: float
    draw: Callable[[Box], list[Primitive]]


@dataclass(frozen=True, slots=True)
class _Band:
    """A part of a label from edge to edge, in letters of one height and color."""

    lines: tuple[str, ...]
    height: float
    letters: str
    background: str
    picture: Picture | None = None

    @property
    def pad(self) -> float:
        return max(0.5 * self.height, 0.12)

    @property
    def beside(self) -> float:
        """What is not free for words, of any width."""
        return 2 * self.pad + (self.picture.width + self.pad if self.picture else 0.0)

    def wrapped(self, width: float) -> list[tuple[str, float]]:
        """Lines of text, and how far each stands below the first [in]."""
        room, down = width - self.beside, 0.0
        made = []
        for words in self.lines:
            for line in _balanced(words, self.height, room):
                made.append((line, down))
                down += self.height * LINE_PITCH
            down += self.height * _BETWEEN_SENTENCES
        return made

    def least_width(self) -> float:
        return max(_longest_word(line, self.height) for line in self.lines) + self.beside

    def drawn_height(self, width: float) -> float:
        room = width - self.beside
        counts = [len(wrap(words, self.height, room)) for words in self.lines]
        down = (sum(counts) - 1) * LINE_PITCH + (len(counts) - 1) * _BETWEEN_SENTENCES
        words = self.height * (1 + down)
        return 2 * self.pad + max(words, self.picture.height if self.picture else 0.0)


@dataclass(frozen=True, slots=True)
class Face:
    """A label of a chosen width.

    Attributes:
        width: [in].
        height: [in].
    """

    width: float
    height: float
    _bands: tuple[_Band, ...]

    def at(self, corner: Point) -> list[Primitive]:
        """The label with its upper left corner at a point [paper in]."""
        x, top = corner
        made: list[Primitive] = []
        y = top
        for number, band in enumerate(self._bands):
            box = Box(x, y - band.drawn_height(self.width), x + self.width, y)
            if number and not (band.background or self._bands[number - 1].background):
                made.append(Line((box.x0, y), (box.x1, y), INK))
            made += _drawn(band, box)
            y = box.y0
        outline = Box(x, y, x + self.width, top)
        return [*made, Polyline(outline.corners, INK, closed=True)]


def title_height(label: Label) -> float:
    """Height of the capitals of a label's first line [in]."""
    return label.letter_in or TITLE_HEIGHT


def rest_height(label: Label) -> float:
    """Height of the capitals of the lines after it [in].

    Where the code fixes one height and words of one line, all letters have it.
    """
    if label.other_letter_in is not None:
        return label.other_letter_in
    titled = any(len(words) > 1 for words in label.words) or label.letter_in is None
    return REST_HEIGHT if titled else title_height(label)


def drawn_heights(placed: PlacedLabel) -> tuple[float, ...]:
    """Heights of the capitals of a label as drawn, from the top, each once [in]."""
    return tuple(dict.fromkeys(band.height for band in _bands(placed, None)))


def face(placed: PlacedLabel, picture: Picture | None, most_width: float) -> Face:
    """A label about twice as wide as high.

    Args:
        placed: The label.
        picture: What stands beside its words, None for nothing.
        most_width: What the sheet has [in].

    Raises:
        ViewTooLargeError: A word of it is wider than that.
    """
    bands = _bands(placed, picture)
    least = max(band.least_width() for band in bands)
    if least > most_width:
        msg = f"label {placed.key} is at least {least:.1f} in wide; give it a larger sheet"
        raise ViewTooLargeError(msg)
    count = int((most_width - least) / _STEP)
    tried = (least + step * _STEP for step in range(count + 1))
    faces = (Face(w, sum(band.drawn_height(w) for band in bands), bands) for w in tried)
    return min(faces, key=lambda one: abs(math.log(one.width / one.height / _PROPORTION)))


def _bands(placed: PlacedLabel, picture: Picture | None) -> tuple[_Band, ...]:
    label, (title, *rest) = placed.label, placed.lines
    letters, background = _colors(label.text_color, label.background)
    others = _colors(label.other_text_color, label.other_background)
    if all(len(line.split()) == 1 for line in placed.lines):  # plates of one word, as for poles
        height = title_height(label)
        return tuple(_Band((word,), height, letters, background) for word in placed.lines)
    if not rest:
        return (_Band((title,), title_height(label), letters, background, picture),)
    if not label.other_text_color and label.other_letter_in is None and label.text_color:
        others = (letters, background)
    return (
        _Band((title,), title_height(label), letters, background),
        _Band(tuple(rest), rest_height(label), *others, picture),
    )


def _colors(text: str, background: str) -> tuple[str, str]:
    """Layers of letters and of the fill behind them, "" for none."""
    return _LETTERS[text or _PLAIN[0]], _BACKGROUNDS[background or _PLAIN[1]]


def _longest_word(line: str, height: float) -> float:
    return max(text_width(word, height) for word in line.split()) * SLACK


def _balanced(line: str, height: float, width: float) -> list[str]:
    """As few lines as fit a width, none much shorter than the others."""
    lines = wrap(line, height, width)
    least = _longest_word(line, height)
    while (width := width - height / 2) > least:
        narrower = wrap(line, height, width)
        if len(narrower) > len(lines):
            break
        lines = narrower
    return lines


def _drawn(band: _Band, box: Box) -> list[Primitive]:
    made: list[Primitive] = [Area(box.corners, band.background)] if band.background else []
    left = box.x0 + band.pad
    if band.picture:
        middle = box.center[1]
        half = band.picture.height / 2
        made += band.picture.draw(
            Box(left, middle - half, left + band.picture.width, middle + half)
        )
        left += band.picture.width + band.pad
    align, x = ("left", left) if band.picture else ("center", box.center[0])
    lines = band.wrapped(box.width)
    baseline = box.center[1] + (band.height + lines[-1][1]) / 2 - band.height
    made += [
        Text(line, (x, baseline - down), band.height, band.letters, align) for line, down in lines
    ]
    return made
