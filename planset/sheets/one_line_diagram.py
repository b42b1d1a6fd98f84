"""The diagram itself: symbols from source to utility, wires, tags, the grounding path.

Sources stand at the left, the utility at the right; every wire is horizontal or vertical. The
diagram is drawn at plotted size in a frame of its own, origin at its lower left corner.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planset.design.topology import Equipment, Kind, Segment, Topology, shutdown_per_string
from planset.drawing.geometry import Box, Point
from planset.drawing.primitives import (
    Attribute,
    Block,
    Circle,
    Insert,
    Line,
    Polyline,
    Primitive,
    Text,
)
from planset.drawing.symbols import Symbol
from planset.drawing.text import (
    LINE_PITCH,
    MINIMUM_HEIGHT,
    NOTE_HEIGHT,
    height_to_fit,
    wrap,
)
from planset.sheets.context import SheetContext

_WIRE = "E-DIAG-ONEL"
_BUS = "E-DIAG-BUSS"
_SYMBOL = "E-DIAG-SYMB"
_GROUND = "E-DIAG-GRND"
_ENCLOSURE = "E-DIAG-ENCL"
_EQUIPMENT = "E-POWR-EQPM"
_TEXT = "E-ANNO-TEXT"

_ABOVE_ROWS = 1.6  # at least, for the labels of the junction box [in]
_ABOVE_CHAIN = 2.35  # at least, for the service panel and its label [in]
_SYMBOL_REACH, _SYMBOL_RISE = 0.3, 0.2  # of a string or shutdown device from its center [in]
_ARRAY_FOOT = 0.52  # lower edge of the array outline below the lowest string [in]
_ARRAY_SIDE = 0.55  # right edge of the array outline beyond the shutdown devices [in]
_LABELED_PITCH = 1.5  # between stacked strings with their ratings over them [in]
_CLOSE_PITCH = 0.44  # between strings whose ratings stand in a schedule [in]
_FEWEST_ROWS = 2  # that room is kept for
_LOWEST_ROW = 1.2  # above the lower edge of the diagram [in]
_GROUND_LEVEL = 0.45
_MAIN_RISE = 1.15  # main breaker above the inverter breaker [in]
_PANEL_WIDTH = 1.9
_BOX_WIDTH = 0.5  # junction box
_BOX_REACH = 0.3  # of the junction box beyond its outer wires
_SWITCH_HALF = 0.4  # enclosure of the disconnect on both sides of its switch [in]
_SWITCH_FOOT, _SWITCH_TOP = 0.2, 0.28  # and below and above it [in]
_TAG_RADIUS = 0.12
_TAG_LIFT = 0.17
_TAG_OVER_WIRE = 0.06
_TAG_HEIGHT = NOTE_HEIGHT * 1.2
_LABEL_GAP = 0.1
_PITCH = MINIMUM_HEIGHT * LINE_PITCH


@dataclass(frozen=True, slots=True)
class Diagram:
    """A drawn diagram.

    Attributes:
        model: Symbols, wires and enclosures, in the diagram's own inches.
        annotation: Tags and labels [paper in].
        blocks: Blocks made for this job, beside the symbols.
    """

    model: tuple[Primitive, ...]
    annotation: tuple[Primitive, ...]
    blocks: tuple[Block, ...]


@dataclass(slots=True)
class _Sketch:
    """What has been drawn so far."""

    symbols: Mapping[str, Symbol]
    origin: Point
    model: list[Primitive] = field(default_factory=list)
    annotation: list[Primitive] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)

    def place(self, item: Equipment, kind: Kind, at: Point) -> None:
        """Insert the symbol of a kind for a piece of equipment."""
        self.insert(item, self.symbols[kind.value].name, at, _SYMBOL)

    def insert(self, item: Equipment, block: str, at: Point, layer: str) -> None:
        """Insert a block that stands for a piece of equipment."""
        attributes = (
            Attribute("ID", item.tag),
            Attribute("TAG", item.tag),
            Attribute("RATING", "; ".join(item.ratings)),
        )
        self.model.append(Insert(block, at, layer, attributes=attributes, identity=item.tag))

    def wire(self, *points: Point, layer: str = _WIRE) -> None:
        """Lines along the points."""
        self.model += [Line(a, b, layer) for a, b in zip(points, points[1:], strict=False)]

    def box(self, box: Box, layer: str) -> None:
        """A rectangle."""
        self.model.append(Polyline(box.corners, layer, closed=True))

    def text(
        self, words: str, at: Point, align: str = "center", height: float = MINIMUM_HEIGHT
    ) -> None:
        """One line of text."""
        place = (at[0] + self.origin[0], at[1] + self.origin[1])
        self.annotation.append(Text(words, place, height, _TEXT, align))

    def label_above(
        self, item: Equipment, x: float, y: float, width: float, *, tag: bool = True
    ) -> float:
        """Tag, ratings and location, the last line just above y; their top is returned [in]."""
        lines = _label_lines(item, width)
        foot = y + _LABEL_GAP
        for number, words in enumerate(reversed(lines)):
            self.text(words, (x, foot + number * _PITCH))
        top = foot + len(lines) * _PITCH
        if tag:
            self.text(item.tag, (x, top + 0.02), height=_TAG_HEIGHT)
            top += _TAG_HEIGHT + 0.02
        return top

    def label_below(self, item: Equipment, x: float, y: float, width: float) -> None:
        """Tag, name and ratings, the first line just below y."""
        lines = [item.tag, *_label_lines(item, width)]
        for number, words in enumerate(lines):
            self.text(words, (x, y - _LABEL_GAP - MINIMUM_HEIGHT - number * _PITCH))

    def tag(self, segment: Segment, x: float, y: float) -> None:
        """The number of a segment, in a circle above its wire."""
        center = (x + self.origin[0], y + _TAG_LIFT + self.origin[1])
        self.annotation.append(Circle(center, _TAG_RADIUS, "E-ANNO-NOTE"))
        self.annotation.append(Text(segment.tag, center, MINIMUM_HEIGHT, _TEXT, "middle"))


def _label_lines(item: Equipment, width: float) -> list[str]:
    said = [*item.ratings, *([item.location.upper()] if item.location else [])]
    if item.kind in (Kind.JUNCTION_BOX, Kind.DISCONNECT, Kind.METER, Kind.MAIN, Kind.UTILITY):
        said.insert(0, item.name)
    return [line for words in said for line in wrap(words, MINIMUM_HEIGHT, width)]


def least_height(topology: Topology, *, labeled: bool) -> float:
    """The least height the diagram needs; strings are stacked [in].

    Args:
        topology: The system.
        labeled: Whether every string has its ratings over it.
    """
    rows = _rows(max(len(topology.of_kind(Kind.STRING)), _FEWEST_ROWS), labeled=labeled)
    return max(rows[-1] + _ABOVE_ROWS, _chain(rows) + _ABOVE_CHAIN)


def diagram(context: SheetContext, frame: Box, *, labeled: bool) -> Diagram:
    """Draw the whole system within a frame.

    Args:
        context: The set being drawn.
        frame: Where the diagram stands on the page [paper in].
        labeled: Whether every string has its ratings over it; else only its tag.
    """
    topology = context.design.topology
    sketch = _Sketch(context.symbols, frame.corners[0])
    columns = _columns(frame.width)
    spread = frame.height / least_height(topology, labeled=labeled)
    rows = [y * spread for y in _rows(len(topology.of_kind(Kind.STRING)), labeled=labeled)]
    chain = _chain(rows)
    _draw_strings(sketch, context, columns, rows, labeled=labeled)
    _draw_box(sketch, topology, columns, rows, chain)
    _draw_inverter_side(sketch, topology, columns, chain)
    _draw_service(sketch, context, columns, chain)
    _draw_grounding(sketch, columns, rows, chain)
    return Diagram(tuple(sketch.model), tuple(sketch.annotation), tuple(sketch.blocks))


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where equipment stands along the diagram: centers, and the panel's left side [in]."""

    string: float
    shutdown: float
    box: float
    inverter: float
    disconnect: float
    panel: float
    meter: float
    utility: float


_WIDTHS = (0.6, 0.6, _BOX_WIDTH, 0.8, 0.8, _PANEL_WIDTH, 0.5, 0.5)
_EDGE = 0.5  # room beside the outermost symbols for their labels


def _columns(width: float) -> _Columns:
    """Spread the columns over the width, all wires between them alike."""
    gap = (width - 2 * _EDGE - sum(_WIDTHS)) / (len(_WIDTHS) - 1)
    centers, x = [], _EDGE
    for size in _WIDTHS:
        centers.append(x + size / 2)
        x += size + gap
    centers[5] -= _PANEL_WIDTH / 2
    return _Columns(*centers)


def _rows(count: int, *, labeled: bool) -> list[float]:
    """Levels of the strings, lowest first: the first string is the lowest."""
    pitch = _LABELED_PITCH if labeled else _CLOSE_PITCH
    return [_LOWEST_ROW + number * pitch for number in range(count)]


def _chain(rows: list[float]) -> float:
    """Level of everything from the junction box on, in the middle of the strings."""
    return (rows[0] + rows[-1]) / 2


def _draw_strings(
    sketch: _Sketch,
    context: SheetContext,
    columns: _Columns,
    rows: list[float],
    *,
    labeled: bool,
) -> None:
    design, topology = context.design, context.design.topology
    strings = topology.of_kind(Kind.STRING)
    shutdown = topology.of_kind(Kind.SHUTDOWN)
    top = rows[-1] + _SYMBOL_RISE
    devices = shutdown_per_string(design.inputs, design.circuits) or (None,) * len(strings)
    for item, device, y in zip(strings, devices, rows, strict=True):
        sketch.place(item, Kind.STRING, (columns.string, y))
        start = columns.string + _SYMBOL_REACH
        if labeled:
            top = sketch.label_above(item, columns.string, y + _SYMBOL_RISE, 1.4)
        else:
            _tag_on_wire(sketch, item, start, columns.shutdown - _SYMBOL_REACH, y)
        if device is not None:
            sketch.place(device, Kind.SHUTDOWN, (columns.shutdown, y))
            sketch.wire((start, y), (columns.shutdown - _SYMBOL_REACH, y))
            start = columns.shutdown + _SYMBOL_REACH
            if labeled:
                sketch.label_above(device, columns.shutdown, y + _SYMBOL_RISE, 1.05, tag=False)
        segment = next(s for s in topology.segments if s.start == item.tag)
        end = columns.box - _BOX_WIDTH / 2
        sketch.wire((start, y), (end, y))
        sketch.tag(segment, (columns.shutdown + _ARRAY_SIDE + end) / 2, y)
    if shutdown and not labeled:
        foot = rows[-1] + _SYMBOL_RISE
        top = max(top, sketch.label_above(shutdown[0], columns.shutdown, foot, 1.05, tag=False))
    around = Box(0.05, rows[0] - _ARRAY_FOOT, columns.shutdown + _ARRAY_SIDE, top + 0.1)
    sketch.box(around, _ENCLOSURE)
    sketch.text("ON ROOF, IN THE ARRAY", (around.x0 + 0.08, around.y0 + 0.08), "left")


def _tag_on_wire(sketch: _Sketch, item: Equipment, start: float, end: float, y: float) -> None:
    """The tag of a string over the first stretch of its wire."""
    height = height_to_fit(item.tag, _TAG_HEIGHT, end - start)
    sketch.text(item.tag, ((start + end) / 2, y + _TAG_OVER_WIRE), height=height)


def _draw_box(
    sketch: _Sketch, topology: Topology, columns: _Columns, rows: list[float], chain: float
) -> None:
    """The junction box, tall enough for every string to enter by itself."""
    (item,) = topology.of_kind(Kind.JUNCTION_BOX)
    half = (rows[-1] - rows[0]) / 2 + _BOX_REACH
    outline = Box(-_BOX_WIDTH / 2, -half, _BOX_WIDTH / 2, half)
    name = f"JUNCTION_BOX-{len(rows)}"
    shape: tuple[Primitive, ...] = (
        Polyline(outline.corners, "0", closed=True),
        Text("JB", (0.0, 0.0), 0.12, "0", "middle"),
    )
    block = Block(name, shape, "Junction box, one entry per string", ("ID", "TAG", "RATING"))
    sketch.blocks.append(block)
    sketch.insert(item, name, (columns.box, chain), _SYMBOL)
    sketch.label_above(item, columns.box, chain + half, 1.05)


def _draw_inverter_side(
    sketch: _Sketch, topology: Topology, columns: _Columns, chain: float
) -> None:
    (inverter,) = topology.of_kind(Kind.INVERTER)
    (disconnect,) = topology.of_kind(Kind.DISCONNECT)
    by_ends = {(segment.start, segment.end): segment for segment in topology.segments}
    half = 0.4
    box_right = columns.box + _BOX_WIDTH / 2
    runs = (
        (by_ends["JB1", "INV1"], box_right, columns.inverter - half),
        (by_ends["INV1", "DISC1"], columns.inverter + half, columns.disconnect - half),
        (by_ends["DISC1", "CB1"], columns.disconnect + half, columns.panel + 0.2),
    )
    for segment, start, end in runs:
        sketch.wire((start, chain), (end, chain))
        middle = (start + min(end, columns.panel)) / 2
        sketch.tag(segment, middle, chain)
    sketch.place(inverter, Kind.INVERTER, (columns.inverter, chain))
    sketch.label_above(inverter, columns.inverter, chain + half, 1.62)
    sketch.place(disconnect, Kind.DISCONNECT, (columns.disconnect, chain))
    around = Box(-_SWITCH_HALF, -_SWITCH_FOOT, _SWITCH_HALF, _SWITCH_TOP)
    sketch.box(around.moved(columns.disconnect, chain), _EQUIPMENT)
    sketch.label_above(disconnect, columns.disconnect, chain + _SWITCH_TOP, 1.35)


def _draw_service(sketch: _Sketch, context: SheetContext, columns: _Columns, chain: float) -> None:
    """Panel with its bus and both breakers, then meter and utility."""
    topology = context.design.topology
    (breaker,) = topology.of_kind(Kind.BREAKER)
    (panel,) = topology.of_kind(Kind.MAIN)
    left = columns.panel
    bus, right = left + _PANEL_WIDTH / 2, left + _PANEL_WIDTH
    opposite = context.design.circuits.bus.opposite_end
    rise = _MAIN_RISE if opposite else _MAIN_RISE / 2
    main = chain + rise
    outline = Box(left, chain - 0.75, right, chain + _MAIN_RISE + 0.35)
    sketch.box(outline, _EQUIPMENT)
    sketch.wire((bus, chain - 0.55), (bus, chain + _MAIN_RISE + 0.15), layer=_BUS)
    sketch.place(breaker, Kind.BREAKER, (left + 0.5, chain))
    sketch.wire((left + 0.8, chain), (bus, chain))
    for number, words in enumerate((breaker.tag, *breaker.ratings, "PV")):
        sketch.text(words, (left + 0.5, chain - 0.2 - number * _PITCH))
    poles = context.design.inputs.job.electrical.service.poles
    rating = f"{context.design.circuits.bus.main_a:g} A, {poles}P"
    main_breaker = Equipment("MCB", Kind.BREAKER, "MAIN BREAKER (E)", (rating,))
    sketch.wire((bus, main), (bus + 0.15, main))
    sketch.place(main_breaker, Kind.BREAKER, (bus + 0.45, main))
    for number, words in enumerate(("MAIN (E)", *main_breaker.ratings)):
        sketch.text(words, (bus + 0.46, main - 0.2 - number * _PITCH))
    sketch.wire((bus, chain - 0.35), (bus + 0.5, chain - 0.35))
    sketch.text("LOADS (E)", (bus + 0.12, chain - 0.35 + 0.06), "left")
    sketch.label_above(panel, (left + right) / 2, outline.y1, 1.9)
    _draw_utility(sketch, topology, columns, bus + 0.75, main)


def _draw_utility(
    sketch: _Sketch, topology: Topology, columns: _Columns, start: float, y: float
) -> None:
    (meter,) = topology.of_kind(Kind.METER)
    (utility,) = topology.of_kind(Kind.UTILITY)
    by_ends = {(segment.start, segment.end): segment for segment in topology.segments}
    half = 0.25
    panel_right = columns.panel + _PANEL_WIDTH
    sketch.wire((start, y), (columns.meter - half, y))
    sketch.tag(by_ends["MSP", "M1"], (panel_right + columns.meter - half) / 2, y)
    sketch.place(meter, Kind.METER, (columns.meter, y))
    sketch.label_below(meter, columns.meter, y - half, 1.1)
    sketch.wire((columns.meter + half, y), (columns.utility - half, y))
    sketch.tag(by_ends["M1", "UTIL"], (columns.meter + columns.utility) / 2, y)
    sketch.place(utility, Kind.UTILITY, (columns.utility, y))
    sketch.label_below(utility, columns.utility, y - half, 1.15)


def _draw_grounding(sketch: _Sketch, columns: _Columns, rows: list[float], chain: float) -> None:
    """The equipment grounding path as a line of its own, from the array to the electrode."""
    y = _GROUND_LEVEL
    array = columns.string
    box_foot = chain - (rows[-1] - rows[0]) / 2 - _BOX_REACH
    feet = (
        (array, rows[0] - _ARRAY_FOOT),
        (columns.box, box_foot),
        (columns.inverter, chain - 0.4),
        (columns.disconnect, chain - _SWITCH_FOOT),
    )
    panel = columns.panel + _PANEL_WIDTH / 2
    sketch.wire((array, y), (panel, y), layer=_GROUND)
    for x, foot in feet:
        sketch.wire((x, foot), (x, y), layer=_GROUND)
    sketch.wire((panel, chain - 0.75), (panel, y), layer=_GROUND)
    sketch.model.append(Insert("GROUND", (panel, y), _SYMBOL))
    sketch.text("EQUIPMENT GROUNDING CONDUCTOR, SIZE OPEN", (columns.box + 0.1, y - 0.17), "left")
    sketch.text("GROUNDING ELECTRODE (E)", (panel + 0.28, y - 0.2), "left")
