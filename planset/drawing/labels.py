"""Labels that step aside for what is already drawn.

Each label takes the free place nearest its anchor. Free means: no text, no medium or wider pen,
no dimension or leader under it; no thinner pen either while there is such a place, gray dashed
lines the first to be crossed. A label that had to move away gets a leader, which crosses neither
words, and other leaders and heavy lines only when there is no other way.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import compress, islice, pairwise
from typing import TypeVar

from planset.drawing.dimension import leader, run_together
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Placement, Point, united
from planset.drawing.leader_course import (
    CROSSES_WORDS,
    end_box,
    least_crossing_around,
    least_crossing_course,
)
from planset.drawing.places import Places
from planset.drawing.primitives import Block, Dimension, Insert, Line, Primitive, Text
from planset.drawing.steps import STEP, steps_around
from planset.drawing.taken import Taken
from planset.drawing.text import LINE_PITCH, SLACK, text_box

_CLOSE_BY = 0.01  # kept free around words where there is no more [in]
_NOISE = 1e-9
_CLOSE = 0.1  # a label this near what it names needs no leader [in]
_NEAR = ((1.0, 1), (3.0, 1))  # how far from its anchor a label is tried, at every nth step [in]
_FAR = ((math.inf, 2),)
_ALL_TIERS = _NEAR + _FAR
_PATIENCE = 100  # how many more places are looked at for a leader that crosses less
_FRUITLESS, _LEAP = 60, 10  # after so many places, only every so many next
_HOPELESS = 600  # after so many without any, no more
_AT_ONCE = 32  # boxes of which it is asked together whether they will do
_LEAST_LEADER = 0.1  # from words to the point named, where a leader must run [in]


class NoRoomError(ValueError):
    """No place for a label was free."""


T = TypeVar("T")

Within = Callable[[Box], bool]
"""Tells of a box on paper whether words may stand there."""

WithinEach = Callable[[Sequence[Box]], Sequence[bool]]
"""Tells the same of each of some boxes, which costs little more than of one."""


def first_with_room(tries: Iterable[Callable[[], T]]) -> T:
    """What the first of several tries makes that finds room.

    Raises:
        NoRoomError: None of them does; it is that of the last one.
    """
    failure = NoRoomError("nothing was tried")
    for attempt in tries:
        try:
            return attempt()
        except NoRoomError as without_room:
            failure = without_room
    raise failure


@dataclass(frozen=True, slots=True)
class Label:
    """Words that belong to a point or a small thing of a view.

    Attributes:
        lines: Lines of text, top first.
        anchor: What they name [paper in].
        height: Height of the capitals [in].
        layer: Layer of the text.
        leader_layer: Layer of the leader.
        names: Id of the thing named.
        offset: How far the thing reaches from its anchor [in].
        end: End of the leader, "arrow" or "dot".
    """

    lines: tuple[str, ...]
    anchor: Point
    height: float
    layer: str
    leader_layer: str
    names: str = ""
    offset: float = 0.0
    end: str = "arrow"


@dataclass(frozen=True, slots=True)
class _Found:
    """A place for a label.

    Attributes:
        crossing: What is the worst its leader crosses.
        box: The words.
        line: The leader, empty when none is needed.
        crowded: Whether a thin pen runs under the words.
    """

    crossing: int
    box: Box
    line: tuple[Point, ...]
    crowded: bool


class LabelPlacer:
    """Places labels one after another within an area.

    Args:
        area: Labels stay inside it [paper in].
    """

    def __init__(self, area: Box) -> None:
        self._area = area
        self._taken = Taken(area)
        self._dimensions: list[Dimension] = []

    def copy(self) -> LabelPlacer:
        """A placer that knows of everything drawn so far, for a try."""
        other = LabelPlacer(self._area)
        other._taken = self._taken.copy()
        other._dimensions = self._dimensions.copy()
        return other

    def keep_clear(
        self,
        primitives: Iterable[Primitive],
        blocks: Mapping[str, Block],
        placement: Placement | None = None,
    ) -> None:
        """Mark what is drawn.

        Args:
            primitives: What is drawn.
            blocks: The blocks that insertions name.
            placement: From their coordinates to paper; None when they are on paper.
        """
        self._taken.draw(primitives, blocks, placement or Placement())

    def reserve(self, box: Box) -> None:
        """Keep words off a box, and leaders while there is another way [paper in]."""
        self._taken.reserve(box)

    def reserve_ring(self, corners: Sequence[Point]) -> None:
        """Keep words off a convex polygon, and leaders while there is another way [paper in]."""
        self._taken.reserve_ring(corners)

    def is_free(self, box: Box) -> bool:
        """Whether words may stand in a box, if on thin pens [paper in]."""
        return self._taken.hard.box_is_free(box)

    def holds_words(self, box: Box) -> bool:
        """Whether words stand in a box [paper in]."""
        return not self._taken.letters.box_is_free(box)

    def is_clear(self, box: Box) -> bool:
        """Whether nothing is drawn in a box [paper in]."""
        return self._taken.faint.box_is_free(box)

    def words_crossed(self, line: Sequence[Point]) -> tuple[int, int]:
        """How many stretches of a line run over words, and through the room kept around words."""
        letters, words = self._taken.letters, self._taken.words
        near = [ends for ends in pairwise(line) if words.any_taken_about(*ends)]
        crossing = [
            cells for cells in map(words.cells_of_path, near) if not words.cells_are_free(cells)
        ]
        return sum(not letters.cells_are_free(cells) for cells in crossing), len(crossing)

    def settled(self, text: Text) -> Text:
        """A text that can't move, crowded where a pen runs under it."""
        free = self._taken.faint.cells_are_free(self._taken.cells_of_text(text))
        return replace(text, crowded=not free)

    def place_first(self, places: Sequence[Text], *, clear: bool = False) -> Text:
        """One text at the first of its places that is clear of all pens, else of heavy ones.

        Args:
            places: The text at each of its places.
            clear: Whether no pen but a gray dashed one may run under it.

        Raises:
            NoRoomError: Every place has words or too heavy a pen on it.
        """
        bounds = self._taken.thin if clear else self._taken.hard
        on_thin_pens: Text | None = None
        for text in places:
            cells = self._taken.cells_of_text(text, SLACK)
            if self._taken.faint.cells_are_free(cells):
                self._taken.write(text, SLACK)
                return replace(text, crowded=False)
            if on_thin_pens is None and bounds.cells_are_free(cells):
                on_thin_pens = text
        if on_thin_pens:
            self._taken.write(on_thin_pens, SLACK)
            return replace(on_thin_pens, crowded=True)
        msg = f"no free place for the words {places[0].text!r}"
        raise NoRoomError(msg)

    def place_dimension(self, ways: Sequence[Dimension]) -> Dimension:
        """One dimension in the first of its ways that has room, and mark it.

        All of it stays inside the area, its figure clear of words and heavy pens, its lines clear
        of words and not in the line of another dimension; a way whose figure is clear of thin
        pens too is preferred.

        Raises:
            NoRoomError: None of the ways has room.
        """
        for occupancy in (self._taken.faint, self._taken.hard):
            for way in ways:
                figures = [mark for mark in way.marks if isinstance(mark, Text)]
                fits = all(
                    self._area.contains(rotated_text_box(figure))
                    and occupancy.cells_are_free(
                        self._taken.cells_of_text(figure, around=_CLOSE_BY)
                    )
                    for figure in figures
                )
                lines = [(mark.a, mark.b) for mark in way.marks if isinstance(mark, Line)]
                apart = fits and not any(run_together(way, other) for other in self._dimensions)
                if apart and all(self._may_run(line) for line in lines):
                    crowded = occupancy is not self._taken.faint
                    marks = tuple(
                        replace(mark, crowded=crowded) if isinstance(mark, Text) else mark
                        for mark in way.marks
                    )
                    placed = replace(way, marks=marks)
                    self.keep_clear([placed], {})
                    self._dimensions.append(placed)
                    return placed
        msg = f"no room for the dimension {ways[0].text}"
        raise NoRoomError(msg)

    def _may_run(self, line: tuple[Point, Point]) -> bool:
        """Whether a line stays inside the area and crosses no words."""
        return all(self._area.holds(end) for end in line) and self._taken.letters.path_is_free(line)

    def place_inside(
        self,
        label: Label,
        region: Box,
        *,
        middle: Point | None = None,
        within: Within | None = None,
        clear: bool = False,
    ) -> tuple[Primitive, ...]:
        """Words at the free place of a region that is nearest its middle, without a leader.

        Args:
            label: The label.
            region: Where the words may stand [paper in].
            middle: Where they would stand best, when not in the middle of the region [paper in].
            within: Tells of a place in the region whether it will do.
            clear: Whether no pen but a gray dashed one may run under the words.

        Raises:
            NoRoomError: No place within the region is free.
        """
        start = middle or region.center
        size = _block_box(label)
        for box, crowded in self._free_boxes(size, region, start, _ALL_TIERS, clear=clear):
            if within and not within(box):
                continue
            close = self._close_place(label, region) if crowded and not within else None
            return self._drawn(label, close or box, (), crowded=crowded and not close)
        raise NoRoomError(_no_room(label))

    def _close_place(self, label: Label, region: Box) -> Box | None:
        """Where words fit between pens without the room that is kept around them elsewhere."""
        size, (x, y) = _block_box(label, slack=1.0), region.center
        room = region.shared(self._area).grown(_NOISE)
        steps = steps_around(size.width, size.height, *_NEAR[0])
        for shift in (0.0, STEP / 3, -STEP / 3):
            at = (x + shift, y)
            places = Places(self._taken.faint, size, steps, room, at, clear=_CLOSE_BY)
            for box in places.free():
                return box
        return None

    def place_near(
        self,
        label: Label,
        region: Box,
        *,
        always_led: bool = False,
        within: WithinEach | None = None,
    ) -> tuple[Primitive, ...]:
        """Words at the free place of a region nearest the anchor, with a leader from afar.

        A leader that crosses no heavy line goes before one that does, this before one that
        crosses lines of dimensions or other leaders; what there is nearby, before all far away.

        Args:
            label: The label.
            region: Where the words may stand [paper in].
            always_led: Whether a leader runs from nearby too.
            within: Tells of places in the region whether they will do.

        Raises:
            NoRoomError: No place within the region is free.
        """
        best: int | None = None  # crossing that can be found
        patience = _PATIENCE
        found: _Found | None = None
        tried = 0
        for tiers in (_NEAR, _FAR):
            free = self._free_boxes(_block_box(label), region, label.anchor, tiers)
            for box, crowded in _those(free, within) if within else free:
                gap = _gap(box, label.anchor)
                if always_led and gap < _LEAST_LEADER:
                    continue
                near = gap <= label.offset + _CLOSE
                led = always_led or not near
                if led and best == CROSSES_WORDS:
                    if always_led:
                        raise NoRoomError(_no_room(label))
                    continue
                tried += 1
                if tried > _FRUITLESS and tried % _LEAP:
                    continue
                if not found and tried > _HOPELESS:
                    raise NoRoomError(_no_room(label))
                below = found.crossing if found else CROSSES_WORDS
                line, crossing = self._course(label, box, below) if led else ((), 0)
                if crossing < below:
                    found = _Found(crossing, box, line, crowded)
                if crossing and best is None:
                    best = least_crossing_around(self._taken, label.anchor, label.offset)
                patience -= found is not None
                if found and (found.crossing <= (best or 0) or not patience):
                    break
            if found:
                return self._drawn(label, found.box, found.line, crowded=found.crowded)
        raise NoRoomError(_no_room(label))

    def _course(self, label: Label, box: Box, below: int) -> tuple[tuple[Point, ...], int]:
        return least_crossing_course(self._taken, box, label.anchor, label.offset, below)

    def place_symbol(
        self,
        symbol: Insert,
        size: Box,
        region: Box,
        *,
        led_to: Point | None = None,
        within: Within | None = None,
    ) -> tuple[Insert, bool]:
        """A symbol at the free place of a region nearest to where it was meant to stand.

        Whether a thin pen may run there is told too.

        Args:
            symbol: The symbol, at the place it was meant for [paper in].
            size: What it covers around its origin [in].
            region: Where it may stand [paper in].
            led_to: Where a straight leader from its middle ends; it crosses no words.
            within: Tells of a place in the region whether it will do.

        Raises:
            NoRoomError: No place within the region is free.
        """
        for box, crowded in self._free_boxes(size, region, symbol.at, _ALL_TIERS):
            if within and not within(box):
                continue
            if led_to and not self._taken.letters.path_is_free((box.center, led_to)):
                continue
            self._taken.write_on(box)
            return replace(symbol, at=(box.x0 - size.x0, box.y0 - size.y0)), crowded
        msg = f"no free place for the symbol {symbol.block}"
        raise NoRoomError(msg)

    def _free_boxes(
        self,
        size: Box,
        region: Box,
        anchor: Point,
        tiers: tuple[tuple[float, int], ...],
        *,
        clear: bool = False,
    ) -> Iterator[tuple[Box, bool]]:
        """Free boxes of a size, nearest the anchor first, and whether a thin pen may lie there.

        Nearby places go before far ones, and of these places the ones clear of all pens before
        those on gray dashed lines, these before those on any thin pen, unless it must be clear.
        """
        taken = self._taken
        maps = (taken.faint, taken.thin) if clear else (taken.faint, taken.thin, taken.hard)
        room = region.shared(self._area).grown(_NOISE)
        farthest = max(room.width, room.height)
        for reach, stride in tiers:
            steps = steps_around(size.width, size.height, min(reach, farthest), stride)
            tried = [Places(taken, size, steps, room, anchor) for taken in maps]
            for places in tried:
                found = False
                for box in places.free():
                    found = True
                    yield box, places is not tried[0]
                if not found and not tried[-1].any_free:
                    break  # the last map has the fewest marks

    def _drawn(
        self, label: Label, box: Box, line: tuple[Point, ...], *, crowded: bool
    ) -> tuple[Primitive, ...]:
        self._taken.write_on(box)
        x, top = box.center[0], box.y1 - label.height
        made: list[Primitive] = [
            Text(
                words,
                (x, top - n * label.height * LINE_PITCH),
                label.height,
                label.layer,
                "center",
                crowded=crowded,
            )
            for n, words in enumerate(label.lines)
        ]
        if line:
            self._taken.lead(line, end_box(line[-1]))
            made.append(leader(line, label.leader_layer, end=label.end, names=label.names))
        return tuple(made)


def _those(boxes: Iterator[tuple[Box, bool]], within: WithinEach) -> Iterator[tuple[Box, bool]]:
    """Those of some boxes that will do."""
    while some := list(islice(boxes, _AT_ONCE)):
        yield from compress(some, within([box for box, _ in some]))


def _no_room(label: Label) -> str:
    return f"no free place for the label {' / '.join(label.lines)!r}"


def _block_box(label: Label, *, slack: float = SLACK) -> Box:
    """Box of the whole label, somewhere near the origin."""
    pitch = label.height * LINE_PITCH
    return united(
        text_box(line, (0.0, -n * pitch), label.height, "center", slack=slack)
        for n, line in enumerate(label.lines)
    )


def _gap(box: Box, point: Point) -> float:
    """Distance from a point to a box [in]."""
    dx = max(box.x0 - point[0], 0.0, point[0] - box.x1)
    dy = max(box.y0 - point[1], 0.0, point[1] - box.y1)
    return math.hypot(dx, dy)
