"""Diagrams of topologies as sets of pages, and what holds of every one of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from shapely import unary_union
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry import box as rectangle
from shapely.geometry.base import BaseGeometry

from planset.design.electrical.system import BusLoad, GroundingStep
from planset.design.electrical.topology import Topology
from planset.drawing.flatten import strokes
from planset.drawing.geometry import Box, Placement, box_around
from planset.drawing.geometry import Point as Place
from planset.drawing.page import DrawingSet, Page
from planset.drawing.primitives import Circle, Insert, Line, Polyline, Primitive, Text
from planset.finding import Outcome
from planset.review.run import review
from planset.sheets.context import continued_id
from planset.sheets.one_line.diagram import draw_pages
from planset.sheets.one_line.fold import System, fold
from planset.sheets.one_line.labels import Detail
from planset.sheets.one_line.paint import BOUNDARY, BUS, ENCLOSURE, GROUND, WIRE
from planset.sheets.one_line.sheet import diagram_page
from tests.sheets.drawn_sets import symbols, title_block

TITLE_ROOM = 0.85  # below the diagram [in]
TOUCHES = 1e-6
DOT, MARK = "TAP", "CONTINUATION"
TAPPED = 0.6  # around the dots of a tap [in]
ROUND = ("METER", "PRODUCTION_METER", "UTILITY")
NEAR = 1e-4  # of a grounding conductor at a circle, which is a polygon here [in]
INSIDE = 0.01  # how far a wire may reach into a symbol's box and still end at its edge [in]


@dataclass(frozen=True)
class Drawn:
    """A system with its diagram."""

    topology: Topology
    drawing: DrawingSet
    each: bool


def drawn(
    topology: Topology,
    grounding: tuple[GroundingStep, ...],
    size: str,
    buses: tuple[BusLoad, ...] = (),
    *,
    each: bool = False,
) -> Drawn:
    """The diagram of a topology on sheets of a size, without its schedules.

    Every conductor is drawn where `each` holds.
    """
    block = title_block(size)
    area = block.drawing_area.grown(-0.12)
    system = System(topology, buses, grounding, each)
    room = area.height - TITLE_ROOM
    folded = fold(system, symbols(), area.width, room, Detail.SHORT)
    ids = tuple(continued_id("E-601", number) for number in range(len(folded.pages)))
    blocks = {block.name: block.block} | {n: symbol.block for n, symbol in symbols().items()}
    pages = []
    for diagram, sheet in zip(draw_pages(folded, ids), ids, strict=True):
        blocks |= {made.name: made for made in diagram.blocks}
        made = diagram_page(diagram, area, sheet, "")
        border = Insert(block.name, (0.0, 0.0), "G-ANNO-TTLB")
        pages.append(Page(sheet, "DIAGRAM", block.name, made.views, (border, *made.paper)))
    drawing = DrawingSet("", "", "", {block.name: block}, blocks, tuple(pages))
    return Drawn(topology, drawing, each)


@dataclass
class Sheet:
    """What one page of a diagram draws, in the coordinates of its view."""

    page: Page
    drawing: DrawingSet

    @property
    def model(self) -> tuple[Primitive, ...]:
        return self.page.views[0].model

    @property
    def wires(self) -> list[Line]:
        return [p for p in self.model if isinstance(p, Line) and p.layer in (WIRE, GROUND)]

    @property
    def inserts(self) -> list[Insert]:
        return [p for p in self.model if isinstance(p, Insert)]

    def extent(self, part: Insert) -> Box:
        """The box of an inserted block's lines."""
        placed = Placement(part.at, part.rotation_deg, part.scale)
        lines = strokes(self.drawing.blocks[part.block].primitives, placed, {}, part.layer)
        return box_around(point for stroke in lines for point in stroke.points)

    def bounds(self, part: Insert) -> tuple[float, float, float, float]:
        """The same as a tuple."""
        box = self.extent(part)
        return (box.x0, box.y0, box.x1, box.y1)

    @property
    def bodies(self) -> list[tuple[Insert, Box]]:
        """What no wire may run through: all symbols but bars and dots, which join wires."""
        return [(p, self.extent(p)) for p in self.inserts if p.layer != BUS and p.block != DOT]

    @property
    def joints(self) -> BaseGeometry:
        """Where conductors drawn one by one may cross: in panels, and where they are tapped."""
        panels = [Polygon(p.points) for p in self.model
                  if isinstance(p, Polyline) and p.layer == ENCLOSURE]  # fmt: skip
        dots = [Point(p.at).buffer(TAPPED) for p in self.inserts if p.block == DOT]
        return unary_union([*panels, *dots])

    def terminals(self, part: Insert) -> list[BaseGeometry]:
        """Where wires may end at a block: its terminals, or the sides of one made for it."""
        symbol = symbols().get(part.block)
        if part.block == DOT:
            return [rectangle(*self.bounds(part)), Point(part.at)]
        if symbol is not None:
            return [Point(x + part.at[0], y + part.at[1]) for x, y in symbol.terminals.values()]
        extent = self.extent(part)
        if part.layer == BUS:
            bars = [bar for bar in self.drawing.blocks[part.block].primitives]
            xs = [part.at[0] + bar.a[0] for bar in bars if isinstance(bar, Line)]
            return [LineString([(x, extent.y0), (x, extent.y1)]) for x in xs]
        return [rectangle(extent.x0, extent.y0, extent.x1, extent.y1).exterior]

    @property
    def outlines(self) -> list[BaseGeometry]:
        """Where a grounding conductor may end: at an enclosure, an array, or a block's side."""
        drawn = [
            LineString([*p.points, p.points[0]])
            for p in self.model
            if isinstance(p, Polyline) and p.layer in (ENCLOSURE, BOUNDARY)
        ]
        return [*drawn, *(self.outline(part) for part in self.inserts)]

    def grounded(self, *, each: bool) -> list[BaseGeometry]:
        """All that a grounding conductor may end at; the neutrals of a tap are several wires."""
        dots = [Point(p.at).buffer(TAPPED) for p in self.inserts if each and p.block == DOT]
        return [*self.outlines, *dots]

    def outline(self, part: Insert) -> BaseGeometry:
        """The side of a block; of a round one its circle."""
        if part.block in ROUND:
            return Point(part.at).buffer(symbols()[part.block].box.x1, 256).exterior
        return rectangle(*self.bounds(part)).exterior


def sheets(made: Drawn) -> list[Sheet]:
    """The pages of a diagram."""
    return [Sheet(page, made.drawing) for page in made.drawing.pages]


def faults(made: Drawn) -> list[str]:
    """Everything that is wrong with a diagram, in words."""
    # Links are put on the pages of a whole set only, so theirs is the one rule left out here.
    review_of = [f for f in review(made.drawing) if f.rule != "drafting.links-resolve"]
    found = [f.message for f in review_of if f.outcome is Outcome.FAIL]
    for sheet in sheets(made):
        found += _wire_faults(sheet, each=made.each)
        found += _overlaps(sheet)
    return [*found, *_tag_faults(made), *_missing(made), *_unconnected(made)]


def _line(wire: Line) -> LineString:
    return LineString([wire.a, wire.b])


def _wire_faults(sheet: Sheet, *, each: bool) -> Iterator[str]:
    wires = [(wire, _line(wire)) for wire in sheet.wires]
    bodies = sheet.bodies
    ends = [shape for part in sheet.inserts for shape in sheet.terminals(part)]
    for wire, line in wires:
        if min(abs(wire.a[0] - wire.b[0]), abs(wire.a[1] - wire.b[1])) > TOUCHES:
            yield f"{wire} is neither level nor upright"
        for part, box in bodies:
            inner = rectangle(box.x0, box.y0, box.x1, box.y1).buffer(-INSIDE)
            if part.block in ROUND:
                inner = sheet.outline(part).convex_hull.buffer(-INSIDE)
            if not inner.is_empty and line.intersects(inner):
                yield f"{wire} runs through {part.identity or part.block}"
        for end in (wire.a, wire.b):
            others = [other for w, other in wires if w is not wire and w.layer == wire.layer]
            known = [*ends, *others, *(sheet.grounded(each=each) if wire.layer == GROUND else [])]
            near = TOUCHES if wire.layer == WIRE else NEAR
            if all(Point(end).distance(shape) > near for shape in known):
                yield f"{wire} ends at nothing at {end}"
    for (one, first), (other, second) in combinations(wires, 2):
        crossing = first.crosses(second) and not _meet_at_an_end(one, other)
        if crossing and not (each and sheet.joints.covers(first.intersection(second))):
            yield f"{one} crosses {other}"
        if first.intersection(second).length > TOUCHES:
            yield f"{one} lies on {other}"


def _meet_at_an_end(one: Line, other: Line) -> bool:
    return any(Point(end).distance(_line(other)) < TOUCHES for end in (one.a, one.b)) or any(
        Point(end).distance(_line(one)) < TOUCHES for end in (other.a, other.b)
    )


def _overlaps(sheet: Sheet) -> Iterator[str]:
    bodies = sheet.bodies
    for (one, first), (other, second) in combinations(bodies, 2):
        if first.grown(-INSIDE).overlaps(second.grown(-INSIDE)):
            yield f"{one.identity or one.block} lies on {other.identity or other.block}"


def _tag_faults(made: Drawn) -> Iterator[str]:
    """Numbers stand in a circle that touches the wire, each once in the whole diagram."""
    found: dict[str, int] = defaultdict(int)
    for sheet in sheets(made):
        view = sheet.page.views[0]
        lines = [_line(wire) for wire in sheet.wires if wire.layer == WIRE]
        words = {part.at: part.text for part in view.annotation if isinstance(part, Text)}
        for circle in view.annotation:
            if isinstance(circle, Circle):
                found[words[circle.center]] += 1
                left, foot = view.on_paper.apply((0.0, 0.0))
                x, y = circle.center[0] - left, circle.center[1] - foot
                if all(Point(x, y - circle.radius).distance(line) > TOUCHES for line in lines):
                    yield f"the number {words[circle.center]} stands on no wire"
    for segment in made.topology.segments:
        if found.pop(segment.tag, 0) != 1:
            yield f"segment {segment.tag} is not numbered once"
    if found:
        yield f"numbers of no segment: {list(found)}"


def _missing(made: Drawn) -> Iterator[str]:
    """All equipment is named, and its symbol drawn once, but for strings that share a row."""
    shown = [part.identity for sheet in sheets(made) for part in sheet.inserts if part.identity]
    words = " ".join(
        f" {part.text.replace(',', ' ')} "
        for sheet in sheets(made)
        for part in sheet.page.views[0].annotation
        if isinstance(part, Text)
    )
    for item in made.topology.equipment:
        if shown.count(item.tag) > 1:
            yield f"{item.tag} is drawn twice"
        in_row = item.tag not in shown and f" {item.tag} " in words
        head = item.tag.partition("-")[2]
        if item.tag not in shown and not in_row and f" {head} " not in words:
            yield f"{item.tag} is not drawn"


def _nets(sheet: Sheet) -> list[set[str]]:
    """The identities, or marks, that each connected piece of wire reaches."""
    wires = [wire for wire in sheet.wires if wire.layer == WIRE]
    group = list(range(len(wires)))
    for (i, one), (j, other) in combinations(enumerate(wires), 2):
        if _meet_at_an_end(one, other):
            old, new = group[j], group[i]
            group = [new if g == old else g for g in group]
    nets: dict[int, set[str]] = defaultdict(set)
    for part in sheet.inserts:
        for terminal in sheet.terminals(part):
            for number, wire in zip(group, wires, strict=True):
                ends: tuple[Place, ...] = (wire.a, wire.b)
                if any(terminal.distance(Point(end)) < TOUCHES for end in ends):
                    nets[number].add(_name(part))
    return list(nets.values())


def _name(part: Insert) -> str:
    """What a net calls a block: its equipment, or the further pole or mark that it is."""
    if part.identity or part.block == MARK:
        return part.identity or part.block
    return f"{part.block} at {part.at}"


def _unconnected(made: Drawn) -> Iterator[str]:
    """Both ends of every way hang on one wire, or each on a mark where pages part them."""
    nets = [net for sheet in sheets(made) for net in _nets(sheet)]
    marked = {tag for net in nets if MARK in net for tag in net}
    shown = {part.identity for sheet in sheets(made) for part in sheet.inserts}
    for way in (*made.topology.segments, *made.topology.links):
        if not {way.start, way.end} <= shown:
            continue  # a string that shares a row
        together = any({way.start, way.end} <= net for net in nets)
        if not together and not {way.start, way.end} <= marked:
            yield f"{way.start} and {way.end} are not connected"
    for net in nets:
        if len(net) < 2:
            yield f"a wire at {net} leads nowhere"


def lanes(made: Drawn) -> list[set[str]]:
    """The enclosures, arrays and marks that each connected grounding conductor reaches."""
    panels = {item.tag: item.panel or item.tag for item in made.topology.equipment}
    found = []
    for sheet in sheets(made):
        lines = [wire for wire in sheet.wires if wire.layer == GROUND]
        group = list(range(len(lines)))
        for (i, one), (j, other) in combinations(enumerate(lines), 2):
            if {one.a, one.b} & {other.a, other.b}:
                group = [group[i] if g == group[j] else g for g in group]
        for number in set(group):
            ends = [end for g, line in zip(group, lines, strict=True) if g == number
                    for end in (line.a, line.b)]  # fmt: skip
            found.append({tag for end in ends for tag in _reached(sheet, end, panels)})
    return found


def _reached(sheet: Sheet, end: Place, panels: dict[str, str]) -> set[str]:
    """What stands where a grounding conductor ends."""
    at = Point(end)
    tags = {
        panels[part.identity] if part.identity else part.block
        for part in sheet.inserts
        if sheet.outline(part).distance(at) < NEAR
        or (part.identity and any(t.distance(at) < NEAR for t in sheet.terminals(part)))
    }
    for outline in sheet.model:
        if not isinstance(outline, Polyline) or outline.layer not in (ENCLOSURE, BOUNDARY):
            continue
        if LineString([*outline.points, outline.points[0]]).distance(at) < NEAR:
            inside = Polygon(outline.points)
            tags |= {
                panels[p.identity] if outline.layer == ENCLOSURE else "ARRAY"
                for p in sheet.inserts
                if p.identity and inside.covers(Point(p.at))
            }
    return tags
