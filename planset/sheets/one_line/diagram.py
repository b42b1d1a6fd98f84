"""The diagram of a system: folded into as many tiers as its sheet asks for, and drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import combinations

from planset.design.electrical.system import BusLoad, GroundingStep
from planset.design.electrical.topology import Segment, Topology
from planset.drawing.fit import ViewTooLargeError
from planset.drawing.primitives import Block, Insert, Primitive
from planset.drawing.symbols import Symbol
from planset.sheets.one_line.draw import draw_tier, out_x
from planset.sheets.one_line.ground import (
    BUS_DROP,
    ELECTRODE_HALF,
    GroundBus,
    ground_bus,
    tap_x,
    words_y,
)
from planset.sheets.one_line.labels import Detail
from planset.sheets.one_line.node import Node
from planset.sheets.one_line.paint import GROUND, SYMBOL, Sketch
from planset.sheets.one_line.place import least_width, place_columns, place_rows, tier_extent
from planset.sheets.one_line.sizes import Style, sized
from planset.sheets.one_line.units import Unit, cut_before, shared_rows, trunk, unit_tree

_RISER_X = 0.1  # of the ground bus, left of everything [in]
_LANE_X = 0.3  # where a tier's wire comes down to the next [in]
_LEFT = 0.5  # where the units begin [in]
_RIGHT = 0.35  # kept free beside them for the wire to the next tier [in]
_LANE = 0.4  # height of the wire from tier to tier, the number on it [in]
_MOST_TIERS = 4
_MOST_ON_A_ROW = 4


@dataclass(frozen=True, slots=True)
class System:
    """What the diagram shows.

    Attributes:
        topology: Equipment and segments.
        buses: Buses that sources feed.
        grounding: Steps from the module frames to earth.
    """

    topology: Topology
    buses: tuple[BusLoad, ...]
    grounding: tuple[GroundingStep, ...]


@dataclass(frozen=True, slots=True)
class Diagram:
    """A drawn diagram, in inches from its lower left corner.

    Attributes:
        width: Its width [in].
        height: Its height [in].
        model: Symbols, wires and enclosures.
        annotation: Tags and labels.
        blocks: Blocks made for this system, beside the symbols.
    """

    width: float
    height: float
    model: tuple[Primitive, ...]
    annotation: tuple[Primitive, ...]
    blocks: tuple[Block, ...]


def diagram(
    system: System,
    symbols: Mapping[str, Symbol],
    width: float,
    height: float,
    details: tuple[Detail, ...] = (Detail.FULL, Detail.SHORT),
) -> Diagram:
    """Draw a system no larger than a frame, with as much written at the symbols as fits.

    Raises:
        ViewTooLargeError: It does not fit, even with the least written and several strings a row.
    """
    root = unit_tree(system.topology)
    buses = {load.tag: load for load in system.buses}
    for most in range(1, _MOST_ON_A_ROW + 1):
        tree = shared_rows(root, most) if most > 1 else root
        for detail in details:
            style = Style(symbols, detail, buses)
            tried = (_folded(cut, system, style, width) for cut in _cuts(tree, style, width))
            fitting = [one for one in tried if one.height <= height]
            if fitting:
                fewest = min(len(one.tiers) for one in fitting)
                best = [one for one in fitting if len(one.tiers) == fewest]
                return _drawn(min(best, key=lambda one: one.height), style)
    msg = f"the single-line diagram does not fit {width:.1f} x {height:.1f} in"
    raise ViewTooLargeError(msg)


@dataclass(frozen=True, slots=True)
class _Folded:
    """Tiers with their places, before anything is drawn."""

    tiers: tuple[Node, ...]
    known: GroundBus
    width: float
    height: float


def _cuts(root: Unit, style: Style, width: float) -> Iterator[list[Unit]]:
    """Every way to cut the tree in tiers that keep to a width, the fewest tiers first."""
    places = [
        unit.tag for unit in trunk(root)[1:] if isinstance(unit.onward, Segment) and unit.feeds
    ]
    for count in range(_MOST_TIERS):
        found = False
        for cuts in combinations(places, count):
            tiers = cut_before(root, cuts)
            room = width - _LEFT - (_RIGHT if count else 0.05)
            if all(least_width(sized(tier, style)) <= room for tier in tiers):
                found = True
                yield tiers
        if found and count >= 2:
            return


def _folded(tiers: list[Unit], system: System, style: Style, width: float) -> _Folded:
    service = next((p.tag for p in reversed(system.topology.panels)), "")
    right = width - (_RIGHT if len(tiers) > 1 else 0.05)
    known = GroundBus(system.grounding, right, _service(tiers[-1]) or service)
    nodes = []
    height = 0.0
    for tier in tiers:
        node = sized(tier, style)
        place_columns(node, _LEFT, right)
        place_rows(node, style, known)
        low, high = tier_extent(node)
        height += high - low
        nodes.append(node)
    height += _LANE * (len(tiers) - 1)
    return _Folded(tuple(nodes), known, width, height)


def _service(root: Unit) -> str:
    """Tag of the panel nearest to the utility."""
    panels = [unit.tag for unit in root.walk() if unit.panel is not None and unit.existing]
    return panels[-1] if panels else ""


def _drawn(folded: _Folded, style: Style) -> Diagram:
    sketch = Sketch(style)
    top = folded.height
    risers: list[float] = []
    for number, root in enumerate(folded.tiers):
        low, high = tier_extent(root)
        _move(root, top - high)
        draw_tier(sketch, root, _LANE_X)
        risers += _draw_ground(sketch, root, folded.known)
        top -= high - low
        if number < len(folded.tiers) - 1:
            top -= _LANE
            _draw_connection(sketch, root, folded, top + 0.06, number)
    if len(risers) > 1:
        sketch.wire((_RISER_X, max(risers)), (_RISER_X, min(risers)), layer=GROUND)
    return Diagram(
        folded.width,
        folded.height,
        tuple(sketch.model),
        tuple(sketch.words),
        tuple(sketch.blocks),
    )


def _move(root: Node, by: float) -> None:
    for node in root.walk():
        node.y += by
        node.rows = [row + by for row in node.rows]


def _draw_connection(
    sketch: Sketch, root: Node, folded: _Folded, lane: float, number: int
) -> None:
    """The wire from the end of a tier, around its right side, to the start of the next."""
    below = folded.tiers[number + 1]
    stub = next(node for node in below.walk() if node.unit.continued)
    low, high = tier_extent(below)
    entry = lane - 0.06 - high + _entry_level(below, stub)
    right = folded.width - _RIGHT / 2
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


def _draw_ground(sketch: Sketch, root: Node, known: GroundBus) -> list[float]:
    """The ground buses of a tier; their levels."""
    found: list[tuple[Node, float]] = [(root, root.y - root.down)]
    for node in root.walk():
        bands = zip(node.feeds[:-1], node.rows[:-1], strict=True)
        found += [(f, row - f.down) for f, row in bands if f is not None and f.channel]
    levels = []
    for band, foot in found:
        channel = ground_bus(band, known)
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
    from planset.sheets.one_line.sizes import box_extent, panel_shape

    if node.unit.panel is not None:
        base = node.rows[0] if node.rows else node.y
        shape = panel_shape(node.unit, sketch.style, [row - base for row in node.rows])
        return base + shape.outline[0]
    first = node.rows[0] if node.rows else node.y
    _, _, bottom = box_extent(node, [row - first for row in node.rows])
    return first + bottom


__all__ = ["ELECTRODE_HALF", "replace"]
