"""Whatever on a page names another sheet or view: bubbles, and sheet ids in text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from planset.drawing.furniture import BUBBLE, BUBBLE_SYMBOL_RADIUS
from planset.drawing.geometry import Box, Placement, box_around, distance
from planset.drawing.primitives import Insert, Primitive, Text
from planset.drawing.text import text_box, text_width

_NAMED = re.compile(r"(?<![\w/-])(?:(\d+)/)?([A-Z]-\d{3}(?:\.\d+)?|D-\d+)(?![\w/-]|\.\d)")


@dataclass(frozen=True, slots=True)
class Callout:
    """A place that names a sheet, or a view on it.

    Attributes:
        sheet: Id of the sheet.
        view: Number of the view, 0 for the sheet as a whole.
        box: The bubble, or the words [paper in].
        is_bubble: Whether it is a bubble.
    """

    sheet: str
    view: int
    box: Box
    is_bubble: bool = False


def callouts(primitives: Iterable[Primitive]) -> Iterator[Callout]:
    """Every bubble, and every sheet id in the text beside them.

    Args:
        primitives: What stands on paper; what the blocks of insertions draw is not searched.
    """
    parts = list(primitives)
    texts = [part for part in parts if isinstance(part, Text)]
    in_bubbles: set[int] = set()
    for part in parts:
        if isinstance(part, Insert) and part.block == BUBBLE:
            radius = BUBBLE_SYMBOL_RADIUS * part.scale
            words = [text for text in texts if distance(text.at, part.at) < radius]
            in_bubbles |= {id(text) for text in words}
            yield from _of_bubble(words, Box(*part.at, *part.at).grown(radius))
    for text in texts:
        if id(text) not in in_bubbles:
            yield from _of_text(text)


def _of_bubble(words: list[Text], box: Box) -> Iterator[Callout]:
    """A view's number over the id of the sheet it is drawn on."""
    upper, *lower = (text.text for text in sorted(words, key=lambda text: -text.at[1]))
    if len(lower) == 1 and upper.isdecimal():
        yield Callout(lower[0], int(upper), box, is_bubble=True)


def _of_text(text: Text) -> Iterator[Callout]:
    place = Placement(text.at, text.rotation_deg)
    line = text_box(text.text, (0.0, 0.0), text.height, text.align)
    for found in _NAMED.finditer(text.text):
        left = line.x0 + text_width(text.text[: found.start()], text.height)
        right = left + text_width(found[0], text.height)
        corners = Box(left, line.y0, right, line.y1).corners
        yield Callout(found[2], int(found[1] or 0), box_around(map(place.apply, corners)))
