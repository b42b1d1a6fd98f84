"""Marks of a revision: the cloud around what changed, and the delta with the revision's number."""

from __future__ import annotations

import math
from dataclasses import replace

from planset.drawing.geometry import Box, Point
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Attribute, Block, Insert, Polyline, Text
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width

CLOUD_LAYER = "G-ANNO-REVC"
DELTA_LAYER = "G-ANNO-REVS"
DELTA_HEIGHT = 0.24  # of one whose number has the least height that can be read [in]
NUMBER_AT = 0.35  # middle of the number above the base, in heights of the delta
ARCS_REACH = 0.07  # beyond the box that a cloud is drawn around, at most [in]
CLOUD_WORDS = "cloud: changed by the newest revision"
DELTA_WORDS = "delta: changed by the revision of this number"

_CHORD = 0.2  # of an arc, about [in]
_CHORDS = tuple(0.14 + 0.005 * n for n in range(25))  # tried [in]
_BULGE = math.tan(math.radians(90) / 4)  # each arc a quarter of a circle

_EQUILATERAL = 2 / math.sqrt(3)  # width over height
_BESIDE_NUMBER = 0.012  # from the upper corners of the number to the sides [in]
_NUMBER = "NUMBER"


def cloud(around: Box, room: Box, size: float = 1.0) -> Polyline:
    """A cloud around a box: a closed line of arcs that bulge outward, as even as the sides allow.

    Args:
        around: What it encloses, as far as the room lets it [paper in].
        room: Nothing of it leaves this box [paper in].
        size: How many times as large as usual its arcs are.
    """
    reach = ARCS_REACH * size
    inner, least = room.grown(-reach), min(_CHORDS) * size
    x0, x1 = _kept(around.x0, around.x1, inner.x0, inner.x1, least)
    y0, y1 = _kept(around.y0, around.y1, inner.y0, inner.y1, least)
    box = Box(x0, y0, x1, y1)
    across, up = _arcs(box.width, box.height, size)
    corners = (*box.corners, box.corners[0])
    points: list[Point] = []
    for (x0, y0), (x1, y1), count in zip(
        corners, corners[1:], (across, up, across, up), strict=False
    ):
        points += [(x0 + (x1 - x0) * n / count, y0 + (y1 - y0) * n / count) for n in range(count)]
    return Polyline(tuple(points), CLOUD_LAYER, closed=True, bulges=(_BULGE,) * len(points))


def _kept(low: float, high: float, first: float, last: float, least: float) -> tuple[float, float]:
    """What of a side lies between two ends, but no less than a least length there."""
    low = max(first, min(low, last - least))
    return low, max(min(high, last), low + least)


def _arcs(width: float, height: float, size: float) -> tuple[int, int]:
    """How many arcs a level and an upright side take so that all are about of one size."""

    def unevenness(chord: float) -> tuple[float, float]:
        across, up = (_count(side, chord * size) for side in (width, height))
        ratio = abs(math.log((width / across) / (height / up)))
        return round(ratio, 2), abs(chord - _CHORD)

    best = min(_CHORDS, key=unevenness)
    return _count(width, best * size), _count(height, best * size)


def _count(side: float, chord: float) -> int:
    return max(1, math.ceil(side / chord - 0.5))


def delta_block(number: int) -> Block:
    """The triangle that a revision's number stands in, the middle of its base at the origin.

    A number of two digits takes a wider one.
    """
    half, height = _width(number) / 2, DELTA_HEIGHT
    outline = Polyline(((-half, 0.0), (half, 0.0), (0.0, height)), INHERITED, closed=True)
    return Block(_name(number), (outline,), DELTA_WORDS, (_NUMBER,))


def delta_box(number: int, height: float) -> Box:
    """What a delta covers, the middle of its base at the origin [in]."""
    half = _width(number) / 2 * height / DELTA_HEIGHT
    return Box(-half, 0.0, half, height)


def delta(
    number: int, at: Point, height: float, *, shown: bool = True, crowded: bool = False
) -> Insert:
    """A delta.

    Args:
        number: The revision's.
        at: Middle of its base [paper in].
        height: Its height [in].
        shown: Whether the number is written in it; else it is carried alone.
        crowded: Whether thin pens run under it for want of a better place.
    """
    text = replace(delta_number(number, at, height), crowded=crowded) if shown else None
    carried = (Attribute(_NUMBER, str(number), text),)
    return Insert(_name(number), at, DELTA_LAYER, scale=height / DELTA_HEIGHT, attributes=carried)


def delta_number(number: int, at: Point, height: float) -> Text:
    """The number in a delta."""
    middle = (at[0], at[1] + NUMBER_AT * height)
    return Text(str(number), middle, MINIMUM_HEIGHT * height / DELTA_HEIGHT, DELTA_LAYER, "middle")


def delta_that_fits(number: int, box: Box) -> float:
    """Height of the delta that fits a box with a number that can be read; 0.0 for none [in]."""
    wide = box.width / _width(number) * DELTA_HEIGHT
    height = min(box.height, wide)
    return height if height >= DELTA_HEIGHT - 1e-9 else 0.0


def _width(number: int) -> float:
    """Width of the delta of the least height [in]."""
    top = NUMBER_AT + MINIMUM_HEIGHT / DELTA_HEIGHT / 2  # of the number, in heights of the delta
    room = text_width(str(number), MINIMUM_HEIGHT) * SLACK + 2 * _BESIDE_NUMBER
    return max(_EQUILATERAL * DELTA_HEIGHT, room / (1 - top))


def _name(number: int) -> str:
    return f"REVISION-DELTA-{'WIDE' if number > 9 else 'SLIM'}"
