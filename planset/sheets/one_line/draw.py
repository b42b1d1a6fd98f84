"""Draws one placed tier."""

from __future__ import annotations

from planset.design.electrical.topology import Equipment, Kind
from planset.drawing.geometry import Box, Point, united
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Insert, Line
from planset.drawing.text import MINIMUM_HEIGHT, text_width
from planset.sheets.one_line.boundary import boundary
from planset.sheets.one_line.enclosures import draw_enclosure
from planset.sheets.one_line.kinds import IN_ARRAY, SOURCES_IN_ARRAY, SYMBOLS, status
from planset.sheets.one_line.labels import PITCH, Label
from planset.sheets.one_line.node import NAMES_GAP, Node, segments_on
from planset.sheets.one_line.paint import BOUNDARY, BUS, ENCLOSURE, OVER_WIRE, SYMBOL, Sketch
from planset.sheets.one_line.poles import Conductor
from planset.sheets.one_line.sizes import (
    BAR_PITCH,
    BESIDE_GAP,
    LABEL_GAP,
    TAP_HALF,
    TAP_PITCH,
    PanelShape,
    panel_shape,
    part_label,
)

_NAME_RIGHT, _NAME_UP = 0.13, 0.045  # of a conductor's name from the start of its wire [in]
_SIDE_PAD = 0.04  # of words in a disconnect from its box [in]
_BOX_PAD = 0.09  # around the parts of a box that several circuits share [in]


def draw_tier(sketch: Sketch, root: Node, entry_x: float) -> None:
    """All units of a tier and the wires between them.

    Args:
        sketch: What to draw on.
        root: The tier.
        entry_x: Where the wire of the tier above comes down [in].
    """
    for node in root.walk():
        if node.unit.panel is not None:
            _draw_panel(sketch, node)
        elif node.unit.item is not None:
            _draw_symbol(sketch, node)
    for node in root.walk():
        for number, feed in enumerate(node.feeds):
            if feed is not None:
                _draw_wire(sketch, node, number, feed, entry_x)
    _draw_boundaries(sketch, root)
    _draw_shared_boxes(sketch, root)


def out_x(node: Node, sketch: Sketch, wire: Conductor) -> float:
    """Where a conductor of the way onward leaves a node [in]."""
    unit = node.unit
    if unit.panel is None:
        return node.x + node.symbol.x1
    shape, left = _panel(sketch, node)
    if unit.main is None or wire.is_neutral:
        return left + shape.bus_x + _bar(sketch, wire)
    return left + shape.right_x + sketch.style.symbol(unit.main.kind).box.x1


def _in_x(node: Node, number: int, sketch: Sketch, wire: Conductor) -> float:
    """Where a conductor of a feed arrives [in]."""
    unit = node.unit
    if unit.panel is None:
        return node.x + node.symbol.x0
    shape, left = _panel(sketch, node)
    breaker = unit.feeds[number].breaker
    if breaker is None or wire.is_neutral:
        return left + shape.bus_x + _bar(sketch, wire)
    return left + shape.breaker_x + sketch.style.symbol(breaker.kind).box.x0


def _bar(sketch: Sketch, wire: Conductor) -> float:
    """The bar of a conductor from the first bar of its panel [in]."""
    names = [bar.name for bar in sketch.style.bars]
    return BAR_PITCH * names.index(wire.name) if wire.name in names else 0.0


def _panel(sketch: Sketch, node: Node) -> tuple[PanelShape, float]:
    """Its shape and the left side of its outline."""
    first = node.rows[0] if node.rows else node.y
    shape = panel_shape(node.unit, sketch.style, [row - first for row in node.rows])
    return shape, node.x - shape.width / 2


def _draw_wire(sketch: Sketch, node: Node, number: int, feed: Node, entry_x: float) -> None:
    """The conductors of one feed, with their names and the number of the segment."""
    unit = feed.unit
    row = node.rows[number]
    from_above = unit.continued and not unit.marked
    for wire in feed.wires:
        y, end = row + wire.rise, _in_x(node, number, sketch, wire)
        start = entry_x + wire.lane if from_above else out_x(feed, sketch, wire)
        if node.unit.kind is Kind.TAP and number:
            _draw_tapped(sketch, node, (start, y), number, wire)
            continue
        sketch.wire((start, y), (end, y))
        in_panel = node.unit.panel is not None
        if (
            sketch.style.each
            and in_panel
            and (wire.is_neutral or not node.unit.feeds[number].breaker)
        ):
            sketch.dot((end, y))
    if not unit.continued:
        cell_end = node.x0 if node.unit.panel is None else node.x - _width(sketch, node) / 2
        end = max(cell_end, node.x0)
        top = row + max(wire.rise for wire in feed.wires)
        named = any(wire.name for wire in feed.wires) and segments_on(unit)
        middle = (feed.x1 + end) / 2 + (NAMES_GAP / 2 if named else 0.0)
        sketch.numbers(segments_on(unit), feed.over, middle, top)
        if named:
            draw_names(sketch, feed.wires, (feed.x1, row))


def draw_names(sketch: Sketch, wires: tuple[Conductor, ...], at: Point) -> None:
    """The names of conductors over the start of each."""
    for wire in wires:
        sketch.text(wire.name, (at[0] + _NAME_RIGHT, at[1] + wire.rise + _NAME_UP))


def _draw_tapped(sketch: Sketch, node: Node, start: Point, number: int, wire: Conductor) -> None:
    """A conductor that comes from below and joins one that runs through."""
    if not sketch.style.each:
        above = node.y + node.symbol.y0 if number == 1 else node.rows[number - 1]
        sketch.wire(start, (node.x, start[1]), (node.x, above))
        return
    for own in node.wires:
        if own.name == wire.name:
            x = _tap_x(node, own)
            sketch.wire(start, (x, start[1]), (x, node.y + own.rise))


def _tap_x(node: Node, wire: Conductor) -> float:
    """Where a conductor is tapped: the lower it runs, the farther to the right [in]."""
    return node.x - TAP_HALF + TAP_PITCH * (1 + node.wires.index(wire))


def _draw_taps(sketch: Sketch, node: Node, item: Equipment) -> None:
    """The conductors that run through a tap, and a dot where each is joined."""
    passing = node.feeds[0].wires if node.feeds and node.feeds[0] else node.wires
    joined = {wire.name for feed in node.children[1:] for wire in feed.wires}
    first = True
    for wire in node.wires:
        y = node.y + wire.rise
        begins = wire.name not in {one.name for one in passing}
        x0 = _tap_x(node, wire) if begins else node.x + node.symbol.x0
        sketch.wire((x0, y), (node.x + node.symbol.x1, y))
        if wire.name in joined:
            at = (_tap_x(node, wire), y)
            if first:
                sketch.place(item, at)
            else:
                sketch.dot(at)
            first = False


def _width(sketch: Sketch, node: Node) -> float:
    return _panel(sketch, node)[0].width


# --- symbols -------------------------------------------------------------------------------


def _draw_symbol(sketch: Sketch, node: Node) -> None:
    item = node.unit.item
    assert item is not None
    top = node.symbol.y1
    if item.kind is Kind.TAP and sketch.style.each:
        _draw_taps(sketch, node, item)
    elif item.kind is not Kind.TAP and (len(node.feeds) > 1 or sketch.style.each):
        top = draw_enclosure(sketch, node, item)
    else:
        sketch.place(item, (node.x, node.y))
    if item.kind in (Kind.DISCONNECT, Kind.FUSED_DISCONNECT):
        _name_sides(sketch, node)
    if node.beside:
        on_wire = item.kind not in SOURCES_IN_ARRAY and not sketch.style.each
        level = node.y + (OVER_WIRE if on_wire else -MINIMUM_HEIGHT / 2)
        if node.before:
            sketch.text(node.before, (node.x + node.symbol.x0 - BESIDE_GAP, level), "right")
        return
    sketch.label(node.label, (node.x, node.y + top))


def _name_sides(sketch: Sketch, node: Node) -> None:
    """Which terminals of a disconnect stay live from the utility, inside of its box."""
    y = node.y + node.symbol.y0 + _SIDE_PAD
    if node.unit.kind is Kind.FUSED_DISCONNECT or sketch.style.each:
        # Its fuse, or the neutral that goes straight through, takes the room below the blades.
        y = node.y + node.symbol.y1 - _SIDE_PAD / 2 - MINIMUM_HEIGHT
    sketch.text("LINE", (node.x + node.symbol.x1 - _SIDE_PAD, y), "right")


# --- panels --------------------------------------------------------------------------------


def _draw_panel(sketch: Sketch, node: Node) -> None:
    unit = node.unit
    shape, left = _panel(sketch, node)
    base = node.rows[0] if node.rows else node.y
    bus_x = left + shape.bus_x
    outline = Box(left, base + shape.outline[0], left + shape.width, base + shape.outline[1])
    sketch.outline(outline, ENCLOSURE)
    sketch.label(node.label, (node.x, outline.y1))
    if unit.bus is not None:
        low, high = (base + level for level in shape.bus)
        middle = (low + high) / 2
        bars = tuple(
            Line((n * BAR_PITCH, low - middle), (n * BAR_PITCH, high - middle), INHERITED)
            for n in range(len(sketch.style.bars))
        )
        name = sketch.made(f"BUS-{unit.bus.tag}", bars, "bus of a panel")
        sketch.insert(unit.bus, name, (bus_x, middle), BUS)
    for feed, row in zip(unit.feeds, node.rows, strict=True):
        if feed.breaker is not None:
            _draw_part(sketch, feed.breaker, (left + shape.breaker_x, row), bus_x)
    if unit.main is not None:
        _draw_part(sketch, unit.main, (left + shape.right_x, node.y), bus_x)
        _draw_neutral_end(sketch, node, bus_x)
    if shape.loads_y is not None:
        _draw_part(sketch, unit.loads[0], (left + shape.right_x, base + shape.loads_y), bus_x)


def _draw_part(sketch: Sketch, item: Equipment, at: Point, bus_x: float) -> None:
    """A breaker, main or load: one for each bar that it connects to, wired to it."""
    box = sketch.style.symbol(item.kind).box
    neutral_too = item.kind is Kind.LOADS
    bars = [bar for bar in sketch.style.bars if neutral_too or not bar.is_neutral]
    for number, bar in enumerate(bars):
        y, x = at[1] + bar.rise, bus_x + _bar(sketch, bar)
        if number:
            sketch.model.append(Insert(SYMBOLS[item.kind], (at[0], y), SYMBOL))
        else:
            sketch.place(item, (at[0], y))
        beyond = at[0] + (box.x0 if at[0] > bus_x else box.x1)
        sketch.wire((x, y), (beyond, y))
        if sketch.style.each:
            sketch.dot((x, y))
    label = part_label(item, sketch.style)
    sketch.label(label, (at[0], at[1] + bars[0].rise + box.y1))


def _draw_neutral_end(sketch: Sketch, node: Node, bus_x: float) -> None:
    """The dot where the neutral of the way onward leaves its bar."""
    for wire in node.wires:
        if wire.is_neutral:
            sketch.dot((bus_x + _bar(sketch, wire), node.y + wire.rise))


# --- the array -----------------------------------------------------------------------------


def _draw_boundaries(sketch: Sketch, root: Node) -> None:
    """A dash-dot outline around the modules of each box, with what stands in line with them."""
    for group in _groups(root):
        outline, at, lines = boundary(group)
        sketch.outline(outline, BOUNDARY)
        sketch.around |= {node.unit.tag: outline for node in group}
        for n, words in enumerate(lines):
            sketch.text(words, (at[0], at[1] - n * PITCH))


def _draw_shared_boxes(sketch: Sketch, root: Node) -> None:
    """The enclosures of boxes that the circuits of several rows go through."""
    for tag, panel in sketch.style.panels.items():
        parts = [n for n in root.walk() if n.unit.item is not None and n.unit.item.panel == tag]
        if not parts:
            continue
        highest = max(parts, key=lambda n: n.y)
        boxes = [n.symbol.moved(n.x, n.y).grown(_BOX_PAD) for n in parts]
        over = highest.y + highest.symbol.y1 + LABEL_GAP + PITCH + _BOX_PAD
        around = united(boxes)
        sides = max(text_width(n.unit.tag, MINIMUM_HEIGHT) for n in parts) / 2 + _BOX_PAD / 2
        outline = Box(
            min(around.x0, highest.x - sides), around.y0, max(around.x1, highest.x + sides), over
        )
        sketch.outline(outline, ENCLOSURE)
        sketch.around |= {node.unit.tag: outline for node in parts}
        sketch.label(
            Label(f"{tag} {status(existing=panel.existing)}", (panel.name,)), (highest.x, over)
        )


def _groups(node: Node) -> list[list[Node]]:
    """The nodes of each array by the box that they lead to, those in rows below one another."""
    found: list[list[Node]] = []
    above: Node | None = None
    for child in node.children:
        if child.unit.kind not in IN_ARRAY:
            found += _groups(child)
            above = None
        elif above is not None and above.arrays == child.arrays:
            found[-1] += child.walk()
        else:
            found.append(list(child.walk()))
            above = child
    return found
