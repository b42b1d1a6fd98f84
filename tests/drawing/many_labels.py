"""A large roof of labels: 600 among 3,000 lines, heavy, thin and faint by turns."""

from __future__ import annotations

import random

from planset.drawing.geometry import Box
from planset.drawing.labels import Label, LabelPlacer
from planset.drawing.primitives import Line, Primitive
from planset.drawing.text import MINIMUM_HEIGHT

_LAYERS = ("A-ROOF-OBST", "A-ANNO-NOTE", "S-ROOF-FRAM")
_AREA = Box(0, 0, 34, 22)


def labels_among_lines() -> list[tuple[Primitive, ...]]:
    """Place them all."""
    chance = random.Random(7)
    lines = []
    for number in range(3000):
        x, y = chance.uniform(0, 34), chance.uniform(0, 22)
        end = (x + chance.uniform(-1, 1), y + chance.uniform(-1, 1))
        lines.append(Line((x, y), end, _LAYERS[number % 3]))
    places = LabelPlacer(_AREA)
    places.keep_clear(lines, {})
    made = []
    for number in range(600):
        anchor = (chance.uniform(0, 34), chance.uniform(0, 22))
        words = (f"M{number:03}",)
        label = Label(words, anchor, MINIMUM_HEIGHT, "A-ANNO-TEXT", "A-ANNO-NOTE", offset=0.2)
        made.append(places.place_near(label, _AREA))
    return made
