"""Tables and headed notes as they stand on a sheet: found by what is drawn, as a reader does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, box_around, united
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.drawing.text import LINE_PITCH
from planset.sheets.note_table import LINE_LAYER

_NOISE = 1e-6
_ALIKE = ("layer", "align", "rotation_deg")  # what lines of one paragraph share
_SAME_LINES = 1.2 * LINE_PITCH  # baselines at most so far apart are of one paragraph [heights]


@dataclass(frozen=True, slots=True)
class Found:
    """A table, or notes under a heading.

    Attributes:
        title: Words above it, "" for none.
        box: What it covers [paper in].
        rows: Its rows with their first words, or the notes with their numbers.
    """

    title: str
    box: Box
    rows: tuple[tuple[str, Box], ...]


def found_tables(paper: Sequence[Primitive]) -> Iterator[Found]:
    """Every ruled table of what stands on paper, then every section of notes."""
    texts = [part for part in paper if isinstance(part, Text)]
    lines = [part for part in paper if isinstance(part, Line) and part.layer == LINE_LAYER]
    for part in paper:
        if isinstance(part, Polyline) and part.closed and part.layer == LINE_LAYER:
            frame = box_around(part.points)
            if set(part.points) == set(frame.corners):
                yield _table(frame, lines, texts)
    yield from _sections(paper)


def paragraphs(texts: Iterable[Text]) -> Iterator[list[Text]]:
    """Lines of text that follow each other as one paragraph or label, each from its top."""
    lines: list[Text] = []
    for text in texts:
        if lines and not _goes_on(lines[-1], text):
            yield sorted(lines, key=lambda line: -line.at[1])
            lines = []
        lines.append(text)
    if lines:
        yield sorted(lines, key=lambda line: -line.at[1])


def _goes_on(one: Text, other: Text) -> bool:
    """Whether a line stands right over or under another."""
    alike = all(getattr(one, name) == getattr(other, name) for name in _ALIKE)
    (x, y), (other_x, other_y) = one.at, other.at
    pitch = _SAME_LINES * max(one.height, other.height)
    return alike and abs(x - other_x) < _NOISE and 0 < abs(y - other_y) < pitch


def joined(lines: Iterable[Text]) -> str:
    """Their words, one after the other."""
    return " ".join(line.text for line in lines)


def around(lines: Iterable[Text]) -> Box:
    """The box around lines of text [paper in]."""
    return united(map(rotated_text_box, lines))


def _table(frame: Box, lines: Iterable[Line], texts: Sequence[Text]) -> Found:
    inner = frame.grown(_NOISE)
    ruled = [line for line in lines if inner.holds(line.a) and inner.holds(line.b)]
    levels = {line.a[1] for line in ruled if line.a[1] == line.b[1]}
    rights = [line.a[0] for line in ruled if line.a[0] == line.b[0]]
    held = [text for text in texts if inner.holds(text.at)]
    edges = sorted({*levels, frame.y0, frame.y1}, reverse=True)
    columns = sorted({frame.x0, *rights, frame.x1})
    rows = []
    for top, foot in pairwise(edges):
        words = [text for text in held if foot < text.at[1] < top]
        for left, right in pairwise(columns):
            first = [text for text in words if left < text.at[0] < right]
            if first:
                box = around(words)
                rows.append((joined(first), Box(frame.x0, box.y0, frame.x1, box.y1)))
                break
    title = _title(frame, texts)
    box = united([frame, around(title)]) if title else frame
    return Found(joined(title), box, tuple(rows))


def _title(frame: Box, texts: Iterable[Text]) -> list[Text]:
    """The lines of the words right above a table, top first."""
    above = [t for t in texts if abs(t.at[0] - frame.x0) < _NOISE and t.at[1] > frame.y1]
    title: list[Text] = []
    foot = frame.y1
    for text in sorted(above, key=lambda text: text.at[1]):
        if text.at[1] - foot > text.height * (_SAME_LINES if title else 1.0):
            break
        title.insert(0, text)
        foot = text.at[1]
    return title


def _sections(paper: Sequence[Primitive]) -> Iterator[Found]:
    """Notes: a heading, the rule under it that begins where it does, and the lines that follow."""
    rules = [
        n
        for n, (text, line) in enumerate(pairwise(paper), 1)
        if isinstance(text, Text)
        and isinstance(line, Line)
        and line.layer == LINE_LAYER
        and abs(text.at[0] - line.a[0]) < _NOISE
        and 0 < text.at[1] - line.a[1] < text.height
    ]
    for rule, following in pairwise([*rules, len(paper)]):
        heading = _heading(paper, rule)
        stop = following - len(_heading(paper, following)) if following < len(paper) else following
        notes = _texts_from(paper, rule + 1, stop)
        if notes:
            left = heading[0].at[0]
            yield Found(joined(heading), around([*heading, *notes]), tuple(_notes(notes, left)))


def _heading(paper: Sequence[Primitive], rule: int) -> list[Text]:
    """The lines of one height right before a rule."""
    lines: list[Text] = []
    for part in reversed(paper[:rule]):
        if not isinstance(part, Text):
            break
        first = lines[0] if lines else part
        if part.height != first.height or (lines and not _goes_on(part, first)):
            break
        lines.insert(0, part)
    return lines


def _texts_from(paper: Sequence[Primitive], start: int, stop: int) -> list[Text]:
    """The lines of text from a place on, up to what is none."""
    lines: list[Text] = []
    for part in paper[start:stop]:
        if not isinstance(part, Text):
            break
        lines.append(part)
    return lines


def _notes(lines: Sequence[Text], left: float) -> Iterator[tuple[str, Box]]:
    """Each numbered note by its number."""
    note: list[Text] = []
    for line in lines:
        numbered = abs(line.at[0] - left) < _NOISE and line.text.rstrip(".").isdecimal()
        if numbered:
            if note:
                yield note[0].text.rstrip("."), around(note)
            note = []
        if numbered or note:
            note.append(line)
    if note:
        yield note[0].text.rstrip("."), around(note)
