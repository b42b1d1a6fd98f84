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
from functools import cache, lru_cache

from planset.drawing.dimension import leader
from planset.drawing.flatten import strokes, texts
from planset.drawing.geometry import Box, Placement, Point, distance, toward, united
from planset.drawing.layers import MEDIUM, Layer
from planset.drawing.occupancy import Occupancy
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

_CLEAR = 0.03  # kept free around every label [in]
_SHOULDER = 1 / 8
_NOISE = 1e-9
_ALL = -1  # every bit
_STEP = 0.06  # between places tried [in]
_CLOSE = 0.1  # a label this near what it names needs no leader [in]
_REACH = 1.0  # how far from its anchor a label is tried first [in]
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
            self._take(rotated_text_box(text, SLACK).grown(_CLEAR))
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
        self._take(box.grown(_CLEAR))
        self._letters.mark_box(box)

    def settled(self, text: Text) -> Text:
        """A text that can't move, crowded where a pen runs under it."""
        return replace(text, crowded=not self._faint.box_is_free(rotated_text_box(text)))

    def place_first(self, places: Sequence[Text]) -> Text:
        """One text at the first of its places that is clear of all pens, else of heavy ones.

        When pens run everywhere, a place clear of other words will do.

        Raises:
            NoRoomError: Every place has words on it.
        """
        boxes = [(text, rotated_text_box(text, SLACK)) for text in places]
        for occupancy in (self._faint, self._hard, self._letters):
            for text, box in boxes:
                if occupancy.box_is_free(box):
                    self._write_on(box)
                    return replace(text, crowded=occupancy is not self._faint)
        msg = f"no free place for the words {places[0].text!r}"
        raise NoRoomError(msg)

    def place_dimension(self, ways: Sequence[Dimension]) -> Dimension:
        """One dimension in the first of its ways that has room, and mark it.

        Its figure stays inside the area and clear of words and heavy pens, its lines clear of
        words; a way clear of thin pens too is preferred.

        Raises:
            NoRoomError: None of the ways has room.
        """
        for occupancy in (self._faint, self._hard):
            for way in ways:
                figures = [mark for mark in way.marks if isinstance(mark, Text)]
                boxes = [rotated_text_box(figure) for figure in figures]
                fits = all(self._area.contains(b) and occupancy.box_is_free(b) for b in boxes)
                lines = (mark for mark in way.marks if isinstance(mark, Line))
                if fits and all(self._letters.path_is_free((line.a, line.b)) for line in lines):
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

    def place_inside(self, label: Label, region: Box) -> tuple[Primitive, ...]:
        """Words at the free place of a region that is nearest its middle, without a leader.

        Raises:
            NoRoomError: No place within the region is free.
        """
        for box, crowded in self._free_boxes(_block_box(label), region, region.center):
            return self._drawn(label, box, (), crowded=crowded)
        raise NoRoomError(_no_room(label))

    def place_near(
        self, label: Label, region: Box, *, always_led: bool = False
    ) -> tuple[Primitive, ...]:
        """Words at the free place of a region nearest the anchor, with a leader from afar.

        Args:
            label: The label.
            region: Where the words may stand [paper in].
            always_led: Whether a leader runs from nearby too.

        Raises:
            NoRoomError: No place within the region is free.
        """
        for uncrossed in (self._hard, self._words, self._letters):
            for box, crowded in self._free_boxes(_block_box(label), region, label.anchor):
                near = _gap(box, label.anchor) <= label.offset + _CLOSE
                line = () if near and not always_led else _leader_points(box, label.anchor)
                if _leader_is_free(line, label.offset, uncrossed):
                    return self._drawn(label, box, line, crowded=crowded)
        raise NoRoomError(_no_room(label))

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
        for box, crowded in self._free_boxes(size, region, symbol.at):
            if led_to and not self._letters.path_is_free((box.center, led_to)):
                continue
            self._take(box.grown(_CLEAR))
            return replace(symbol, at=(box.x0 - size.x0, box.y0 - size.y0)), crowded
        msg = f"no free place for the symbol {symbol.block}"
        raise NoRoomError(msg)

    def _free_boxes(self, size: Box, region: Box, anchor: Point) -> Iterator[tuple[Box, bool]]:
        """Free boxes of a size, nearest the anchor first, and whether a thin pen may lie there.

        Nearby places go before far ones, and of these places the ones clear of all pens before
        those on gray dashed lines, these before those on any thin pen.
        """
        room = region.shared(self._area).grown(_NOISE)
        farthest = max(room.width, room.height)
        for reach, stride in ((_REACH, 1), (3 * _REACH, 1), (farthest, 3), (farthest, 1)):
            steps = _steps(size.width, size.height, min(reach, farthest), stride)
            for occupancy in (self._faint, self._thin, self._hard):
                places = _Places(occupancy, size, room, anchor)
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
            made.append(leader(line, label.leader_layer, end=label.end, names=label.names))
        return tuple(made)


def _leader_is_free(line: tuple[Point, ...], offset: float, uncrossed: Occupancy) -> bool:
    """Whether a leader crosses nothing on its way to the outline of what it names."""
    if not line:
        return True
    inside = offset + _AT_ANCHOR
    anchor, knee = line[-1], line[-2]
    whole = distance(knee, anchor)
    if whole < inside:
        return False
    outline = toward(anchor, knee, inside)
    nearby = toward(anchor, knee, min(inside + _NEARBY, whole))
    # What encloses the thing bars leaders from every side, so the end is asked about first.
    return uncrossed.path_is_free((nearby, outline)) and uncrossed.path_is_free(
        (*line[:-1], outline)
    )


def rotated_text_box(text: Text, slack: float = 1.0) -> Box:
    """The axis-parallel box around a line of text at any rotation [in]."""
    box = text_box(text.text, (0.0, 0.0), text.height, text.align, slack=slack)
    turned = Placement(text.at, text.rotation_deg)
    corners = [turned.apply(corner) for corner in box.corners]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _no_room(label: Label) -> str:
    return f"no free place for the label {' / '.join(label.lines)!r}"


def _block_box(label: Label) -> Box:
    """Box of the whole label, somewhere near the origin."""
    pitch = label.height * LINE_PITCH
    return united(
        text_box(line, (0.0, -n * pitch), label.height, "center", slack=SLACK)
        for n, line in enumerate(label.lines)
    )


def _at(size: Box, middle: Point) -> Box:
    return size.moved(middle[0] - size.center[0], middle[1] - size.center[1])


class _Places:
    """Places for a box on a grid of steps around an anchor.

    What is taken in the rows of a step is put together once for all columns.

    Args:
        occupancy: What is taken.
        size: The box, somewhere.
        room: The box stays inside it [paper in].
        anchor: The middle of the box at no steps [paper in].
    """

    def __init__(self, occupancy: Occupancy, size: Box, room: Box, anchor: Point) -> None:
        self._occupancy, self._room, self._anchor = occupancy, room, anchor
        self._size, self._half = size, (size.width / 2, size.height / 2)

    def free(self, steps: Iterable[tuple[int, int]]) -> Iterator[Box]:
        """The boxes at these steps, across and up, that are free and in the room."""
        columns, taken = cache(self._columns), cache(self._taken)
        for across, up in steps:
            wanted = columns(across)
            if wanted and not wanted & taken(up):
                x, y = self._anchor
                yield _at(self._size, (x + across * _STEP, y + up * _STEP))

    def _columns(self, across: int) -> int:
        """The columns a box takes, none when it leaves the room."""
        x = self._anchor[0] + across * _STEP
        left, right = x - self._half[0], x + self._half[0]
        if left < self._room.x0 or right > self._room.x1:
            return 0
        return self._occupancy.columns_between(left - _CLEAR, right + _CLEAR)

    def _taken(self, up: int) -> int:
        """The columns taken in the rows of a box, all when it leaves the room."""
        y = self._anchor[1] + up * _STEP
        foot, top = y - self._half[1], y + self._half[1]
        if foot < self._room.y0 or top > self._room.y1:
            return _ALL
        return self._occupancy.taken_between(foot - _CLEAR, top + _CLEAR)


@lru_cache(maxsize=64)
def _steps(width: float, height: float, reach: float, stride: int) -> tuple[tuple[int, int], ...]:
    """Every so many steps across and up from an anchor, nearest boxes first."""
    half_w, half_h = width / 2, height / 2
    columns, rows = (int((reach + half) / _STEP) // stride * stride for half in (half_w, half_h))
    ranked = []
    for across in range(-columns, columns + 1, stride):
        dx = abs(across) * _STEP
        beside = max(dx - half_w, 0.0)
        for up in range(-rows, rows + 1, stride):
            dy = abs(up) * _STEP
            gap = math.hypot(beside, max(dy - half_h, 0.0))
            ranked.append((round(gap, 3), round(dx + dy, 3), across, -up))
    ranked.sort()
    return tuple((across, -down) for _, _, across, down in ranked)


def _gap(box: Box, point: Point) -> float:
    """Distance from a point to a box [in]."""
    dx = max(box.x0 - point[0], 0.0, point[0] - box.x1)
    dy = max(box.y0 - point[1], 0.0, point[1] - box.y1)
    return math.hypot(dx, dy)


def _leader_points(box: Box, anchor: Point) -> tuple[Point, ...]:
    """From the side of the label that faces its anchor, over a short shoulder."""
    middle = box.center[1]
    if box.x0 - _CLEAR - _SHOULDER > anchor[0]:
        start: Point = (box.x0 - _CLEAR, middle)
        knee = (start[0] - _SHOULDER, middle)
    elif box.x1 + _CLEAR + _SHOULDER < anchor[0]:
        start = (box.x1 + _CLEAR, middle)
        knee = (start[0] + _SHOULDER, middle)
    else:
        edge = box.y0 - _CLEAR if box.y0 > anchor[1] else box.y1 + _CLEAR
        return ((box.center[0], edge), anchor)
    return (start, knee, anchor)
