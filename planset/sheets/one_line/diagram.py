"""Draws a folded diagram, page by page."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.electrical.topology import Segment
from planset.drawing.primitives import Block, Insert, Primitive
from planset.sheets.one_line.draw import draw_names, draw_tier, out_x
from planset.sheets.one_line.fold import LANE_ROOM, PART_GAP, Folded, Tier
from planset.sheets.one_line.ground import BUS_DROP, GroundBus, ground_bus, tap_x, words_y
from planset.sheets.one_line.node import NAMES_GAP, Node
from planset.sheets.one_line.paint import GROUND, SYMBOL, Sketch
from planset.sheets.one_line.place import tier_extent
from planset.sheets.one_line.sizes import (
    CONTINUATION,
    box_extent,
    continuation_label,
    panel_shape,
)
from planset.sheets.one_line.units import tags_of

_RISER_X = 0.1  # of the ground bus, left of everything [in]
_LANE_X = 0.3  # where a tier's wire comes down to the next [in]
_LANE_OUT = 0.17  # of that wire beyond the units, at the right [in]
_OVER_FOOT = 0.06  # of the lane over the tier below [in]
_NUMBER_X = 0.3  # from there to the number of the segment [in]
_MARK_X = 1.0  # from the last unit to the mark where a tier goes on elsewhere [in]


@dataclass(frozen=True, slots=True)
class Diagram:
    """One page of a drawn diagram, in inches from its lower left corner.

    Attributes:
        height: Its height [in].
        model: Symbols, wires and enclosures.
        annotation: Tags and labels.
        blocks: Blocks made for this system, beside the symbols.
    """

    height: float
    model: tuple[Primitive, ...]
    annotation: tuple[Primitive, ...]
    blocks: tuple[Block, ...]


def draw_pages(folded: Folded, sheets: tuple[str, ...]) -> tuple[Diagram, ...]:
    """Draw every page.

    Args:
        folded: The diagram.
        sheets: Id of the sheet of each page.
    """
    where = {
        tag: sheet
        for page, sheet in zip(folded.pages, sheets, strict=True)
        for tier in page
        for node in tier.root.walk()
        for tag in tags_of(node.unit)
    }
    return tuple(_page(page, folded, where) for page in folded.pages)


def _page(tiers: tuple[Tier, ...], folded: Folded, where: dict[str, str]) -> Diagram:
    sketch = Sketch(folded.style)
    gaps = sum(PART_GAP for tier in tiers[:-1] if not tier.joined)
    height = top = sum(tier.height for tier in tiers) + gaps
    buses: list[tuple[float, float]] = []
    for number, tier in enumerate(tiers):
        _move(tier.root, top - tier_extent(tier.root)[1])
        draw_tier(sketch, tier.root, _LANE_X)
        _draw_marks(sketch, tier.root, where)
        buses += _draw_ground(sketch, tier.root, folded.known, tier.right)
        top -= tier.height
        if tier.joined:
            _draw_connection(sketch, tier, tiers[number + 1], top)
        else:
            top -= PART_GAP
            _draw_end_mark(sketch, tier.root, where)
    _draw_riser(sketch, buses)
    return Diagram(height, tuple(sketch.model), tuple(sketch.words), tuple(sketch.blocks))


def _draw_riser(sketch: Sketch, buses: list[tuple[float, float]]) -> None:
    """The ground buses of a page joined at the left; each is its left end and its level."""
    if len(buses) > 1:
        for x, y in buses:
            sketch.wire((_RISER_X, y), (x, y), layer=GROUND)
        levels = [y for _, y in buses]
        sketch.wire((_RISER_X, max(levels)), (_RISER_X, min(levels)), layer=GROUND)


def _move(root: Node, by: float) -> None:
    for node in root.walk():
        node.y += by
        node.rows = [row + by for row in node.rows]


def _draw_marks(sketch: Sketch, root: Node, where: dict[str, str]) -> None:
    """Where conductors come from a part that is drawn elsewhere."""
    for node in root.walk():
        if node.unit.marked:
            _draw_mark(sketch, node, node.x)
            tag = node.unit.tag
            label = continuation_label(node.unit, "FROM", tag, where[tag])
            sketch.label(label, (node.x, node.y + node.span + node.symbol.y1))


def _draw_end_mark(sketch: Sketch, root: Node, where: dict[str, str]) -> None:
    """Where the conductors of a part go on elsewhere."""
    way = root.unit.onward
    if not isinstance(way, Segment):
        return
    box = sketch.style.symbols[CONTINUATION].box
    named = any(wire.name for wire in root.wires)
    x = root.x1 + _MARK_X + (NAMES_GAP if named else 0.0)
    for wire in root.wires:
        y = root.y + wire.rise
        sketch.wire((out_x(root, sketch, wire), y), (x + box.x0, y))
    place = x - _MARK_X + _NUMBER_X
    sketch.numbers((way,), place, root.y + root.span)
    if named:
        draw_names(sketch, root.wires, (root.x1, root.y))
    _draw_mark(sketch, root, x)
    label = continuation_label(root.unit, "TO", way.end, where[way.end])
    sketch.label(label, (x, root.y + root.span + box.y1))


def _draw_mark(sketch: Sketch, node: Node, x: float) -> None:
    """A mark on every conductor of a node's way onward."""
    marks = [Insert(CONTINUATION, (x, node.y + wire.rise), SYMBOL) for wire in node.wires]
    sketch.model += marks


def _draw_connection(sketch: Sketch, tier: Tier, below: Tier, foot: float) -> None:
    """The wire from the end of a tier, around its right side, to the start of the next.

    Args:
        sketch: What to draw on.
        tier: The tier.
        below: The next, its top at `foot`.
        foot: Lower end of the room between them [in].
    """
    lane = foot + _OVER_FOOT + LANE_ROOM * tier.root.span
    stub = next(node for node in below.root.walk() if node.unit.continued and not node.unit.marked)
    _, high = tier_extent(below.root)
    entry = foot - high + _entry_level(below.root, stub)
    right = tier.right + _LANE_OUT
    root = tier.root
    for wire in root.wires:
        out, turn, level = right + wire.lane, _LANE_X + wire.lane, lane - wire.lane
        start, arrives = root.y + wire.rise, entry + wire.rise
        begin = (out_x(root, sketch, wire), start)
        sketch.wire(begin, (out, start), (out, level), (turn, level), (turn, arrives))
    highest = lane + max(-wire.lane for wire in root.wires)
    way = root.unit.onward
    if isinstance(way, Segment):
        middle = (_LANE_X + right) / 2
        sketch.numbers((way,), middle, highest)
        sketch.text(f"{way.start} TO {way.end}{_names(root)}", (middle + 0.2, highest + 0.05))


def _names(root: Node) -> str:
    """The names of the conductors of a way onward, for words beside it."""
    names = ", ".join(wire.name for wire in root.wires if wire.name)
    return f": {names}" if names else ""


def _entry_level(root: Node, stub: Node) -> float:
    """Level of the row of the continuation, before the tier is moved [in]."""
    for node in root.walk():
        for feed, row in zip(node.feeds, node.rows, strict=True):
            if feed is stub:
                return row
    raise AssertionError


def _draw_ground(
    sketch: Sketch, root: Node, known: GroundBus, right: float
) -> list[tuple[float, float]]:
    """The ground buses of a tier; the left end and the level of each."""
    found: list[tuple[Node, float, float]] = [(root, root.y - root.down, right)]
    for node in root.walk():
        bands = zip(node.feeds[:-1], node.rows[:-1], strict=True)
        found += [(f, row - f.down, node.x0) for f, row in bands if f is not None and f.channel]
    buses = []
    for band, foot, words_end in found:
        channel = ground_bus(band, known, words_end)
        if not channel.taps:
            continue
        y = foot - BUS_DROP
        buses.append((tap_x(channel.taps[0]), y))
        for node in channel.taps:
            sketch.wire((tap_x(node), _bottom(node, sketch)), (tap_x(node), y), layer=GROUND)
        first, last = tap_x(channel.taps[0]), tap_x(channel.taps[-1])
        sketch.wire((first, y), (last, y), layer=GROUND)
        for said in channel.words:
            sketch.text(said.text, (said.x, words_y(y, said.level)))
        if channel.electrode is not None:
            at = (tap_x(channel.electrode), y)
            sketch.model.append(Insert("GROUNDING_ELECTRODE", at, SYMBOL))
    return buses


def _bottom(node: Node, sketch: Sketch) -> float:
    """Where a bonding conductor leaves a node [in]."""
    if node.unit.panel is not None:
        base = node.rows[0] if node.rows else node.y
        shape = panel_shape(node.unit, sketch.style, [row - base for row in node.rows])
        return base + shape.outline[0]
    first = node.rows[0] if node.rows else node.y
    _, _, bottom = box_extent(node, [row - first for row in node.rows])
    return first + bottom
