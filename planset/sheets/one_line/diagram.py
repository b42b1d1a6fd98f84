"""Draws a folded diagram, page by page."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.electrical.topology import Segment
from planset.drawing.primitives import Block, Insert, Primitive
from planset.sheets.one_line.draw import draw_tier, out_x
from planset.sheets.one_line.fold import PART_GAP, Folded, Tier
from planset.sheets.one_line.ground import BUS_DROP, GroundBus, ground_bus, tap_x, words_y
from planset.sheets.one_line.node import Node
from planset.sheets.one_line.paint import GROUND, SYMBOL, Sketch
from planset.sheets.one_line.place import tier_extent
from planset.sheets.one_line.sizes import (
    CONTINUATION,
    box_extent,
    continuation_label,
    panel_shape,
)

_RISER_X = 0.1  # of the ground bus, left of everything [in]
_LANE_X = 0.3  # where a tier's wire comes down to the next [in]
_LANE_OUT = 0.17  # of that wire beyond the units, at the right [in]
_OVER_FOOT = 0.06  # of the lane over the tier below [in]
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
        node.unit.tag: sheet
        for page, sheet in zip(folded.pages, sheets, strict=False)
        for tier in page
        for node in tier.root.walk()
        if not node.unit.continued
    }
    return tuple(_page(page, folded, where) for page in folded.pages)


def _page(tiers: tuple[Tier, ...], folded: Folded, where: dict[str, str]) -> Diagram:
    sketch = Sketch(folded.style)
    gaps = sum(PART_GAP for tier in tiers[:-1] if not tier.joined)
    height = top = sum(tier.height for tier in tiers) + gaps
    risers: list[float] = []
    for number, tier in enumerate(tiers):
        _move(tier.root, top - tier_extent(tier.root)[1])
        draw_tier(sketch, tier.root, _LANE_X)
        _draw_marks(sketch, tier.root, where)
        risers += _draw_ground(sketch, tier.root, folded.known, tier.right)
        top -= tier.height
        if tier.joined:
            _draw_connection(sketch, tier, tiers[number + 1], top + _OVER_FOOT)
        else:
            top -= PART_GAP
            _draw_end_mark(sketch, tier.root, where)
    if len(risers) > 1:
        sketch.wire((_RISER_X, max(risers)), (_RISER_X, min(risers)), layer=GROUND)
    return Diagram(height, tuple(sketch.model), tuple(sketch.words), tuple(sketch.blocks))


def _move(root: Node, by: float) -> None:
    for node in root.walk():
        node.y += by
        node.rows = [row + by for row in node.rows]


def _draw_marks(sketch: Sketch, root: Node, where: dict[str, str]) -> None:
    """Where conductors come from a part that is drawn elsewhere."""
    for node in root.walk():
        if node.unit.marked:
            sketch.model.append(Insert(CONTINUATION, (node.x, node.y), SYMBOL))
            tag = node.unit.tag
            label = continuation_label(node.unit, "FROM", tag, where.get(tag, ""))
            sketch.label(label, (node.x, node.y + node.symbol.y1))


def _draw_end_mark(sketch: Sketch, root: Node, where: dict[str, str]) -> None:
    """Where the conductors of a part go on elsewhere."""
    way = root.unit.onward
    if not isinstance(way, Segment):
        return
    box = sketch.style.symbols[CONTINUATION].box
    x = root.x1 + _MARK_X
    sketch.wire((out_x(root, sketch), root.y), (x + box.x0, root.y))
    sketch.numbers((way,), root.x1 + (_MARK_X + box.x0) / 3, root.y)
    sketch.model.append(Insert(CONTINUATION, (x, root.y), SYMBOL))
    label = continuation_label(root.unit, "TO", way.end, _sheet_of(way.end, where))
    sketch.label(label, (x, root.y + box.y1))


def _sheet_of(tag: str, where: dict[str, str]) -> str:
    """The sheet a piece of equipment, or the panel that it is a part of, is drawn on."""
    return where.get(tag, "")


def _draw_connection(sketch: Sketch, tier: Tier, below: Tier, lane: float) -> None:
    """The wire from the end of a tier, around its right side, to the start of the next."""
    stub = next(node for node in below.root.walk() if node.unit.continued and not node.unit.marked)
    _, high = tier_extent(below.root)
    entry = lane - _OVER_FOOT - high + _entry_level(below.root, stub)
    right = tier.right + _LANE_OUT
    root = tier.root
    points = ((out_x(root, sketch), root.y), (right, root.y), (right, lane), (_LANE_X, lane))
    sketch.wire(*points, (_LANE_X, entry))
    way = root.unit.onward
    if isinstance(way, Segment):
        middle = (_LANE_X + right) / 2
        sketch.numbers((way,), middle, lane)
        sketch.text(f"{way.start} TO {way.end}", (middle + 0.2, lane + 0.05))


def _entry_level(root: Node, stub: Node) -> float:
    """Level of the row of the continuation, before the tier is moved [in]."""
    for node in root.walk():
        for feed, row in zip(node.feeds, node.rows, strict=True):
            if feed is stub:
                return row
    raise AssertionError


def _draw_ground(sketch: Sketch, root: Node, known: GroundBus, right: float) -> list[float]:
    """The ground buses of a tier; their levels."""
    found: list[tuple[Node, float, float]] = [(root, root.y - root.down, right)]
    for node in root.walk():
        bands = zip(node.feeds[:-1], node.rows[:-1], strict=True)
        found += [(f, row - f.down, node.x0) for f, row in bands if f is not None and f.channel]
    levels = []
    for band, foot, words_end in found:
        channel = ground_bus(band, known, words_end)
        if not channel.taps:
            continue
        y = foot - BUS_DROP
        levels.append(y)
        for node in channel.taps:
            sketch.wire((tap_x(node), _bottom(node, sketch)), (tap_x(node), y), layer=GROUND)
        sketch.wire((_RISER_X, y), (tap_x(channel.taps[-1]), y), layer=GROUND)
        for said in channel.words:
            sketch.text(said.text, (said.x, words_y(y, said.level)))
        if channel.electrode is not None:
            at = (tap_x(channel.electrode), y)
            sketch.model.append(Insert("GROUNDING_ELECTRODE", at, SYMBOL))
    return levels


def _bottom(node: Node, sketch: Sketch) -> float:
    """Where a bonding conductor leaves a node [in]."""
    if node.unit.panel is not None:
        base = node.rows[0] if node.rows else node.y
        shape = panel_shape(node.unit, sketch.style, [row - base for row in node.rows])
        return base + shape.outline[0]
    first = node.rows[0] if node.rows else node.y
    _, _, bottom = box_extent(node, [row - first for row in node.rows])
    return first + bottom
