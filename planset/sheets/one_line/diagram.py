"""Draws a folded diagram, page by page."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.electrical.topology import Segment
from planset.drawing.primitives import Block, Insert, Primitive
from planset.sheets.one_line.bonding import draw_bonds, draw_lane_words, inset, lane_start
from planset.sheets.one_line.draw import draw_names, draw_tier, out_x
from planset.sheets.one_line.fold import LANE_ROOM, PART_GAP, Folded, Tier
from planset.sheets.one_line.ground import GroundPath, lane_words, lane_words_y
from planset.sheets.one_line.node import (
    LANE_DROP,
    NAMES_GAP,
    TAG_RADIUS,
    Node,
    mark_distance,
)
from planset.sheets.one_line.paint import GROUND, SYMBOL, Sketch
from planset.sheets.one_line.place import tier_extent
from planset.sheets.one_line.sizes import (
    CONTINUATION,
    continuation_label,
)
from planset.sheets.one_line.skyline import skyline
from planset.sheets.one_line.units import tags_of

_MARK_HALF = 0.35  # of the words over a mark, which reach over its wire [in]
_LANE_X = 0.3  # where a tier's wire comes down to the next [in]
_WORDS_X = 0.5  # from there to the words of the grounding conductor beside it [in]
_LANE_OUT = 0.25  # of that wire beyond the units, at the right [in]
_OVER_FOOT = 0.06  # of the lane over the tier below [in]
_OVER_NUMBERS = 2 * TAG_RADIUS + 0.06  # of the grounding conductor over that lane [in]


@dataclass(frozen=True, slots=True)
class Diagram:
    """One page of a drawn diagram, in inches from its lower left corner.

    Attributes:
        height: Its height [in].
        model: Symbols, wires and enclosures.
        annotation: Tags and labels.
        blocks: Blocks made for this system, beside the symbols.
        lowest: Its lowest level in each slot from the left, see `skyline` [in].
    """

    height: float
    model: tuple[Primitive, ...]
    annotation: tuple[Primitive, ...]
    blocks: tuple[Block, ...]
    lowest: tuple[float, ...]


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
    for number, tier in enumerate(tiers):
        _move(tier.root, top - tier_extent(tier.root)[1])
        draw_tier(sketch, tier.root, _LANE_X)
        _draw_marks(sketch, tier.root, where)
        draw_bonds(sketch, tier.root, folded.known, (_LANE_X, tier.right))
        top -= tier.height
        if tier.joined:
            _draw_connection(sketch, tier, tiers[number + 1], top, folded.known)
        else:
            top -= PART_GAP
            _draw_end_mark(sketch, tier.root, where, folded.known)
    parts = (*sketch.model, *sketch.words)
    width = max(tier.right for tier in tiers) + _LANE_OUT
    lowest = skyline(parts, folded.style.symbols, sketch.blocks, width)
    return Diagram(height, tuple(sketch.model), tuple(sketch.words), tuple(sketch.blocks), lowest)


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


def _draw_end_mark(sketch: Sketch, root: Node, where: dict[str, str], path: GroundPath) -> None:
    """Where the conductors of a part go on elsewhere."""
    way = root.unit.onward
    if not isinstance(way, Segment):
        return
    box = sketch.style.symbols[CONTINUATION].box
    named = any(wire.name for wire in root.wires)
    x = root.x1 + mark_distance(root)
    for wire in root.wires:
        y = root.y + wire.rise
        sketch.wire((out_x(root, sketch, wire), y), (x + box.x0, y))
    names_gap = NAMES_GAP if named else 0.0
    place = (root.x1 + names_gap + x + box.x0 - _MARK_HALF) / 2
    sketch.numbers((way,), root.over, place, root.y + root.span)
    if named:
        draw_names(sketch, root.wires, (root.x1, root.y))
    _draw_mark(sketch, root, x)
    if root.bonds:
        y = root.y + root.lane
        start = lane_start(sketch, root, y)
        sketch.wire((start, y), (x + box.x0, y), layer=GROUND)
        draw_lane_words(sketch, lane_words(root, path), ((start + x + box.x0) / 2, y))
    label = continuation_label(root.unit, "TO", way.end, where[way.end])
    sketch.label(label, (x, root.y + root.span + box.y1))


def _draw_mark(sketch: Sketch, node: Node, x: float) -> None:
    """A mark on every conductor of a node's way onward."""
    marks = [Insert(CONTINUATION, (x, node.y + wire.rise), SYMBOL) for wire in node.wires]
    sketch.model += marks


def _draw_connection(
    sketch: Sketch, tier: Tier, below: Tier, foot: float, path: GroundPath
) -> None:
    """The wire from the end of a tier, around its right side, to the start of the next.

    Args:
        sketch: What to draw on.
        tier: The tier.
        below: The next, its top at `foot`.
        foot: Lower end of the room between them [in].
        path: The grounding path.
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
    highest = lane + inset(root)
    way = root.unit.onward
    if isinstance(way, Segment):
        middle = (_LANE_X + right) / 2
        said = ", ".join([root.over, *(() if root.bonds else root.under)] if root.over else [])
        words = f"{way.start} TO {way.end}{_names(root)}{': ' if said else ''}{said}"
        sketch.numbers((way,), words, middle, highest)
    if root.bonds:
        y = root.y + root.lane
        start, out = lane_start(sketch, root, y), right - inset(root) - LANE_DROP
        over, back = highest + _OVER_NUMBERS, _LANE_X - inset(root) - LANE_DROP
        arrives = entry + root.lane
        sketch.wire((start, y), (out, y), (out, over), (back, over), (back, arrives), layer=GROUND)
        at = (_LANE_X + _WORDS_X, lane_words_y(over, 0))
        sketch.text(", ".join(lane_words(root, path)), at)


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
