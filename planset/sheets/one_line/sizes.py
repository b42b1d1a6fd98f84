"""How large each unit of the diagram is, and where in it its wires arrive and leave."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import zip_longest

from planset.design.electrical.system import BusLoad
from planset.design.electrical.topology import Equipment, Kind, Panel, Segment
from planset.drawing.geometry import Box
from planset.drawing.symbols import Symbol
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width
from planset.sheets.one_line.kinds import IN_ARRAY, SOURCES_IN_ARRAY, SWITCHES, SYMBOLS, tag_words
from planset.sheets.one_line.labels import (
    NOTHING,
    Detail,
    Label,
    equipment_label,
    panel_label,
    part_words,
)
from planset.sheets.one_line.node import Node, wire_words
from planset.sheets.one_line.poles import Conductor, conductors, panel_poles
from planset.sheets.one_line.units import Unit
from planset.sheets.one_line.wire_words import raceway_lines

LABEL_GAP = 0.06  # between a symbol and the words above it [in]
BELOW = 0.06  # kept free under a symbol [in]
PAD = 0.14  # inside of an enclosure, around its parts [in]
BUS_GAP = 0.16  # wire between a bus and a part beside it [in]
BOX_RISE = 0.2  # of a box over its highest wire and below its lowest [in]
INVERTER_PAD = 0.15  # between an inverter's symbol and the unit around it [in]
_IN_ROWS = IN_ARRAY - {Kind.MICROINVERTERS}
_MOST_LABELED = 3  # strings of one box that have words over them
BESIDE_GAP = 0.06
BAR_PITCH = 0.12  # between the bars of a panel [in]
TAP_HALF = 0.3  # of the place where conductors are tapped one by one [in]
TAP_PITCH = 0.12
POLE_ROOM = 0.12  # of an enclosure around its poles [in]
SHARED_BOX_HEAD = 0.5  # for the name of a box that several circuits go through [in]
CONTINUATION = "CONTINUATION"
_LONGEST_SHEET = "E-601.9"
LEAST_WIDTH = 1.25  # of a column of modules, so that the words below them have room [in]


@dataclass(frozen=True, slots=True)
class Style:
    """How the diagram is drawn.

    Attributes:
        symbols: Symbols by name.
        detail: How much is written at the symbols.
        buses: What is known of the buses that sources feed, by the tag of their panel.
        panels: Panels, and boxes that several circuits share, by tag.
        close: Whether strings stand in close rows, without words over them.
        lines: Line conductors of the ac side.
        each: Whether every conductor is drawn by itself, as in a three-line diagram.
    """

    symbols: Mapping[str, Symbol]
    detail: Detail
    buses: Mapping[str, BusLoad]
    panels: Mapping[str, Panel]
    close: bool
    lines: int = 2
    each: bool = False

    def symbol(self, kind: Kind) -> Symbol:
        """The symbol of a kind of equipment."""
        return self.symbols[SYMBOLS[kind]]

    @property
    def bars(self) -> tuple[Conductor, ...]:
        """Bars of a panel."""
        return panel_poles(self.lines, each=self.each)

    @property
    def bar_span(self) -> float:
        """How far a panel's conductors reach to both sides of their middle [in]."""
        return max(abs(bar.rise) for bar in self.bars)


@dataclass(frozen=True, slots=True)
class PanelShape:
    """The inside of a panel, from the left side of its outline and the level of its first feed.

    Attributes:
        breaker_x: Center of the breakers, 0 where nothing feeds it [in].
        bus_x: The bus [in].
        right_x: Center of main and loads [in].
        width: Width of the outline [in].
        main_y: Level of the main, and of the way onward [in].
        loads_y: Level of the loads, None without any [in].
        bus: Lower and upper end of the bus [in].
        outline: Lower and upper side of the outline [in].
    """

    breaker_x: float
    bus_x: float
    right_x: float
    width: float
    main_y: float
    loads_y: float | None
    bus: tuple[float, float]
    outline: tuple[float, float]


def sized(unit: Unit, style: Style, *, beside: bool = False) -> Node:
    """A node for a unit and all that feeds it, with labels and widths."""
    node = Node(unit, beside=beside)
    node.wires = conductors(unit.onward, style.lines, each=style.each)
    if style.detail is not Detail.BARE:
        node.over, node.under = wire_words(unit), tuple(raceway_lines(unit.onward))
    for child in (feed.child for feed in unit.feeds):
        close = style.close and child is not None and child.kind in _IN_ROWS
        node.feeds.append(None if child is None else sized(child, style, beside=close))
    _line_up(node)
    if unit.continued:
        if unit.marked:
            node.symbol = style.symbols[CONTINUATION].box
            node.label = continuation_label(unit, "FROM", unit.tag, _LONGEST_SHEET)
            node.width = max(node.symbol.width, node.label.width)
            node.left = node.width / 2
        return node
    if unit.panel is not None:
        shape = panel_shape(unit, style, [0.0 for _ in unit.feeds])
        node.label = panel_label(unit.panel, style.detail, shape.width)
        node.width = max(shape.width, node.label.width)
        node.left = node.width / 2
        return node
    assert unit.item is not None
    _size_symbol(node, unit.item, style)
    return node


def _line_up(node: Node) -> None:
    """Let strings and devices of a box stand one above another, however long their tags are."""
    chains = [child.last_chain for child in node.children if child.beside]
    for level in zip_longest(*chains):
        nodes = [one for one in level if one is not None and one.beside]
        left = max((one.left for one in nodes), default=0.0)
        right = max((one.width - one.left for one in nodes), default=0.0)
        for one in nodes:
            one.left, one.width = left, left + right


def is_close(root: Unit, detail: Detail) -> bool:
    """Whether strings stand in close rows: where a box has many, or where little is written."""
    most = max(sum(child.kind in _IN_ROWS for child in unit.children) for unit in root.walk())
    return most > (1 if detail.is_short else _MOST_LABELED)


def continuation_label(unit: Unit, word: str, tag: str, sheet: str) -> Label:
    """What stands at a mark: where the conductors come from or go to."""
    way = unit.onward
    number = way.tag if isinstance(way, Segment) else ""
    return Label("", (f"{number}: {word} {tag}", f"SHEET {sheet}"))


def _size_symbol(node: Node, item: Equipment, style: Style) -> None:
    box = style.symbol(item.kind).box
    if len(node.feeds) > 1 and item.kind is Kind.INVERTER:
        box = box.grown(INVERTER_PAD)
    if style.each and item.kind is Kind.TAP:
        box = Box(-TAP_HALF, -node.span, TAP_HALF, node.span + box.y1)
    elif style.each:
        half = node.reach + POLE_ROOM
        if item.kind in SWITCHES:  # each conductor has a blade of its own
            box = Box(box.x0, box.y0, box.x1, box.y1 + node.span)
        box = box.grown(POLE_ROOM)
        box = Box(box.x0, min(box.y0, -half), box.x1, max(box.y1, half))
    node.symbol = box
    if node.beside:
        node.before = _beside_tag(node.unit, style)
        before = text_width(node.before, MINIMUM_HEIGHT) * SLACK + BESIDE_GAP * bool(node.before)
        least = LEAST_WIDTH if item.kind in SOURCES_IN_ARRAY else 0.0
        node.left = before - box.x0
        node.width = max(before + box.width, least)
        return
    shared = style.panels.get(item.panel)
    if shared is not None:  # the name of the box stands over the highest of its parts
        node.label = Label("", (item.tag,))
    else:
        node.label = equipment_label(item, style.detail)
    least = LEAST_WIDTH if item.kind in SOURCES_IN_ARRAY else 0.0
    node.width = max(box.width, node.label.width, least)
    node.left = node.width / 2


def _beside_tag(unit: Unit, style: Style) -> str:
    """What stands at the left of a symbol in close rows; of a device nothing if room is short."""
    short_of_room = style.detail is Detail.BARE or len(unit.rows) > 1
    return "" if unit.kind not in SOURCES_IN_ARRAY and short_of_room else row_tag(unit)


def row_tag(unit: Unit) -> str:
    """The tags of all that share a row."""
    items = [one.item for one in unit.rows or (unit,)]
    return ", ".join(tag_words(item) for item in items if item is not None)


def least_pitch(node: Node, style: Style) -> float:
    """Least distance between two feeds of a node [in]."""
    breakers = [feed.breaker for feed in node.unit.feeds if feed.breaker]
    labels = [part_label(breaker, style).height for breaker in breakers]
    apart = style.bar_span if breakers else node.reach
    return 2 * apart + max([0.34, *(height + 0.36 for height in labels)])


def box_extent(node: Node, rows: list[float]) -> tuple[float, float, float]:
    """Level of the way onward, top and bottom of a symbol, over the level of its first feed.

    A box that several wires enter is drawn as high as they are apart.
    """
    box, rise = node.symbol, BOX_RISE + node.reach
    if len(rows) < 2 or kind_of(node) is Kind.TAP:
        return 0.0, box.y1, box.y0
    if kind_of(node) is Kind.INVERTER:
        return 0.0, box.y1, min(box.y0, rows[-1] - rise)
    return (rows[0] + rows[-1]) / 2, rows[0] + rise, rows[-1] - rise


def kind_of(node: Node) -> Kind | None:
    """Kind of the equipment of a node."""
    return node.unit.kind


def part_label(item: Equipment | None, style: Style) -> Label:
    """Words above a part of a panel."""
    if item is None:
        return NOTHING
    label = equipment_label(item, style.detail)
    crowded = style.each and style.detail.is_short
    more = () if crowded else part_words(item, style.panels.get(item.panel))
    return Label(label.tag, (*label.lines, *more))


def panel_shape(unit: Unit, style: Style, rows: list[float]) -> PanelShape:
    """Lay out a panel whose feeds come in at given levels, the first at 0.

    The main stands at one end of the bus. The sources come in at the other end where they do so
    in fact, else beside the main with the loads beyond them.
    """
    breakers = [feed.breaker for feed in unit.feeds if feed.breaker]
    half = style.symbol(Kind.BREAKER).box.x1
    left = max([half, *(part_label(b, style).width / 2 for b in breakers)]) if breakers else 0.0
    rights = [item for item in (unit.main, *unit.loads) if item]
    right = max([half, *(part_label(item, style).width / 2 for item in rights)]) if rights else 0.0
    breaker_x = PAD + left
    bus_x = PAD + (2 * left + BUS_GAP if breakers else 0.0)
    right_x = bus_x + BAR_PITCH * (len(style.bars) - 1) + BUS_GAP + right
    width = right_x + right + PAD if rights else bus_x + PAD
    span = style.bar_span
    over = max([part_label(b, style).height for b in breakers], default=0.0) + 0.24 + span
    main_over = part_label(unit.main, style).height + 0.24 + span
    loads_over = max([part_label(i, style).height for i in unit.loads], default=0.0) + 0.16 + span
    first, last = (rows[0], rows[-1]) if rows else (0.0, 0.0)
    known = style.buses.get(unit.tag)
    main_y, loads_y = _levels((first, last), (main_over, loads_over, span), unit, known)
    levels = [first, last, main_y, *([loads_y] if loads_y is not None else [])]
    low, high = min(levels) - span, max(levels) + span
    tops = [first + over if rows else high, main_y + main_over]
    tops += [loads_y + loads_over] if loads_y is not None else []
    bus = (low - 0.15, high + 0.15)
    outline = (low - 0.15 - 0.1, max(*tops, bus[1]) + 0.08)
    return PanelShape(breaker_x, bus_x, right_x, width, main_y, loads_y, bus, outline)


def _levels(
    ends: tuple[float, float],
    heights: tuple[float, float, float],
    unit: Unit,
    known: BusLoad | None,
) -> tuple[float, float | None]:
    """Levels of main and loads.

    Args:
        ends: Levels of the first and the last feed [in].
        heights: How far main and loads reach up, and the conductors of both down [in].
        unit: The panel.
        known: What is known of its bus.
    """
    (first, last), (main_over, loads_over, span) = ends, heights
    if not unit.feeds:  # nothing but loads
        return 0.0, -loads_over - span - 0.1 if unit.loads else None
    if known is not None and not known.opposite_end:
        return first, min(last, first) - loads_over - span - 0.3 if unit.loads else None
    if not unit.loads:
        return first + 0.45, None
    if known is not None and known.feed == "center":
        main = first + 0.5
        return main, main + main_over + span + 0.15
    loads = first + 0.12
    return loads + loads_over + span + 0.15, loads
