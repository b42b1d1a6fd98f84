"""Boxes drawn for one system: where several wires enter, or every conductor by itself."""

from __future__ import annotations

from dataclasses import replace

from planset.design.electrical.topology import Equipment, Kind, Segment
from planset.drawing.geometry import Box, Point
from planset.drawing.layers import INHERITED
from planset.drawing.primitives import Circle, Line, Polyline, Primitive, Text
from planset.drawing.symbols import Symbol
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets.one_line.kinds import SWITCHES, SYMBOLS
from planset.sheets.one_line.node import Node
from planset.sheets.one_line.paint import Sketch
from planset.sheets.one_line.poles import Conductor
from planset.sheets.one_line.sizes import INVERTER_PAD, box_extent

_PORT_PITCH = 0.75  # between wires that have words in the box [in]
_UNDER_SYMBOL = 0.02  # of the words of the wire at the symbol over its lower side [in]
_TO_INPUT = "TO INPUT "
_PORTS = {"battery": "BATTERY", "backup": "BACKUP"}


def draw_enclosure(sketch: Sketch, node: Node, item: Equipment) -> float:
    """A box with the symbol in it; the level of its top over the way onward [in]."""
    symbol = sketch.style.symbol(item.kind)
    first = node.rows[0] if node.rows else node.y
    _, top, bottom = box_extent(node, [row - first for row in node.rows])
    base = first - node.y
    outline = Box(node.symbol.x0, base + bottom, node.symbol.x1, base + top)
    inside = _inside(node, item.kind, symbol, each=sketch.style.each)
    drawn = (Polyline(outline.corners, INHERITED, closed=True), *inside)
    name = sketch.made(f"{SYMBOLS[item.kind]}-{item.tag}", drawn, symbol.block.description)
    sketch.insert(item, name, (node.x, node.y))
    if item.kind is Kind.INVERTER:
        _name_ports(sketch, node)
    return outline.y1


def _inside(node: Node, kind: Kind, symbol: Symbol, *, each: bool) -> tuple[Primitive, ...]:
    """What stands in the box: the symbol, in a switch once for every conductor that it opens."""
    if each and kind in SWITCHES:
        return tuple(part for wire in node.wires for part in _pole(node, symbol, wire))
    if each or kind is not Kind.INVERTER:
        lettered = kind is Kind.JUNCTION_BOX
        return tuple(p for p in symbol.block.primitives if isinstance(p, Text) or not lettered)
    west, east = node.symbol.x0, node.symbol.x1
    leads = (
        Line((west, 0.0), (west + INVERTER_PAD, 0.0), INHERITED),
        Line((east - INVERTER_PAD, 0.0), (east, 0.0), INHERITED),
    )
    return (*symbol.block.primitives, *leads)


def _pole(node: Node, symbol: Symbol, wire: Conductor) -> list[Primitive]:
    """A switch of one conductor, or the neutral that goes straight through."""
    rise = wire.rise
    west, east = (node.symbol.x0, rise), (node.symbol.x1, rise)
    if wire.is_neutral:
        return [Line(west, east, INHERITED)]
    box = symbol.box
    parts = [p for p in symbol.block.primitives if not (isinstance(p, Polyline) and p.closed)]
    return [
        *(_raised(part, rise) for part in parts),
        Line(west, (box.x0, rise), INHERITED),
        Line((box.x1, rise), east, INHERITED),
    ]


def _raised(part: Primitive, by: float) -> Primitive:
    def up(point: Point) -> Point:
        return (point[0], point[1] + by)

    match part:
        case Line():
            return replace(part, a=up(part.a), b=up(part.b))
        case Circle():
            return replace(part, center=up(part.center))
        case Polyline():
            return replace(part, points=tuple(up(point) for point in part.points))
        case _:
            msg = f"a pole of a switch holds a {type(part).__name__}; draw it of lines and circles"
            raise TypeError(msg)


def _name_ports(sketch: Sketch, node: Node) -> None:
    """Words beside each of several wires that come in, inside of the inverter's box."""
    pairs = zip(node.rows, node.rows[1:], strict=False)
    if any(above - below < _PORT_PITCH for above, below in pairs):
        return
    for feed, row in zip(node.feeds, node.rows, strict=True):
        way = feed.unit.onward if feed else None
        port = _PORTS.get(way.run or "", "") if isinstance(way, Segment) else ""
        port = port or _inputs(feed)
        middle = node.y + node.symbol.y0 + _UNDER_SYMBOL if row == node.y else row
        at = (node.x + node.symbol.x0 + 0.06, middle - MINIMUM_HEIGHT / 2)
        if port and len(node.feeds) > 1:
            sketch.text(port, at)


def _inputs(feed: Node | None) -> str:
    """The inputs of an inverter that the strings of a feed go to, as those state them."""
    if feed is None:
        return ""
    items = [one.item for node in feed.walk() for one in node.unit.rows or (node.unit,)]
    said = [words for item in items if item is not None for words in item.ratings]
    inputs = [words.removeprefix(_TO_INPUT) for words in said if words.startswith(_TO_INPUT)]
    ordered = sorted(set(inputs), key=lambda number: (len(number), number))
    return f"INPUT {', '.join(ordered)}" if inputs else ""
