"""Draws one placed tier."""

from __future__ import annotations

from planset.design.electrical.topology import Kind, Segment
from planset.drawing.geometry import Box, united
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Line, Polyline, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, text_width
from planset.sheets.one_line.boundary import boundary
from planset.sheets.one_line.kinds import IN_ARRAY, SYMBOLS, status
from planset.sheets.one_line.labels import PITCH, Label, equipment_label
from planset.sheets.one_line.node import Node, segments_on
from planset.sheets.one_line.paint import BOUNDARY, BUS, ENCLOSURE, Sketch
from planset.sheets.one_line.sizes import (
    BESIDE_GAP,
    BOX_RISE,
    INVERTER_PAD,
    LABEL_GAP,
    PanelShape,
    panel_shape,
    row_tag,
)

_BOX_PAD = 0.09  # around the parts of a box that several circuits share [in]
_PORTS = {"battery": "BATTERY", "backup": "BACKUP"}


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


def out_x(node: Node, sketch: Sketch) -> float:
    """Where the way onward leaves a node [in]."""
    unit = node.unit
    if unit.panel is None:
        return node.x + node.symbol.x1
    shape, left = _panel(sketch, node)
    if unit.main is None:
        return left + shape.bus_x
    return left + shape.right_x + sketch.style.symbol(unit.main.kind).box.x1


def _in_x(node: Node, number: int, sketch: Sketch) -> float:
    """Where a feed arrives [in]."""
    unit = node.unit
    if unit.panel is None:
        return node.x if unit.kind is Kind.TAP and number else node.x + node.symbol.x0
    shape, left = _panel(sketch, node)
    breaker = unit.feeds[number].breaker
    if breaker is None:
        return left + shape.bus_x
    return left + shape.breaker_x + sketch.style.symbol(breaker.kind).box.x0


def _panel(sketch: Sketch, node: Node) -> tuple[PanelShape, float]:
    """Its shape and the left side of its outline."""
    first = node.rows[0] if node.rows else node.y
    shape = panel_shape(node.unit, sketch.style, [row - first for row in node.rows])
    return shape, node.x - shape.width / 2


def _draw_wire(sketch: Sketch, node: Node, number: int, feed: Node, entry_x: float) -> None:
    y, end = node.rows[number], _in_x(node, number, sketch)
    from_above = feed.unit.continued and not feed.unit.marked
    start = entry_x if from_above else out_x(feed, sketch)
    sketch.wire((start, y), (end, y))
    if node.unit.kind is Kind.TAP and number:
        above = node.y + node.symbol.y0 if number == 1 else node.rows[number - 1]
        sketch.wire((end, y), (end, above))
    if not feed.unit.continued:
        cell_end = node.x0 if node.unit.panel is None else node.x - _width(sketch, node) / 2
        sketch.numbers(segments_on(feed.unit), (feed.x1 + max(cell_end, node.x0)) / 2, y)


def _width(sketch: Sketch, node: Node) -> float:
    return _panel(sketch, node)[0].width


# --- symbols -------------------------------------------------------------------------------


def _draw_symbol(sketch: Sketch, node: Node) -> None:
    item = node.unit.item
    assert item is not None
    top = node.symbol.y1
    if len(node.feeds) > 1 and item.kind is not Kind.TAP:
        top = _draw_box(sketch, node)
    else:
        sketch.place(item, (node.x, node.y))
    if node.beside:
        if item.kind in (Kind.STRING, Kind.MICROINVERTERS):
            at = (node.x + node.symbol.x0 - BESIDE_GAP, node.y - MINIMUM_HEIGHT / 2)
            sketch.text(row_tag(node.unit), at, "right")
        return
    sketch.label(node.label, (node.x, node.y + top))


def _draw_box(sketch: Sketch, node: Node) -> float:
    """A box that several wires enter, with the symbol in it; its top over the way onward."""
    item = node.unit.item
    assert item is not None
    symbol = sketch.style.symbol(item.kind)
    rows = [row - node.y for row in node.rows]
    outline = Box(node.symbol.x0, rows[-1] - BOX_RISE, node.symbol.x1, rows[0] + BOX_RISE)
    if item.kind is Kind.INVERTER:
        outline = united((outline, node.symbol))
        shape: tuple[Primitive, ...] = (
            *symbol.block.primitives,
            Line((outline.x0, 0.0), (outline.x0 + INVERTER_PAD, 0.0), INHERITED),
            Line((outline.x1 - INVERTER_PAD, 0.0), (outline.x1, 0.0), INHERITED),
        )
    else:
        shape = tuple(part for part in symbol.block.primitives if isinstance(part, Text))
    drawn = (Polyline(outline.corners, INHERITED, closed=True), *shape)
    name = sketch.made(f"{SYMBOLS[item.kind]}-{item.tag}", drawn, symbol.block.description)
    sketch.insert(item, name, (node.x, node.y))
    if item.kind is Kind.INVERTER:
        for feed, row in zip(node.feeds, node.rows, strict=True):
            way = feed.unit.onward if feed else None
            port = _PORTS.get(way.run or "", "") if isinstance(way, Segment) else ""
            at = (node.x + outline.x0 + 0.06, row - MINIMUM_HEIGHT / 2)
            if port and row < node.y + node.symbol.y0:
                sketch.text(port, at)
    return outline.y1


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
        bar = (Line((0.0, low - middle), (0.0, high - middle), INHERITED),)
        name = sketch.made(f"BUS-{unit.bus.tag}", bar, "bus of a panel")
        sketch.insert(unit.bus, name, (bus_x, middle), BUS)
    for feed, row in zip(unit.feeds, node.rows, strict=True):
        if feed.breaker is not None:
            at = (left + shape.breaker_x, row)
            box = sketch.style.symbol(feed.breaker.kind).box
            sketch.place(feed.breaker, at)
            sketch.label(equipment_label(feed.breaker, sketch.style.detail), (at[0], row + box.y1))
            sketch.wire((at[0] + box.x1, row), (bus_x, row))
    if unit.main is not None:
        box = sketch.style.symbol(unit.main.kind).box
        sketch.place(unit.main, (left + shape.right_x, node.y))
        label = equipment_label(unit.main, sketch.style.detail)
        sketch.label(label, (left + shape.right_x, node.y + box.y1))
        sketch.wire((bus_x, node.y), (left + shape.right_x + box.x0, node.y))
    if shape.loads_y is not None:
        _draw_loads(sketch, node, shape, bus_x, base + shape.loads_y)


def _draw_loads(sketch: Sketch, node: Node, shape: PanelShape, bus_x: float, y: float) -> None:
    loads = node.unit.loads
    box = sketch.style.symbol(Kind.LOADS).box
    x = node.x - shape.width / 2 + shape.right_x
    sketch.place(loads[0], (x, y))
    sketch.wire((bus_x, y), (x + box.x0, y))
    sketch.label(equipment_label(loads[0], sketch.style.detail), (x, y + box.y1))


# --- the array -----------------------------------------------------------------------------


def _draw_boundaries(sketch: Sketch, root: Node) -> None:
    """A dash-dot outline around the modules of each box, with what stands in line with them."""
    for group in _groups(root):
        outline, at, lines = boundary(group)
        sketch.outline(outline, BOUNDARY)
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
        sketch.label(
            Label(f"{tag} {status(existing=panel.existing)}", (panel.name,)), (highest.x, over)
        )


def _groups(node: Node) -> list[list[Node]]:
    """The nodes of the array by the box that they lead to."""
    if node.unit.kind in IN_ARRAY:
        return [list(node.walk())]
    found: list[list[Node]] = []
    own: list[Node] = []
    for child in node.children:
        for group in _groups(child):
            if child.unit.kind in IN_ARRAY:
                own += group
            else:
                found.append(group)
    return [*found, *([own] if own else [])]
