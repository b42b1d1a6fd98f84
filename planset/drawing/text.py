"""The one text face, measured once: width of a line, wrapping to a width.

Heights are heights of the capitals, as in DXF. Widths come from a committed table of the face,
so every format draws a line exactly as wide as the sheet that placed it believed.
"""

from __future__ import annotations

import csv
import re
from functools import cache, lru_cache
from pathlib import Path

from planset.drawing.geometry import Box, Point

UNITS_PER_EM = 2048
CAP_HEIGHT_UNITS = 1409
CAP_HEIGHT_EM = CAP_HEIGHT_UNITS / UNITS_PER_EM
DESCENT = 0.31  # depth of descenders below the baseline, as a part of the capitals' height

MINIMUM_HEIGHT = 3 / 32  # plotted [in]; the practitioners' least height, see README
NOTE_HEIGHT = 0.1  # 10 point capitals and 3/32 in are both met [in]
SUBTITLE_HEIGHT = 1 / 8
TITLE_HEIGHT = 3 / 16
LINE_PITCH = 1.6  # baseline to baseline, in heights
SLACK = 1.1  # a CAD program may substitute the face: boxes leave a tenth to spare


_FRACTION = re.compile(r"\d+/\d+")
_UNIT = re.compile(r"(in|IN|ft|FT|V|A|W)\b|%")
_COMPARED = ("<=", ">=")


@cache
def _widths() -> dict[str, int]:
    path = Path(__file__).with_name("face_widths.csv")
    with path.open(encoding="utf-8", newline="") as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        return {chr(int(row["codepoint"], 16)): int(row["width"]) for row in rows}


def text_width(text: str, height: float) -> float:
    """Width of one line of text.

    Args:
        text: The line, without line breaks.
        height: Height of the capitals [in].

    Returns:
        Width [in].

    Raises:
        ValueError: The face lacks one of the characters.
    """
    return _units(text) / CAP_HEIGHT_UNITS * height


@lru_cache(maxsize=4096)  # each line is measured again wherever it is tried
def _units(text: str) -> int:
    """Width of one line of text in units of the face; raises what `text_width` does."""
    try:
        return sum(map(_widths().__getitem__, text))
    except KeyError as missing:
        msg = f"the drawing face has no character {missing} (in {text!r}); use another spelling"
        raise ValueError(msg) from None


def height_to_fit(text: str, height: float, width: float) -> float:
    """The height at which a line fits a width: as asked for, or less, but never too small to read.

    Args:
        text: The line.
        height: Height of the capitals asked for [in].
        width: The width, of which the slack of the face is kept free [in].

    Returns:
        Height of the capitals [in]; a line that is too long at the least height gets that one.
    """
    needed = text_width(text, height) * SLACK
    if needed <= width:
        return height
    return min(height, max(height * width / needed, MINIMUM_HEIGHT))


def wrap(text: str, height: float, width: float) -> list[str]:
    """Break text into lines no wider than `width`, with the slack of the face kept free.

    A mixed number and its unit, as in 1 1/4 in, stay together, and a <= or >= and what follows it.

    Args:
        text: Words separated by spaces; a line break in it is kept.
        height: Height of the capitals [in].
        width: Width of the column [in].

    Returns:
        The lines. A single word wider than the column stays whole on a line of its own.
    """
    return list(_wrapped(text, height, width / SLACK))


@lru_cache(maxsize=4096)  # tables and notes are laid out again wherever they are tried
def _wrapped(text: str, height: float, room: float) -> tuple[str, ...]:
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in _whole_words(paragraph):
            longer = f"{line} {word}" if line else word
            if line and text_width(longer, height) > room:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return tuple(lines)


@lru_cache(maxsize=4096)
def _whole_words(paragraph: str) -> tuple[str, ...]:
    """Its words, a fraction and a unit kept with the figure before, <= with what follows."""
    words: list[str] = []
    for word in paragraph.split():
        after_figure = bool(words) and words[-1][-1].isdigit()
        after_sign = bool(words) and words[-1].endswith(_COMPARED)
        if after_sign or after_figure and (_FRACTION.match(word) or _UNIT.match(word)):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return tuple(words)


def text_box(
    text: str, at: Point, height: float, align: str = "left", *, slack: float = 1.0
) -> Box:
    """The box an unrotated line of text covers, descenders included.

    Args:
        text: The line.
        at: Its anchor: on the baseline at the left, center or right, or at the middle of the
            capitals when align is "middle" [in].
        height: Height of the capitals [in].
        align: "left", "center", "right" or "middle".
        slack: Factor on the width for a substituted face.
    """
    width = text_width(text, height) * slack
    left = {"left": 0.0, "center": -width / 2, "middle": -width / 2, "right": -width}[align]
    base = -height / 2 if align == "middle" else 0.0
    x0, y0 = at[0] + left, at[1] + base
    return Box(x0, y0 - DESCENT * height, x0 + width, y0 + height)
