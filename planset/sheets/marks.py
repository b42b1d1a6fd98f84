"""Marks with their meaning: symbols of the set, and abbreviations, in two columns."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from planset.drawing.flatten import rotated_text_box
from planset.drawing.furniture import BUBBLE, BUBBLE_RADIUS, bubble
from planset.drawing.geometry import Box, Point, united
from planset.drawing.page import revision_fields
from planset.drawing.primitives import Insert, Primitive, Text
from planset.drawing.revision_marks import (
    CLOUD_WORDS,
    DELTA_HEIGHT,
    DELTA_WORDS,
    cloud,
    delta,
    delta_box,
)
from planset.drawing.symbols import Symbol
from planset.drawing.table import CONTINUED, Table
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, SLACK, SUBTITLE_HEIGHT, text_width, wrap
from planset.sheets.changes import changes, clouded, newest_number
from planset.sheets.context import SheetContext
from planset.sheets.note_table import TEXT_LAYER

_COLUMNS = 2
_GAP = 0.15
_AFTER_TITLE = 0.1
_BETWEEN = 0.08
_SYMBOL_WIDTH, _SYMBOL_HEIGHT = 0.62, 0.4  # what a symbol without letters is drawn within [in]
_MARK_WIDTH = 0.75  # of symbols with the space after them [in]
_LETTERS_WIDTH = 0.6  # of abbreviations alike, at least [in]
_AFTER_LETTERS = 0.06  # from the longest abbreviation to the words [in]
_PITCH = NOTE_HEIGHT * LINE_PITCH


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark.

    Attributes:
        width: Of the mark [in].
        height: Of the mark [in].
        draw: Draws it about its middle [paper in].
        words: What it stands for.
    """

    width: float
    height: float
    draw: Callable[[Point], tuple[Primitive, ...]]
    words: str


def symbols_used(context: SheetContext) -> list[Mark]:
    """The symbols inserted on the sheets drawn so far, in the order of their files.

    Those of revisions come last; they are drawn when all sheets are.
    """
    used = frozenset().union(*(page.blocks for page in context.others))
    symbols = [_mark(symbol, context) for name, symbol in context.symbols.items() if name in used]
    return [*symbols, *_of_revisions(context)]


def symbol_table(marks: Sequence[Mark], at: Point, width: float) -> Table:
    """Symbols with their meaning, the upper left corner at a point [paper in]."""
    return _Marks("SYMBOLS", tuple(marks), width, _MARK_WIDTH).at(at)


def abbreviation_table(meanings: Sequence[tuple[str, str]], at: Point, width: float) -> Table:
    """Abbreviations with their meaning, the upper left corner at a point [paper in]."""
    marks = tuple(Mark(0.0, NOTE_HEIGHT, _letters(short), words) for short, words in meanings)
    widest = max(text_width(short, NOTE_HEIGHT) for short, _ in meanings) * SLACK
    letters = max(_LETTERS_WIDTH, widest + _AFTER_LETTERS)
    return _Marks("ABBREVIATIONS", marks, width, letters).at(at)


@dataclass(frozen=True, slots=True)
class _Marks:
    """Marks under a title before they have a place.

    Attributes:
        title: Words above them.
        rows: The marks.
        width: Of both columns together [in].
        mark_width: Of a mark with the space after it [in].
    """

    title: str
    rows: tuple[Mark, ...]
    width: float
    mark_width: float

    @property
    def total_height(self) -> float:
        """Of title and marks [in]."""
        return _height([self._row_height(mark) for mark in self.rows])

    def at(self, top_left: Point) -> Table:
        """Them with their upper left corner at a point [paper in]."""
        table = _table(self.title, self.rows, top_left, self.width, self.mark_width)
        return replace(table, spec=self)

    def cut(self, room: float) -> tuple[_Marks, _Marks | None]:
        """Those that fit `room` inches, at least one, and what is left under the same title."""
        heights = [self._row_height(mark) for mark in self.rows]
        count = len(heights)
        while count > 1 and _height(heights[:count]) > room + 1e-9:
            count -= 1
        if count == len(self.rows):
            return self, None
        title = self.title.removesuffix(CONTINUED) + CONTINUED
        rest = replace(self, title=title, rows=self.rows[count:])
        return replace(self, rows=self.rows[:count]), rest

    def _row_height(self, mark: Mark) -> float:
        return _row_height(mark, _column_width(self.width) - self.mark_width)


def _mark(symbol: Symbol, context: SheetContext) -> Mark:
    words = symbol.block.description or symbol.name.replace("_", " ").lower()
    if symbol.name == BUBBLE:
        number, sheet = next(
            (str(page.views[0]), page.sheet) for page in context.others if page.views
        )
        size = 2 * BUBBLE_RADIUS
        return Mark(size, size, lambda at: bubble(at, number, sheet), words)
    letters = [rotated_text_box(p) for p in symbol.block.primitives if isinstance(p, Text)]
    box = united([symbol.box, *letters])
    factor = 1.0 if letters else min(1, _SYMBOL_WIDTH / box.width, _SYMBOL_HEIGHT / box.height)

    def draw(at: Point) -> tuple[Primitive, ...]:
        middle = (at[0] - box.center[0] * factor, at[1] - box.center[1] * factor)
        return (Insert(symbol.name, middle, "G-ANNO-SYMB", scale=factor),)

    return Mark(box.width * factor, box.height * factor, draw, words)


def _of_revisions(context: SheetContext) -> Iterator[Mark]:
    inputs = context.design.inputs
    number = newest_number(inputs)
    if number and (any(changes(inputs)) or revision_fields(1)[0] in context.titleblock.fields):
        size = delta_box(number, DELTA_HEIGHT)
        middle = size.height / 2
        yield Mark(
            size.width,
            size.height,
            lambda at: (delta(number, (at[0], at[1] - middle), size.height),),
            DELTA_WORDS,
        )
    if clouded(inputs):
        box = Box(-_SYMBOL_WIDTH / 2, -_SYMBOL_HEIGHT / 2, _SYMBOL_WIDTH / 2, _SYMBOL_HEIGHT / 2)

        def draw(at: Point) -> tuple[Primitive, ...]:
            room = box.moved(*at)
            return (cloud(room, room),)

        yield Mark(box.width, box.height, draw, CLOUD_WORDS)


def _letters(short: str) -> Callable[[Point], tuple[Primitive, ...]]:
    return lambda at: (Text(short, (at[0], at[1] - NOTE_HEIGHT / 2), NOTE_HEIGHT, TEXT_LAYER),)


def _table(title: str, marks: Sequence[Mark], at: Point, width: float, mark_width: float) -> Table:
    """Marks down two columns, as evenly as their number allows."""
    x, top = at
    made: list[Primitive] = [Text(title, (x, top - SUBTITLE_HEIGHT), SUBTITLE_HEIGHT, TEXT_LAYER)]
    begin = top - SUBTITLE_HEIGHT - _AFTER_TITLE
    column = _column_width(width)
    share = _share(len(marks))
    foot = begin
    for number in range(_COLUMNS):
        left, level = x + number * (column + _GAP), begin
        for mark in marks[number * share : (number + 1) * share]:
            parts, height = _row(mark, (left, level), mark_width, column - mark_width)
            made += parts
            level -= height + _BETWEEN
        foot = min(foot, level)
    return Table(Box(x, foot, x + width, top), tuple(made))


def _height(rows: Sequence[float]) -> float:
    """Of a table by the heights of its rows [in]."""
    share = _share(len(rows))
    columns = [rows[number * share : (number + 1) * share] for number in range(_COLUMNS)]
    return (
        SUBTITLE_HEIGHT
        + _AFTER_TITLE
        + max(sum(column) + len(column) * _BETWEEN for column in columns)
    )


def _share(count: int) -> int:
    """Of so many marks, those of the first column."""
    return -(-count // _COLUMNS)


def _column_width(width: float) -> float:
    return (width - (_COLUMNS - 1) * _GAP) / _COLUMNS


def _row_height(mark: Mark, words_width: float) -> float:
    return max(mark.height, _words_height(wrap(mark.words, NOTE_HEIGHT, words_width)))


def _words_height(lines: Sequence[str]) -> float:
    return NOTE_HEIGHT + (len(lines) - 1) * _PITCH


def _row(
    mark: Mark, at: Point, mark_width: float, words_width: float
) -> tuple[list[Primitive], float]:
    """A mark beside its words, the upper left corner at a point, and their height [paper in].

    What is lower stands level with the middle of what is higher, letters with the first line.
    """
    x, top = at
    lines = wrap(mark.words, NOTE_HEIGHT, words_width)
    tall = _words_height(lines)
    height = max(mark.height, tall)
    middle = top - height / 2 if mark.width else top - NOTE_HEIGHT / 2
    baseline = top - (height - tall) / 2 - NOTE_HEIGHT
    words = [
        Text(line, (x + mark_width, baseline - n * _PITCH), NOTE_HEIGHT, TEXT_LAYER)
        for n, line in enumerate(lines)
    ]
    side = _SYMBOL_WIDTH / 2 if mark.width else 0.0
    return [*mark.draw((x + side, middle)), *words], height
