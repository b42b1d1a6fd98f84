"""Labels that step aside for what is already drawn.

Each label takes the free place nearest its anchor. Free means: no text, no medium or wider pen,
no dimension or leader under it; no thinner pen either while there is such a place, gray dashed
lines the first to be crossed. A label that had to move away gets a leader, which crosses neither
text nor heavy lines.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

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
    Primitive,
    Text,
)
from planset.drawing.text import LINE_PITCH, SLACK, text_box

_CLEAR = 0.03  # kept free around every label [in]
_SHOULDER = 1 / 8
_STEP = 0.06  # between places tried [in]
_CLOSE = 0.1  # a label this near what it names needs no leader [in]
_REACH = 1.0  # how far from its anchor a label is tried first [in]
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
        self._taken = Occupancy(area)
        self._heavy = Occupancy(area)
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
            self._taken.mark_box(rotated_text_box(text, SLACK).grown(_CLEAR))
        for part in parts:
            lines = isinstance(part, Dimension | Leader)
            for stroke in strokes([part], on_paper, blocks):
                self._map_of(stroke.layer, annotation=lines).mark_path(stroke.points)

    def _map_of(self, layer: Layer, *, annotation: bool) -> Occupancy:
        """Where strokes of a layer are marked; those of dimensions and leaders weigh as heavy."""
        if annotation or layer.pen_mm >= MEDIUM:
            return self._heavy
        return self._faint if layer.gray and layer.linetype != "CONTINUOUS" else self._thin

    def reserve(self, box: Box) -> None:
        """Keep all words off a box [paper in]."""
        self._taken.mark_box(box)

    def place_inside(self, label: Label, region: Box) -> tuple[Primitive, ...]:
        """Words at the free place of a region that is nearest its middle, without a leader.

        Raises:
            NoRoomError: No place within the region is free.
        """
        size = _block_box(label)
        for maps in self._passes():
            for middle in _places(region, size, region.center):
                box = _at(size, middle)
                if self._free(box, maps):
                    return self._drawn(label, box, ())
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
        size = _block_box(label)
        for reach in (_REACH, 3 * _REACH, math.inf):
            places = _places(_around(region, label.anchor, size, reach), size, label.anchor)
            for maps in self._passes():
                for box in (_at(size, at) for at in places):
                    if not self._free(box, maps):
                        continue
                    near = _gap(box, label.anchor) <= label.offset + _CLOSE
                    line = () if near and not always_led else _leader_points(box, label.anchor)
                    if self._leader_is_free(line, label.offset):
                        return self._drawn(label, box, line)
        raise NoRoomError(_no_room(label))

    def place_symbol(self, symbol: Insert, size: Box, region: Box) -> Insert:
        """A symbol at the free place of a region nearest to where it was meant to stand.

        Args:
            symbol: The symbol, at the place it was meant for [paper in].
            size: What it covers around its origin [in].
            region: Where it may stand [paper in].

        Raises:
            NoRoomError: No place within the region is free.
        """
        for maps in self._passes():
            for middle in _places(region, size, symbol.at):
                box = _at(size, middle)
                if self._free(box, maps):
                    self._taken.mark_box(box.grown(_CLEAR))
                    shift = (middle[0] - size.center[0], middle[1] - size.center[1])
                    return replace(symbol, at=shift)
        msg = f"no free place for the symbol {symbol.block}"
        raise NoRoomError(msg)

    def _passes(self) -> Iterator[tuple[Occupancy, ...]]:
        """What to stay clear of, strictest first."""
        always = (self._taken, self._heavy)
        yield (*always, self._thin, self._faint)
        yield (*always, self._thin)
        yield always

    def _free(self, box: Box, maps: tuple[Occupancy, ...]) -> bool:
        grown = box.grown(_CLEAR)
        return self._area.contains(box) and all(taken.box_is_free(grown) for taken in maps)

    def _leader_is_free(self, line: tuple[Point, ...], offset: float) -> bool:
        """Whether a leader crosses nothing on its way to the outline of what it names."""
        if not line:
            return True
        inside = offset + _AT_ANCHOR
        if distance(line[-2], line[-1]) < inside:
            return False
        run = (*line[:-1], toward(line[-1], line[-2], inside))
        return self._taken.path_is_free(run) and self._heavy.path_is_free(run)

    def _drawn(self, label: Label, box: Box, line: tuple[Point, ...]) -> tuple[Primitive, ...]:
        self._taken.mark_box(box.grown(_CLEAR))
        x, top = box.center[0], box.y1 - label.height
        made: list[Primitive] = [
            Text(
                words,
                (x, top - n * label.height * LINE_PITCH),
                label.height,
                label.layer,
                "center",
            )
            for n, words in enumerate(label.lines)
        ]
        if line:
            self._heavy.mark_path(line)
            made.append(leader(line, label.leader_layer, end=label.end, names=label.names))
        return tuple(made)


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


def _around(region: Box, anchor: Point, size: Box, reach: float) -> Box:
    """The part of a region within reach of an anchor."""
    x, y = anchor
    wide, high = reach + size.width, reach + size.height
    return Box(
        max(region.x0, x - wide),
        max(region.y0, y - high),
        min(region.x1, x + wide),
        min(region.y1, y + high),
    )


def _at(size: Box, middle: Point) -> Box:
    return size.moved(middle[0] - size.center[0], middle[1] - size.center[1])


def _places(region: Box, size: Box, anchor: Point) -> list[Point]:
    """Middles to try within a region, those whose box is nearest the anchor first."""
    half_w, half_h = size.width / 2, size.height / 2
    columns = math.floor((region.width - size.width) / _STEP + 1e-9)
    rows = math.floor((region.height - size.height) / _STEP + 1e-9)
    if columns < 0 or rows < 0:
        return []
    x0 = region.center[0] - columns * _STEP / 2
    y0 = region.center[1] - rows * _STEP / 2
    ranked = []
    for column in range(columns + 1):
        x = x0 + column * _STEP
        dx = abs(x - anchor[0])
        for row in range(rows + 1):
            y = y0 + row * _STEP
            dy = abs(y - anchor[1])
            gap = math.hypot(max(dx - half_w, 0.0), max(dy - half_h, 0.0))
            ranked.append((round(gap, 3), round(dx + dy, 3), x, -y))
    ranked.sort()
    return [(x, -y) for _, _, x, y in ranked]


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
