"""How a leader may run from a label to what it names, and what it crosses on its way."""

from __future__ import annotations

import math

from planset.drawing.dimension import DOT_RADIUS
from planset.drawing.geometry import Box, Point, distance, toward
from planset.drawing.occupancy import Occupancy
from planset.drawing.places import CLEAR
from planset.drawing.taken import Taken

CROSSES_WORDS = 3  # the worst crossing, which no leader may
_SHOULDER = 1 / 8
_AT_ANCHOR = 0.14  # end of a leader that may cross the outline of what it names [in]
_NEARBY = 0.3  # of a leader before that, where most are barred [in]
_DIRECTIONS = 24


def least_crossing_course(
    taken: Taken, box: Box, anchor: Point, offset: float
) -> tuple[tuple[Point, ...], int]:
    """The leader from a box that crosses least, and what it crosses.

    Args:
        taken: What is drawn.
        box: The words [paper in].
        anchor: Where it ends [paper in].
        offset: How far the thing named reaches from there [in].
    """
    first, *others = _ways(box, anchor)
    best = (first, crossing(taken, first, offset))
    if best[1]:
        rivals = [(way, crossing(taken, way, offset)) for way in others]
        best = min([best, *rivals], key=lambda pair: pair[1])
    return best


def crossing(taken: Taken, line: tuple[Point, ...], offset: float) -> int:
    """What is the worst a leader crosses.

    0 is nothing that matters, 1 a heavy line, 2 a line of a dimension or another leader, and
    `CROSSES_WORDS` words.
    """
    if not taken.letters.box_is_free(end_box(line[-1])):
        return CROSSES_WORDS
    if not _is_free(line, 0.0, taken.letters):
        return CROSSES_WORDS
    for number, uncrossed in enumerate((taken.hard, taken.words)):
        if _is_free(line, offset + _AT_ANCHOR, uncrossed):
            return number
    return CROSSES_WORDS - 1


def least_crossing_around(taken: Taken, anchor: Point, offset: float) -> int:
    """The least a leader must cross on its last stretch, whichever way it comes from."""
    x, y = anchor
    length = offset + _AT_ANCHOR + _NEARBY
    least = CROSSES_WORDS
    for number in range(_DIRECTIONS):
        turn = 2 * math.pi * number / _DIRECTIONS
        start = (x + length * math.cos(turn), y + length * math.sin(turn))
        least = min(least, crossing(taken, (start, anchor), offset))
        if not least:
            break
    return least


def end_box(anchor: Point) -> Box:
    """What the dot or arrow at the end of a leader may cover [paper in]."""
    return Box(*anchor, *anchor).grown(DOT_RADIUS)


def _is_free(line: tuple[Point, ...], inside: float, uncrossed: Occupancy) -> bool:
    """Whether a leader crosses nothing until it is `inside` inches from its end."""
    anchor, knee = line[-1], line[-2]
    whole = distance(knee, anchor)
    if whole < inside:
        return False
    end = toward(anchor, knee, inside)
    nearby = toward(anchor, knee, min(inside + _NEARBY, whole))
    # What encloses the thing bars leaders from every side, so the end is asked about first.
    return uncrossed.path_is_free((nearby, end)) and uncrossed.path_is_free((*line[:-1], end))


def _ways(box: Box, anchor: Point) -> list[tuple[Point, ...]]:
    """From the side that faces the anchor, over a short shoulder, or from the edge that does."""
    x, middle = box.center
    ways: list[tuple[Point, ...]] = []
    for side, out in ((box.x0 - CLEAR, -_SHOULDER), (box.x1 + CLEAR, _SHOULDER)):
        room = (anchor[0] - side) / out  # in shoulders
        if room > 1:
            ways.append(((side, middle), (side + out, middle), anchor))
        elif room > 0:
            ways.append(((side, middle), anchor))
    for edge, out in ((box.y0 - CLEAR, -1), (box.y1 + CLEAR, 1)):
        if (anchor[1] - edge) * out > 0:
            ways.append(((x, edge), anchor))
    return ways or [((x, box.y0 - CLEAR), anchor)]
