"""Draws the grounding path: lanes beside the wires of a tier, and the ways to earth."""

from __future__ import annotations

from math import sqrt

from planset.design.electrical.system import GroundingStep
from planset.design.electrical.topology import Kind
from planset.drawing.geometry import Point
from planset.drawing.primitives import Insert
from planset.drawing.text import MINIMUM_HEIGHT, wrap
from planset.sheets.one_line.ground import (
    BAR_HEIGHT,
    BESIDE,
    ELECTRODE_HEIGHT,
    JUMPER,
    GroundPath,
    earth_side,
    earth_widths,
    earth_words,
    has_bar,
    jumper,
    lane_words,
    lane_words_y,
    neutral_of_tap,
)
from planset.sheets.one_line.node import LANE_DROP, Node
from planset.sheets.one_line.paint import GROUND, SYMBOL, Sketch
from planset.sheets.one_line.sizes import box_extent, panel_shape
from planset.sheets.one_line.wire_words import brief

_BESIDE_LINE = 0.07  # of words from a conductor to earth [in]
_BRANCH = 0.04  # from a bar down to where its electrodes part [in]
_UNDER_BRANCH = 0.04  # of words under the middle of a conductor, clear of where it parts [in]
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
            elif feed is not None and not feed.unit.continued:
                y = node.rows[number] + min(wire.rise for wire in feed.wires)
                middle = (lane_start(sketch, feed, y) + _side(sketch, node, y, right=False)) / 2
                draw_lane_words(sketch, lane_words(feed, path), (middle, y))
        if node.earth:
            _draw_earth(sketch, node, sides[1])
        if node.unit.kind is Kind.TAP:
            _draw_neutrals(sketch, node, path)


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
        end = _draw_to_tap(sketch, node, 1.0 if number else -1.0, (start, y))
    if not feed.unit.continued:
        draw_lane_words(sketch, lane_words(feed, path), ((start + end) / 2, y))


def _draw_to_tap(sketch: Sketch, node: Node, toward: float, start: Point) -> float:
    """A lane from a point to the dot of a tap; where its level part ends [in].

    It keeps to the left of what comes to the tap from below (`toward` -1) or to the right (1).
    """
    half = sketch.style.symbol(Kind.TAP).box.x1
    around = node.symbol.x1 if sketch.style.each else 0.0
    end, beyond = node.x + toward * max(half, around), node.x + toward * (LANE_DROP + around)
    under = node.y + node.lane
    points = [start, (beyond, start[1]), (beyond, under), (end, under), (end, under + LANE_DROP)]
    sketch.wire(*points, layer=GROUND)
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
    """The bar of an enclosure under it, and the electrodes under the bar."""
    x, y = node.x, _bottom(node, sketch)
    widths, toward = earth_widths(node), earth_side(node, right)
    bonded, *electrodes = node.earth
    if not has_bar(node):
        _draw_electrode(sketch, bonded, (x, y), toward, y - node.sink - JUMPER)
        return
    foot = y - jumper(node)
    sketch.wire((x, y), (x, foot), layer=GROUND)
    aside = -1.0 if node.neutral else toward
    _write_beside(sketch, earth_words(bonded), (x, foot + JUMPER / 2), toward * _BESIDE_LINE)
    sketch.model.append(Insert("NEUTRAL_BAR", (x, foot), SYMBOL))
    name = bonded.end.removeprefix(f"{bonded.start} ")
    _write_beside(sketch, name, (x, foot - BAR_HEIGHT / 2), aside * BESIDE)
    y = foot - BAR_HEIGHT
    for number, step in enumerate(electrodes):  # at the left of a neutral that leads to the right
        at = x + aside * sum(widths[1 : number + 1])
        if number:
            before = x + aside * sum(widths[1:number])
            sketch.wire((before, y - _BRANCH), (at, y - _BRANCH), layer=GROUND)
        top = y - _BRANCH if number else y
        _draw_electrode(sketch, step, (at, top), aside, y - JUMPER)


def _draw_electrode(
    sketch: Sketch, step: GroundingStep, top: Point, toward: float, foot: float | None = None
) -> None:
    x, y = top
    foot = y - JUMPER if foot is None else foot
    sketch.wire(top, (x, foot), layer=GROUND)
    _write_beside(
        sketch, earth_words(step), (x, foot + JUMPER / 2 - _UNDER_BRANCH), toward * _BESIDE_LINE
    )
    sketch.model.append(Insert("GROUNDING_ELECTRODE", (x, foot), SYMBOL))
    _write_beside(sketch, step.end, (x, foot - ELECTRODE_HEIGHT / 2), toward * BESIDE)


def _write_beside(sketch: Sketch, words: str, at: Point, by: float) -> None:
    """Words at the left or the right of a point, half as high as they are under its level."""
    place = (at[0] + by, at[1] - MINIMUM_HEIGHT / 2)
    sketch.text(words, place, "left" if by > 0 else "right")


def _draw_neutrals(sketch: Sketch, node: Node, path: GroundPath) -> None:
    """Neutrals between a tap and the bars of what comes to it."""
    for number, feed in enumerate(node.children):
        if feed.neutral is not None:
            start = _bar_end(sketch, feed)
            end = _draw_to_tap(sketch, node, 1.0 if number else -1.0, start)
            draw_lane_words(sketch, [brief(feed.neutral.conductor)],
                            ((start[0] + end) / 2, start[1]))  # fmt: skip
    brought = neutral_of_tap(node, path)
    if brought:
        step, holder = brought
        start = _bar_end(sketch, holder)
        end = _draw_to_tap(sketch, node, 1.0, start)
        room = end - holder.x - BESIDE - _BESIDE_LINE
        for level, words in enumerate(wrap(brief(step.conductor), MINIMUM_HEIGHT, room)):
            sketch.text(words, (end, lane_words_y(start[1], level)), "right")


def _bar_end(sketch: Sketch, node: Node) -> Point:
    """The right end of the bar under an enclosure [in]."""
    half = sketch.style.symbols["NEUTRAL_BAR"].box.x1
    return (node.x + half, _bottom(node, sketch) - jumper(node) - BAR_HEIGHT / 2)


def _bottom(node: Node, sketch: Sketch) -> float:
    """The foot of an enclosure [in]."""
    first = node.rows[0] if node.rows else node.y
    rows = [row - first for row in node.rows]
    if node.unit.panel is not None:
        return first + panel_shape(node.unit, sketch.style, rows).outline[0]
    return first + box_extent(node, rows)[2]
