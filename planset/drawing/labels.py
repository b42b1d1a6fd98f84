"""Labels that step aside for what is already drawn.

Each label takes the free place nearest its anchor. Free means: no text, no medium or wider pen,
no dimension or leader under it; no thinner pen either while there is such a place, gray dashed
lines the first to be crossed. A label that had to move away gets a leader, which crosses neither
words, and other leaders and heavy lines only when there is no other way.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from planset.drawing.dimension import DOT_RADIUS, leader
from planset.drawing.flatten import strokes, texts
from planset.drawing.geometry import Box, Placement, Point, distance, toward, united
from planset.drawing.layers import MEDIUM, Layer
from planset.drawing.occupancy import Occupancy
from planset.drawing.places import CLEAR, STEP, Places, steps_around
from planset.drawing.primitives import (
    Block,
    Dimension,
    Insert,
    Leader,
    Line,
    Primitive,
    Text,
)
from planset.drawing.text import LINE_PITCH, SLACK, text_box

_CLOSE_BY = 0.01  # the same where there is no more [in]
_SHOULDER = 1 / 8
_NOISE = 1e-9
_CLOSE = 0.1  # a label this near what it names needs no leader [in]
_NEAR = ((1.0, 1), (3.0, 1))  # how far from its anchor a label is tried, at every nth step [in]
_FAR = ((math.inf, 2),)
_ALL_TIERS = _NEAR + _FAR
_CROSSES_WORDS = 3  # what no leader may
_DIRECTIONS = 24
_PATIENCE = 500  # how many more places are looked at for a leader that crosses less
_LEAST_LEADER = 0.1  # from words to the point named, where a leader must run [in]
_NEARBY = 0.3  # of a leader before that, where most are barred [in]
_AT_ANCHOR = 0.14  # end of a leader that may cross the outline of what it names [in]


class NoRoomError(ValueError):
    """No place for a label was free."""


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
        # Each map holds what the one before it holds: letters; dimension lines and leaders;
        # medium and wider pens; thinner pens; gray dashed ones.
        self._letters = Occupancy(area)
        self._words = Occupancy(area)
        self._hard = Occupancy(area)
        self._thin = Occupancy(area)
        self._faint = Occupancy(area)

    def copy(self) -> LabelPlacer:
        """A placer that knows of everything drawn so far, for a try."""
        other = LabelPlacer(self._area)
        for known, taken in zip(other._maps, self._maps, strict=True):
            known.mark_all_of(taken)
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
        parts = list(primitives)
        on_paper = placement or Placement()
        for text in texts(parts, on_paper, blocks):
            self._take(rotated_text_box(text, SLACK).grown(CLEAR))
            self._letters.mark_box(rotated_text_box(text))
        for part in parts:
            lines = isinstance(part, Dimension | Leader)
            for stroke in strokes([part], on_paper, blocks):
                self._mark_path(stroke.points, self._maps_of(stroke.layer, annotation=lines))

    def _maps_of(self, layer: Layer, *, annotation: bool) -> tuple[Occupancy, ...]:
        """Where strokes of a layer are marked; those of dimensions and leaders weigh as heavy."""
        if annotation:
            return self._maps[1:]
        if layer.pen_mm >= MEDIUM:
            return self._maps[2:]
        faint = layer.gray and layer.linetype != "CONTINUOUS"
        return (self._faint,) if faint else (self._thin, self._faint)

    @property
    def _maps(self) -> tuple[Occupancy, ...]:
        return (self._letters, self._words, self._hard, self._thin, self._faint)

    def _mark_path(self, points: tuple[Point, ...], maps: tuple[Occupancy, ...]) -> None:
        self._mark(self._hard.cells_of_path(points), maps)

    def _mark(self, cells: list[tuple[int, int]], maps: tuple[Occupancy, ...]) -> None:
        """Take cells in several maps, which all cover one area."""
        for occupancy in maps:
            occupancy.mark_cells(cells)

    def reserve(self, box: Box) -> None:
        """Keep words off a box, and leaders while there is another way [paper in]."""
        self._mark(self._hard.cells_of_box(box), self._maps[2:])

    def _take(self, box: Box) -> None:
        """Keep words and leaders off a box, for a substituted face too."""
        self._mark(self._hard.cells_of_box(box), self._maps[1:])

    def _write_on(self, box: Box) -> None:
        """Take a box for words that are written there."""
        self._take(box.grown(CLEAR))
        self._letters.mark_box(box)

    def settled(self, text: Text) -> Text:
        """A text that can't move, crowded where a pen runs under it."""
        return replace(text, crowded=not self._faint.box_is_free(rotated_text_box(text)))

    def place_first(self, places: Sequence[Text]) -> Text:
        """One text at the first of its places that is clear of all pens, else of heavy ones.

        Raises:
            NoRoomError: Every place has words or a heavy pen on it.
        """
        boxes = [(text, rotated_text_box(text, SLACK)) for text in places]
        for occupancy in (self._faint, self._hard):
            for text, box in boxes:
                if occupancy.box_is_free(box):
                    self._write_on(box)
                    return replace(text, crowded=occupancy is not self._faint)
        msg = f"no free place for the words {places[0].text!r}"
        raise NoRoomError(msg)

    def place_dimension(self, ways: Sequence[Dimension]) -> Dimension:
        """One dimension in the first of its ways that has room, and mark it.

        All of it stays inside the area, its figure clear of words and heavy pens, its lines clear
        of words; a way whose figure is clear of thin pens too is preferred.

        Raises:
            NoRoomError: None of the ways has room.
        """
        for occupancy in (self._faint, self._hard):
            for way in ways:
                figures = [mark for mark in way.marks if isinstance(mark, Text)]
                boxes = [rotated_text_box(figure) for figure in figures]
                fits = all(self._area.contains(b) and occupancy.box_is_free(b) for b in boxes)
                lines = [(mark.a, mark.b) for mark in way.marks if isinstance(mark, Line)]
                if fits and all(self._may_run(line) for line in lines):
                    crowded = occupancy is not self._faint
                    marks = tuple(
                        replace(mark, crowded=crowded) if isinstance(mark, Text) else mark
                        for mark in way.marks
                    )
                    placed = replace(way, marks=marks)
                    self.keep_clear([placed], {})
                    return placed
        msg = f"no room for the dimension {ways[0].text}"
        raise NoRoomError(msg)

    def _may_run(self, line: tuple[Point, Point]) -> bool:
        """Whether a line stays inside the area and crosses no words."""
        return all(self._area.holds(end) for end in line) and self._letters.path_is_free(line)

    def place_inside(self, label: Label, region: Box) -> tuple[Primitive, ...]:
        """Words at the free place of a region that is nearest its middle, without a leader.

        Raises:
            NoRoomError: No place within the region is free.
        """
        free = self._free_boxes(_block_box(label), region, region.center, _ALL_TIERS)
        for box, crowded in free:
            close = self._close_place(label, region) if crowded else None
            return self._drawn(label, close or box, (), crowded=crowded and not close)
        raise NoRoomError(_no_room(label))

    def _close_place(self, label: Label, region: Box) -> Box | None:
        """Where words fit between pens without the room that is kept around them elsewhere."""
        size, (x, y) = _block_box(label, slack=1.0), region.center
        room = region.shared(self._area).grown(_NOISE)
        steps = steps_around(size.width, size.height, *_NEAR[0])
        for shift in (0.0, STEP / 3, -STEP / 3):
            places = Places(self._faint, size, room, (x + shift, y), clear=_CLOSE_BY)
            for box in places.free(steps):
                return box
        return None

    def place_near(
        self, label: Label, region: Box, *, always_led: bool = False
    ) -> tuple[Primitive, ...]:
        """Words at the free place of a region nearest the anchor, with a leader from afar.

        A leader that crosses no heavy line goes before one that does, this before one that
        crosses lines of dimensions or other leaders; what there is nearby, before all far away.

        Args:
            label: The label.
            region: Where the words may stand [paper in].
            always_led: Whether a leader runs from nearby too.

        Raises:
            NoRoomError: No place within the region is free.
        """
        best: int | None = None  # crossing that can be found
        patience = _PATIENCE
        found: _Found | None = None
        for tiers in (_NEAR, _FAR):
            for box, crowded in self._free_boxes(_block_box(label), region, label.anchor, tiers):
                gap = _gap(box, label.anchor)
                if always_led and gap < _LEAST_LEADER:
                    continue
                near = gap <= label.offset + _CLOSE
                led = always_led or not near
                if led and best == _CROSSES_WORDS:
                    continue
                line, crossing = self._led(box, label) if led else ((), 0)
                if crossing < (found.crossing if found else _CROSSES_WORDS):
                    found = _Found(crossing, box, line, crowded)
                if crossing and best is None:
                    best = self._least_crossing_around(label)
                patience -= found is not None
                if found and (found.crossing <= (best or 0) or not patience):
                    break
            if found:
                return self._drawn(label, found.box, found.line, crowded=found.crowded)
        raise NoRoomError(_no_room(label))

    def _led(self, box: Box, label: Label) -> tuple[tuple[Point, ...], int]:
        """The leader from a box that crosses least, and what it crosses."""
        ways = _leader_ways(box, label.anchor)
        crossings = [self._crossing(way, label.offset) for way in ways[:1]]
        if crossings[0]:
            crossings += [self._crossing(way, label.offset) for way in ways[1:]]
        least = min(crossings)
        return ways[crossings.index(least)], least

    def _crossing(self, line: tuple[Point, ...], offset: float) -> int:
        """What is the worst a leader crosses: 0 for nothing that matters, up to words."""
        if not self._letters.box_is_free(_end_box(line[-1])):
            return _CROSSES_WORDS
        if not _leader_is_free(line, 0.0, self._letters, outline=0.0):
            return _CROSSES_WORDS
        for number, uncrossed in enumerate((self._hard, self._words)):
            if _leader_is_free(line, offset, uncrossed):
                return number
        return _CROSSES_WORDS - 1

    def _least_crossing_around(self, label: Label) -> int:
        """The least a leader must cross on its last stretch, whichever way it comes from."""
        x, y = label.anchor
        length = label.offset + _AT_ANCHOR + _NEARBY
        turns = (2 * math.pi * number / _DIRECTIONS for number in range(_DIRECTIONS))
        starts = [(x + length * math.cos(turn), y + length * math.sin(turn)) for turn in turns]
        least = _CROSSES_WORDS
        for start in starts:
            least = min(least, self._crossing((start, label.anchor), label.offset))
            if not least:
                break
        return least

    def place_symbol(
        self, symbol: Insert, size: Box, region: Box, *, led_to: Point | None = None
    ) -> tuple[Insert, bool]:
        """A symbol at the free place of a region nearest to where it was meant to stand.

        Whether a thin pen may run there is told too.

        Args:
            symbol: The symbol, at the place it was meant for [paper in].
            size: What it covers around its origin [in].
            region: Where it may stand [paper in].
            led_to: Where a straight leader from its middle ends; it crosses no words.

        Raises:
            NoRoomError: No place within the region is free.
        """
        for box, crowded in self._free_boxes(size, region, symbol.at, _ALL_TIERS):
            if led_to and not self._letters.path_is_free((box.center, led_to)):
                continue
            self._write_on(box)
            return replace(symbol, at=(box.x0 - size.x0, box.y0 - size.y0)), crowded
        msg = f"no free place for the symbol {symbol.block}"
        raise NoRoomError(msg)

    def _free_boxes(
        self, size: Box, region: Box, anchor: Point, tiers: tuple[tuple[float, int], ...]
    ) -> Iterator[tuple[Box, bool]]:
        """Free boxes of a size, nearest the anchor first, and whether a thin pen may lie there.

        Nearby places go before far ones, and of these places the ones clear of all pens before
        those on gray dashed lines, these before those on any thin pen.
        """
        room = region.shared(self._area).grown(_NOISE)
        farthest = max(room.width, room.height)
        for reach, stride in tiers:
            steps = steps_around(size.width, size.height, min(reach, farthest), stride)
            for occupancy in (self._faint, self._thin, self._hard):
                places = Places(occupancy, size, room, anchor)
                for box in places.free(steps):
                    yield box, occupancy is not self._faint

    def _drawn(
        self, label: Label, box: Box, line: tuple[Point, ...], *, crowded: bool
    ) -> tuple[Primitive, ...]:
        self._write_on(box)
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
            self._mark_path(line, self._maps[1:])
            self._mark(self._hard.cells_of_box(_end_box(line[-1])), self._maps[1:])
            made.append(leader(line, label.leader_layer, end=label.end, names=label.names))
        return tuple(made)


def _leader_is_free(
    line: tuple[Point, ...], offset: float, uncrossed: Occupancy, *, outline: float = _AT_ANCHOR
) -> bool:
    """Whether a leader crosses nothing on its way to the outline of what it names.

    Args:
        line: The leader.
        offset: How far the thing reaches from the leader's end [in].
        uncrossed: What it may not cross.
        outline: How far around the thing it may cross what it likes [in].
    """
    inside = offset + outline
    anchor, knee = line[-1], line[-2]
    whole = distance(knee, anchor)
    if whole < inside:
        return False
    end = toward(anchor, knee, inside)
    nearby = toward(anchor, knee, min(inside + _NEARBY, whole))
    # What encloses the thing bars leaders from every side, so the end is asked about first.
    return uncrossed.path_is_free((nearby, end)) and uncrossed.path_is_free((*line[:-1], end))


def rotated_text_box(text: Text, slack: float = 1.0) -> Box:
    """The axis-parallel box around a line of text at any rotation [in]."""
    box = text_box(text.text, (0.0, 0.0), text.height, text.align, slack=slack)
    turned = Placement(text.at, text.rotation_deg)
    corners = [turned.apply(corner) for corner in box.corners]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


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


def _end_box(anchor: Point) -> Box:
    """What the dot or arrow at the end of a leader may cover."""
    return Box(*anchor, *anchor).grown(DOT_RADIUS)


def _leader_ways(box: Box, anchor: Point) -> list[tuple[Point, ...]]:
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
