"""A unit of the diagram with its size and place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from planset.design.electrical.system import GroundingStep
from planset.design.electrical.topology import Segment
from planset.drawing.geometry import Box
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width
from planset.sheets.one_line.kinds import IN_ARRAY
from planset.sheets.one_line.labels import NOTHING, Label
from planset.sheets.one_line.poles import ONE_LINE, Conductor
from planset.sheets.one_line.units import Unit
from planset.sheets.one_line.wire_words import conductor_brief

TAG_RADIUS = 0.12
_SEGMENT_GAP = 0.42  # wire between cells that carries the number of a segment [in]
WORDS_GAP = 0.05  # from the number to the words over the wire [in]
_LINK_GAP = 0.16
_MARK_X = 1.0  # from the last unit to a mark, beside words at the wire [in]
NAMES_GAP = 0.42  # more of it for the names of conductors [in]
LANE_DROP = 0.1  # of a grounding conductor below the wire that it runs beside [in]
OUTLINE_PAD = 0.1  # of an array's outline around what stands in it [in]
_LANE_ENDS = 0.1  # of a lane beside its words [in]
_MORE_TAGS = 2 * TAG_RADIUS + 0.04  # for every further number on the same wire [in]


@dataclass(slots=True)
class Node:
    """A unit with its size and place.

    Attributes:
        unit: What it is.
        label: Words above it.
        symbol: Extent of its symbol about its center; of a panel or a box its outline [in].
        feeds: Nodes of its feeds, None for a breaker whose source is not drawn.
        wires: Conductors drawn of its way onward.
        width: Width of its cell [in].
        left: From the left side of the cell to the symbol's center [in].
        x0: Left side of the cell on the diagram [in].
        y: Level of its way onward on the diagram [in].
        rows: Levels of its feeds on the diagram [in].
        up: Highest point of it and of all that feeds it over `y` [in].
        down: Lowest point of the same below `y`, as a positive length [in].
        beside: Whether its tag stands at the left of the symbol, not above it.
        before: That tag, "" where there is no room for it.
        lowest: Whether it is the lowest string of its array, with the array's outline below it.
        arrays: Ids of the arrays that its strings belong to, where that is known.
        bonds: Steps of the grounding path whose conductors run beside its way onward.
        bond_room: Width of what is written under them [in].
        over: What stands over its way onward, beside the number.
        under: What stands under it, below the grounding conductor's own words.
        words_room: Width of what is written over it [in].
        earth: Steps from its enclosure to earth: to its neutral bar, and from there to electrodes.
        neutral: Step from its neutral bar along its way onward, None without one.
        served: Whether a neutral comes to its bar from the right.
        sink: How far its way to earth goes down before words stand beside it, under those of the
            lanes [in].
    """

    unit: Unit
    label: Label = NOTHING
    symbol: Box = Box(0.0, 0.0, 0.0, 0.0)
    feeds: list[Node | None] = field(default_factory=list)
    wires: tuple[Conductor, ...] = ONE_LINE
    width: float = 0.0
    left: float = 0.0
    x0: float = 0.0
    y: float = 0.0
    rows: list[float] = field(default_factory=list)
    up: float = 0.0
    down: float = 0.0
    beside: bool = False
    before: str = ""
    lowest: bool = False
    arrays: frozenset[str] = frozenset()
    bonds: tuple[GroundingStep, ...] = ()
    bond_room: float = 0.0
    over: str = ""
    under: tuple[str, ...] = ()
    words_room: float = 0.0
    earth: tuple[GroundingStep, ...] = ()
    neutral: GroundingStep | None = None
    served: bool = False
    sink: float = 0.0

    @property
    def x(self) -> float:
        """Center of its symbol on the diagram [in]."""
        return self.x0 + self.left

    @property
    def x1(self) -> float:
        """Right side of its cell [in]."""
        return self.x0 + self.width

    @property
    def right_half(self) -> float:
        """From its center to the right side of its symbol or outline [in]."""
        return self.width / 2 if self.unit.panel is not None else self.symbol.x1

    @property
    def span(self) -> float:
        """How far the conductors of its way onward reach to both sides of its level [in]."""
        return max(abs(wire.rise) for wire in self.wires)

    @property
    def lane(self) -> float:
        """Level of the grounding conductor beside its way onward, over that of the way [in]."""
        return min(wire.rise for wire in self.wires) - LANE_DROP

    @property
    def reach(self) -> float:
        """The same of all wires that arrive or leave [in]."""
        return max(self.span, *(child.span for child in self.children), 0.0)

    @property
    def children(self) -> list[Node]:
        """The nodes that feed it."""
        return [feed for feed in self.feeds if feed is not None]

    def walk(self) -> Iterator[Node]:
        """All that feeds it, then itself."""
        for child in self.children:
            yield from child.walk()
        yield self

    @property
    def last_chain(self) -> list[Node]:
        """Itself, its lowest feed, the lowest feed of that, and so on to a source."""
        found = [self]
        while found[-1].feeds and found[-1].feeds[-1] is not None:
            found.append(found[-1].feeds[-1])
        return found


def segments_on(unit: Unit) -> tuple[Segment, ...]:
    """The segments whose numbers stand on the wire onward from a unit."""
    ways = [one.onward for one in unit.rows or (unit,)]
    return tuple(way for way in ways if isinstance(way, Segment))


def wire_words(unit: Unit) -> str:
    """What stands over the wire onward from a unit, beside its number."""
    said = (conductor_brief(way) for way in segments_on(unit))
    return ", ".join(dict.fromkeys(words for words in said if words))


def words_width(words: str) -> float:
    """Width of words over a wire, with the gap before them [in]."""
    return WORDS_GAP + text_width(words, MINIMUM_HEIGHT) * SLACK if words else 0.0


def mark_distance(node: Node) -> float:
    """From the last unit of a part to the mark where its way goes on elsewhere [in]."""
    named = any(wire.name for wire in node.wires)
    return _MARK_X + max(node.words_room, node.bond_room - _MARK_X / 2) + NAMES_GAP * named


def gap_after(node: Node) -> float:
    """Least length of the wire onward from a node, between its cell and the next [in]."""
    numbers = len(segments_on(node.unit))
    named = NAMES_GAP if any(wire.name for wire in node.wires) else 0.0
    if numbers == 0:
        return _LINK_GAP
    beside = named + _SEGMENT_GAP + (numbers - 1) * _MORE_TAGS + node.words_room
    if not node.bond_room:
        return beside
    # A lane leaves the symbol, or the outline of an array, and so has some of the cell beside it.
    before = OUTLINE_PAD if node.unit.kind in IN_ARRAY else node.right_half - node.width + node.left
    return max(beside, node.bond_room + before + _LANE_ENDS)
