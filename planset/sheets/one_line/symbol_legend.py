"""The legend of the symbols and lines that a diagram really uses."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import Insert, Line, Polyline, Primitive, Text
from planset.drawing.symbols import Symbol
from planset.drawing.table import Table
from planset.drawing.text import (
    LINE_PITCH,
    NOTE_HEIGHT,
    SLACK,
    SUBTITLE_HEIGHT,
    text_width,
    wrap,
)
from planset.sheets.note_table import TEXT_LAYER
from planset.sheets.one_line.paint import (
    BOUNDARY,
    BUS,
    CONTROL,
    ENCLOSURE,
    GROUND,
    SYMBOL,
    WIRE,
)

_TITLE = "SYMBOLS, BY IEEE 315 WHERE NOT SAID OTHERWISE"
_SAMPLE = 0.88
_CELL = 2.0
_ROW_GAP = 0.1
_APART = 0.15  # of words from the sample, and from the next one [in]
_LINES = (
    (WIRE, "conductors of one circuit or more"),
    (GROUND, "grounding path"),
    (ENCLOSURE, "enclosure of a panel or box"),
    (BOUNDARY, "boundary of the array for rapid shutdown"),
)
_CONTROLLED = frozenset({"CONTACT_OPENS", "CONTACT_CLOSES", "BUTTON_OPENS", "BUTTON_CLOSES"})


def symbol_legend(
    inserted: Iterable[str], symbols: Mapping[str, Symbol], at: Point, width: float
) -> Table:
    """Every symbol used with its name, in columns.

    Args:
        inserted: Names of the blocks of the diagram; one made of a symbol begins with its name.
        symbols: Symbols by name.
        at: Upper left corner [paper in].
        width: Width [in].
    """
    begun = {name.partition("-")[0] for name in inserted}
    used = [symbol for name, symbol in symbols.items() if name in begun]
    entries: list[tuple[Symbol | str, str]] = [(s, s.block.description) for s in used]
    entries += list(_LINES)
    if begun & _CONTROLLED:
        entries.append((CONTROL, "control wiring"))
    entries.sort(key=lambda entry: -_sample_height(entry[0]))  # so that rows waste no height
    every = {word for _, words in entries for word in words.upper().split()}
    longest = max(text_width(word, NOTE_HEIGHT) for word in every)
    columns = max(1, int(width // max(_CELL, _SAMPLE + _APART + longest * SLACK)))
    cell = width / columns
    x, top = at
    made: list[Primitive] = [Text(_TITLE, (x, top - SUBTITLE_HEIGHT), SUBTITLE_HEIGHT, TEXT_LAYER)]
    level = top - SUBTITLE_HEIGHT - 0.12
    for start in range(0, len(entries), columns):
        row = entries[start : start + columns]
        height = max(_height(sample, words, cell) for sample, words in row)
        for number, (sample, words) in enumerate(row):
            made += _entry(
                sample,
                words,
                Box(x + number * cell, level - height, x + (number + 1) * cell, level),
            )
        level -= height + _ROW_GAP
    return Table(Box(x, level, x + width, top), tuple(made))


def _lines(words: str, cell: float) -> list[str]:
    return wrap(words.upper(), NOTE_HEIGHT, cell - _SAMPLE - _APART)


def _height(sample: Symbol | str, words: str, cell: float) -> float:
    text = len(_lines(words, cell)) * NOTE_HEIGHT * LINE_PITCH
    return max(text, _sample_height(sample))


def _sample_height(sample: Symbol | str) -> float:
    return sample.box.height if isinstance(sample, Symbol) else 0.2


def _entry(sample: Symbol | str, words: str, place: Box) -> list[Primitive]:
    middle = (place.x0 + _SAMPLE / 2, place.center[1])
    made: list[Primitive] = []
    if isinstance(sample, Symbol):
        cx, cy = sample.box.center
        layer = BUS if sample.name == "BUS" else SYMBOL
        made.append(Insert(sample.name, (middle[0] - cx, middle[1] - cy), layer))
    elif sample in (ENCLOSURE, BOUNDARY):  # the dashes of one are too long for a short line
        box = Box(middle[0] - 0.4, middle[1] - 0.09, middle[0] + 0.4, middle[1] + 0.09)
        made.append(Polyline(box.corners, sample, closed=True))
    else:
        made.append(Line((middle[0] - 0.4, middle[1]), (middle[0] + 0.4, middle[1]), sample))
    lines = _lines(words, place.width)
    pitch = NOTE_HEIGHT * LINE_PITCH
    first = place.center[1] + (len(lines) - 1) * pitch / 2 - NOTE_HEIGHT / 2
    for number, line in enumerate(lines):
        at = (place.x0 + _SAMPLE + 0.1, first - number * pitch)
        made.append(Text(line, at, NOTE_HEIGHT, TEXT_LAYER))
    return made
