"""How a leader may run from a label to what it names, and what it crosses on its way."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planset.drawing.dimension import DOT_RADIUS
from planset.drawing.geometry import Box, Point, distance, toward
from planset.drawing.places import CLEAR
from planset.drawing.taken import Taken

CROSSES_WORDS = 3  # the worst crossing, which no leader may
_SHOULDER = 1 / 8
_AT_ANCHOR = 0.14  # end of a leader that may cross the outline of what it names [in]
_NEARBY = 0.3  # of a leader before that, where most are barred [in]
_DIRECTIONS = 24


def least_crossing_course(
    taken: Taken, box: Box, anchor: Point, offset: float, below: int = CROSSES_WORDS
) -> tuple[tuple[Point, ...], int]:
    """The leader from a box that crosses least, and what it crosses.

    Args:
        taken: What is drawn.
        box: The words [paper in].
        anchor: Where it ends [paper in].
        offset: How far the thing named reaches from there [in].
        below: A crossing as bad as this need not be told from a worse one.
    """
    first, *others = _ways(box, anchor)
    best, least = first, crossing(taken, first, offset, below)
    for way in others:
        if not least:
            break
        crossed = crossing(taken, way, offset, below)
        if crossed < least:
            best, least = way, crossed
    return best, least


def crossing(
    taken: Taken, line: tuple[Point, ...], offset: float, below: int = CROSSES_WORDS
) -> int:
    """What is the worst a leader crosses.

    0 is nothing that matters, 1 a heavy line, 2 a line of a dimension or another leader, and
    `CROSSES_WORDS` words. What is as bad as `below` need not be told from what is worse.
    """
    letters, words, hard = taken.letters, taken.words, taken.hard
    if below == 1 and not all(map(hard.path_is_free, _end_and_whole(line, offset + _AT_ANCHOR))):
        return 1  # most are barred by heavy lines: no need to look at the rest
    if not letters.box_is_free(end_box(line[-1])):
        return CROSSES_WORDS
    # What encloses the thing bars leaders from every side, so their ends are asked about first.
    if not all(map(letters.path_is_free, _end_and_whole(line, 0.0))):
        return CROSSES_WORDS
    passed: list[list[tuple[int, int]]] = []  # the maps have one grid, the heavy one most on it
    for stretch in _end_and_whole(line, offset + _AT_ANCHOR):
        passed.append(words.cells_of_path(stretch))
        if not words.cells_are_free(passed[-1]):
            return CROSSES_WORDS - 1
    if not passed:
        return CROSSES_WORDS - 1
    return 0 if all(map(hard.cells_are_free, passed)) else 1


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


def ends_inside(frame: Box, anchor: Point) -> bool:
    """Whether the dot or arrow of a leader that ends at a point stays inside a frame [paper in].

    A thing at the edge of a part of a view, too near for that, is shown by the next part as well,
    farther inside.
    """
    return frame.contains(end_box(anchor))


def _end_and_whole(line: tuple[Point, ...], inside: float) -> Iterator[tuple[Point, ...]]:
    """A leader until it is `inside` inches from its end: its last stretch, then all of it.

    Neither where its last straight part is no longer than that.
    """
    anchor, knee = line[-1], line[-2]
    whole = distance(knee, anchor)
    if whole < inside:
        return
    end = toward(anchor, knee, inside)
    yield (toward(anchor, knee, min(inside + _NEARBY, whole)), end)
    yield (*line[:-1], end)


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
