"""A viewer's measuring tool, as PDF 32000-1:2008, 12.9, has it work."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from planset.drawing.geometry import Point

INCHES = {"ft": 12.0, "in": 1.0}


@dataclass(frozen=True)
class Reading:
    """What the tool shows for a line: pieces with their units, and all of it in inches."""

    words: str
    inches: float


def measured(page: Any, start: Point, end: Point) -> Reading | None:
    """What the tool reads between two points of a page, None where there is nothing to read by.

    The viewport is the last one whose box holds the first point (8.8.1 of the earlier reference,
    12.9 here). X turns points into its largest unit, D that unit into feet, and what is left over
    into each next one (table 263: the factor of a unit counts in the one before it).
    """
    found = None
    for viewport in page.get("/VP", ()):
        x0, y0, x1, y1 = map(float, viewport["/BBox"])
        if x0 <= start[0] <= x1 and y0 <= start[1] <= y1:
            found = viewport["/Measure"]
    if found is None:
        return None
    assert (found["/Type"], found["/Subtype"]) == ("/Measure", "/RL")
    assert "/Y" not in found  # one scale both ways
    rest = math.dist(start, end) * float(found["/X"][0]["/C"])
    words, inches = [], 0.0
    *whole, last = found["/D"]
    for unit in whole:
        rest *= float(unit["/C"])
        words.append(f"{math.floor(rest)} {unit['/U']}")
        inches += math.floor(rest) * INCHES[unit["/U"]]
        rest -= math.floor(rest)
    rest *= float(last["/C"])
    assert last["/F"] == "/F"
    parts = int(last["/D"])
    words.append(f"{round(rest * parts)}/{parts} {last['/U']}")
    return Reading(" ".join(words), inches + rest * INCHES[last["/U"]])
