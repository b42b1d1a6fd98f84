"""Marks with their meaning: symbols of the set, and abbreviations, in two columns."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from planset.drawing.flatten import rotated_text_box
from planset.drawing.furniture import BUBBLE, BUBBLE_RADIUS, bubble
from planset.drawing.geometry import Box, Point, united
from planset.drawing.primitives import Insert, Primitive, Text
from planset.drawing.stack import TableAt
from planset.drawing.symbols import Symbol
from planset.drawing.table import CONTINUED, Table
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, SLACK, SUBTITLE_HEIGHT, text_width, wrap
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
    """The symbols inserted on the sheets drawn so far, in the order of their files."""
    used = frozenset().union(*(page.blocks for page in context.others))
    return [_mark(symbol, context) for name, symbol in context.symbols.items() if name in used]


def symbol_table(marks: Sequence[Mark], at: Point, width: float) -> Table:
    """Symbols with their meaning, the upper left corner at a point [paper in]."""
    return _table("SYMBOLS", marks, at, width, _MARK_WIDTH)


def abbreviation_tables(meanings: Sequence[tuple[str, str]], column: Box) -> list[TableAt]:
    """Abbreviations with their meaning, in two tables where one is taller than a column."""
    if not meanings:
        return []
    whole = partial(_abbreviations, meanings)
    if whole((0.0, 0.0), column.width).box.height <= column.height:
        return [whole]
    half = len(meanings) // 2
    return [
        partial(_abbreviations, meanings[:half]),
        partial(_abbreviations, meanings[half:], continued=True),
    ]


def _abbreviations(
    meanings: Sequence[tuple[str, str]], at: Point, width: float, *, continued: bool = False
) -> Table:
    marks = [Mark(0.0, NOTE_HEIGHT, _letters(short), words) for short, words in meanings]
    title = f"ABBREVIATIONS{CONTINUED if continued else ''}"
    widest = max(text_width(short, NOTE_HEIGHT) for short, _ in meanings) * SLACK
    return _table(title, marks, at, width, max(_LETTERS_WIDTH, widest + _AFTER_LETTERS))


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


def _letters(short: str) -> Callable[[Point], tuple[Primitive, ...]]:
    return lambda at: (Text(short, (at[0], at[1] - NOTE_HEIGHT / 2), NOTE_HEIGHT, TEXT_LAYER),)


def _table(title: str, marks: Sequence[Mark], at: Point, width: float, mark_width: float) -> Table:
    """Marks down two columns, as evenly as their number allows."""
    x, top = at
    made: list[Primitive] = [Text(title, (x, top - SUBTITLE_HEIGHT), SUBTITLE_HEIGHT, TEXT_LAYER)]
    begin = top - SUBTITLE_HEIGHT - _AFTER_TITLE
    column = (width - (_COLUMNS - 1) * _GAP) / _COLUMNS
    share = -(-len(marks) // _COLUMNS)
    foot = begin
    for number in range(_COLUMNS):
        left, level = x + number * (column + _GAP), begin
        for mark in marks[number * share : (number + 1) * share]:
            parts, height = _row(mark, (left, level), mark_width, column - mark_width)
            made += parts
            level -= height + _BETWEEN
        foot = min(foot, level)
    return Table(Box(x, foot, x + width, top), tuple(made))


def _row(
    mark: Mark, at: Point, mark_width: float, words_width: float
) -> tuple[list[Primitive], float]:
    """A mark beside its words, the upper left corner at a point, and their height [paper in].

    What is lower stands level with the middle of what is higher, letters with the first line.
    """
    x, top = at
    lines = wrap(mark.words, NOTE_HEIGHT, words_width)
    tall = NOTE_HEIGHT + (len(lines) - 1) * _PITCH
    height = max(mark.height, tall)
    middle = top - height / 2 if mark.width else top - NOTE_HEIGHT / 2
    baseline = top - (height - tall) / 2 - NOTE_HEIGHT
    words = [
        Text(line, (x + mark_width, baseline - n * _PITCH), NOTE_HEIGHT, TEXT_LAYER)
        for n, line in enumerate(lines)
    ]
    side = _SYMBOL_WIDTH / 2 if mark.width else 0.0
    return [*mark.draw((x + side, middle)), *words], height
