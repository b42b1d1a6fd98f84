"""The drawing of placed tiers: symbols, wires, enclosures, numbers of segments, words."""

from __future__ import annotations

from dataclasses import dataclass, field

from planset.design.electrical.topology import Equipment, Kind, Segment
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
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets.one_line.kinds import SYMBOLS
from planset.sheets.one_line.labels import PITCH, TAG_HEIGHT, Label
from planset.sheets.one_line.node import TAG_RADIUS, WORDS_GAP, words_width
from planset.sheets.one_line.sizes import LABEL_GAP, Style

WIRE = "E-DIAG-ONEL"
BUS = "E-DIAG-BUSS"
SYMBOL = "E-DIAG-SYMB"
GROUND = "E-DIAG-GRND"
ENCLOSURE = "E-DIAG-ENCL"
BOUNDARY = "E-DIAG-BNDY"
TEXT = "E-ANNO-TEXT"
NOTE = "E-ANNO-NOTE"
OVER_WIRE = 0.045  # of words over a wire [in]
_ATTRIBUTES = ("ID", "TAG", "RATING")


@dataclass(slots=True)
class Sketch:
    """What has been drawn so far, in the diagram's own inches.

    Attributes:
        style: How it is drawn.
        model: Symbols, wires, enclosures.
        words: Tags and labels.
        blocks: Blocks made for this system.
        around: Outline of the array or of the shared box that a unit stands in, by its tag.
    """

    style: Style
    model: list[Primitive] = field(default_factory=list)
    words: list[Primitive] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    around: dict[str, Box] = field(default_factory=dict)

    def place(self, item: Equipment, at: Point) -> None:
        """The symbol of a piece of equipment."""
        self.insert(item, SYMBOLS[item.kind], at)

    def insert(self, item: Equipment, block: str, at: Point, layer: str = SYMBOL) -> None:
        """A block that stands for a piece of equipment."""
        values = (item.tag, item.tag, "; ".join(item.ratings))
        carried = tuple(
            Attribute(name, value) for name, value in zip(_ATTRIBUTES, values, strict=True)
        )
        self.model.append(Insert(block, at, layer, attributes=carried, identity=item.tag))

    def made(self, name: str, drawn: tuple[Primitive, ...], words: str) -> str:
        """A block of this system's own; its name."""
        self.blocks.append(Block(name, drawn, words, _ATTRIBUTES))
        return name

    def wire(self, *points: Point, layer: str = WIRE) -> None:
        """Lines along the points, none of no length and none a second time."""
        lines = [Line(a, b, layer) for a, b in zip(points, points[1:], strict=False) if a != b]
        self.model += [line for line in lines if line not in self.model]

    def dot(self, at: Point) -> None:
        """A dot where conductors are joined."""
        self.model.append(Insert(SYMBOLS[Kind.TAP], at, SYMBOL))

    def outline(self, box: Box, layer: str) -> None:
        """A rectangle."""
        self.model.append(Polyline(box.corners, layer, closed=True))

    def text(
        self, words: str, at: Point, align: str = "left", height: float = MINIMUM_HEIGHT
    ) -> None:
        """One line of text."""
        self.words.append(Text(words, at, height, TEXT, align))

    def label(self, label: Label, at: Point) -> None:
        """Words centered over a point, which is the top of what they name."""
        x, y = at[0], at[1] + LABEL_GAP
        for words in reversed(label.lines):
            self.text(words, (x, y), "center")
            y += PITCH
        if label.tag:
            self.text(label.tag, (x, y), "center", TAG_HEIGHT)

    def numbers(self, segments: tuple[Segment, ...], words: str, x: float, y: float) -> None:
        """The numbers of segments in circles that stand on their wire, and words, about x."""
        pitch = 2 * TAG_RADIUS + 0.04
        first = x - (pitch * (len(segments) - 1) + words_width(words)) / 2
        if words:
            after = first + pitch * (len(segments) - 1) + TAG_RADIUS + WORDS_GAP
            self.text(words, (after, y + OVER_WIRE))
        for n, segment in enumerate(segments):
            center = (first + n * pitch, y + TAG_RADIUS)
            self.words.append(Circle(center, TAG_RADIUS, NOTE))
            self.words.append(Text(segment.tag, center, MINIMUM_HEIGHT, TEXT, "middle"))
