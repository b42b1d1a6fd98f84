"""Draws the grounding path: lanes beside the wires of a tier, and the ways to earth."""

from __future__ import annotations

from math import sqrt

from planset.design.electrical.topology import Kind
from planset.drawing.geometry import Point
from planset.drawing.primitives import Insert
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets.one_line.ground import (
    BAR_HEIGHT,
    BESIDE,
    JUMPER,
    GroundPath,
    earth_width,
    earth_words,
    lane_words,
    lane_words_y,
)
from planset.sheets.one_line.node import LANE_DROP, Node
from planset.sheets.one_line.paint import GROUND, SYMBOL, Sketch
from planset.sheets.one_line.sizes import box_extent, panel_shape

_BESIDE_LINE = 0.07
_ROUND = frozenset({Kind.METER, Kind.UTILITY_METER})


def draw_bonds(sketch: Sketch, root: Node, path: GroundPath, sides: tuple[float, float]) -> None:
    """All lanes of a tier but the one onward from its end, and its ways to earth.

    Args:
        sketch: What to draw on.
        root: The tier.
        path: The grounding path.
        sides: Where the wire of the tier above comes down, and where words must end [in].
    """
    for node in root.walk():
        for number, feed in enumerate(node.feeds):
            if feed is not None and feed.bonds:
                _draw_lane(sketch, node, number, path, sides[0])
        if node.earth:
            _draw_earth(sketch, node, sides[1])


def inset(node: Node) -> float:
    """How far the lowest conductor of a wire from tier to tier lies from its middle [in]."""
    return max(-wire.lane for wire in node.wires)


def _draw_lane(sketch: Sketch, node: Node, number: int, path: GroundPath, entry_x: float) -> None:
    feed = node.feeds[number]
    assert feed is not None
    y = node.rows[number] + feed.lane
    from_above = feed.unit.continued and not feed.unit.marked
    start = entry_x - inset(feed) - LANE_DROP if from_above else lane_start(sketch, feed, y)
    if node.unit.kind is not Kind.TAP:
        end = _side(sketch, node, y, right=False)
        sketch.wire((start, y), (end, y), layer=GROUND)
    else:
        end = _draw_to_tap(sketch, node, number, (start, y))
    if not feed.unit.continued:
        draw_lane_words(sketch, lane_words(feed, path), ((start + end) / 2, y))


def _draw_to_tap(sketch: Sketch, node: Node, number: int, start: Point) -> float:
    """The lane beside a wire to a tap, up to its dot; where its level part ends [in]."""
    dot = sketch.style.symbol(Kind.TAP).box
    foot = node.y - node.span
    if number == 0:
        end = node.x + (node.symbol.x0 if sketch.style.each else dot.x0)
        sketch.wire(start, (end, start[1]), (end, foot), layer=GROUND)
        return end
    end = node.x + dot.x1
    beyond = node.x + LANE_DROP + (node.symbol.x1 if sketch.style.each else 0.0)
    under = foot - LANE_DROP
    sketch.wire(start, (beyond, start[1]), (beyond, under), (end, under), (end, foot), layer=GROUND)
    return beyond


def draw_lane_words(sketch: Sketch, lines: list[str], middle: Point) -> None:
    """What stands under a lane, about its middle."""
    for level, words in enumerate(lines):
        sketch.text(words, (middle[0], lane_words_y(middle[1], level)), "center")


def lane_start(sketch: Sketch, node: Node, y: float) -> float:
    """Where a lane leaves a node, or the outline that the node stands in [in]."""
    return _side(sketch, node, y, right=True)


def _side(sketch: Sketch, node: Node, y: float, *, right: bool) -> float:
    unit = node.unit
    around = sketch.around.get(unit.tag)
    if around is not None and not unit.continued:
        return around.x1 if right else around.x0
    toward = 1.0 if right else -1.0
    if unit.panel is not None:
        first = node.rows[0] if node.rows else node.y
        rows = [row - first for row in node.rows]
        return node.x + toward * panel_shape(unit, sketch.style, rows).width / 2
    if unit.kind in _ROUND and not sketch.style.each:
        radius = node.symbol.x1
        return node.x + toward * sqrt(radius**2 - (y - node.y) ** 2)
    return node.x + (node.symbol.x1 if right else node.symbol.x0)


def _draw_earth(sketch: Sketch, node: Node, right: float) -> None:
    """Jumper, neutral bar and electrode one below another, their sizes and names beside them."""
    x, y = node.x, _bottom(node, sketch)
    leftward = x + earth_width(node) > right
    align = "right" if leftward else "left"
    toward = -1.0 if leftward else 1.0
    for step in node.earth:
        foot = y - JUMPER
        sketch.wire((x, y), (x, foot), layer=GROUND)
        level = (y + foot - MINIMUM_HEIGHT) / 2
        sketch.text(earth_words(step), (x + toward * _BESIDE_LINE, level), align)
        last = step is node.earth[-1]
        block = "GROUNDING_ELECTRODE" if last else "NEUTRAL_BAR"
        sketch.model.append(Insert(block, (x, foot), SYMBOL))
        name_y = foot - (0.22 if last else BAR_HEIGHT / 2 + MINIMUM_HEIGHT / 2)
        sketch.text(step.end, (x + toward * BESIDE, name_y), align)
        y = foot - BAR_HEIGHT


def _bottom(node: Node, sketch: Sketch) -> float:
    """The foot of an enclosure [in]."""
    first = node.rows[0] if node.rows else node.y
    rows = [row - first for row in node.rows]
    if node.unit.panel is not None:
        return first + panel_shape(node.unit, sketch.style, rows).outline[0]
    return first + box_extent(node, rows)[2]
