"""What a page is made of: resolved shapes on layers, in model or paper inches.

The container says which: a `Block` and the `model` part of a `View` hold model inches at true
size; the `annotation` of a view and the `paper` of a page hold paper inches.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from planset.drawing.geometry import Point


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from a to b [in]."""

    a: Point
    b: Point
    layer: str


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight and round segments in a row.

    Attributes:
        points: Vertices [in].
        layer: Layer name.
        closed: Whether the last vertex joins the first.
        bulges: One per vertex, the tangent of a quarter of the arc to the next vertex,
            positive counterclockwise; empty when all segments are straight.
    """

    points: tuple[Point, ...]
    layer: str
    closed: bool = False
    bulges: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle [in]."""

    center: Point
    radius: float
    layer: str


@dataclass(frozen=True, slots=True)
class Area:
    """A filled polygon without holes [in]."""

    points: tuple[Point, ...]
    layer: str


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text.

    Attributes:
        text: The line, no line breaks.
        at: Anchor on the baseline, or at the middle of the capitals for align "middle" [in].
        height: Height of the capitals [in].
        layer: Layer name.
        align: "left", "center", "right" or "middle" (centered both ways).
        rotation_deg: Counterclockwise [deg].
        crowded: Whether it had to be set on a thin pen, every better place being taken.
    """

    text: str
    at: Point
    height: float
    layer: str
    align: str = "left"
    rotation_deg: float = 0.0
    crowded: bool = False


@dataclass(frozen=True, slots=True)
class Dimension:
    """A linear dimension parallel to the line it measures.

    Attributes:
        a: First measured point, in the coordinates of its container [in].
        b: Second measured point [in].
        line_a: Where the dimension line starts, opposite a [in].
        line_b: Where it ends, opposite b [in].
        text: The printed figure.
        text_at: Middle of the figure [in].
        text_height: Height of the capitals [in].
        layer: Layer name.
        value_in: The distance the figure states [in]: the distance drawn, or on a slope the
            distance between the two points lifted onto their plane.
        slope_factor: Length on the plane per length as drawn: 1 for a distance as drawn, over 1
            for one on the roof surface.
        marks: Lines, ticks and text exactly as every format draws them.
        running: Whether it is one of a row of distances from a datum, which is its first point.
    """

    a: Point
    b: Point
    line_a: Point
    line_b: Point
    text: str
    text_at: Point
    text_height: float
    layer: str
    value_in: float
    slope_factor: float
    marks: tuple[Line | Polyline | Circle | Area | Text, ...]
    running: bool = False

    @property
    def on_slope(self) -> bool:
        """Whether the figure is a distance on the roof surface."""
        return self.slope_factor > 1


@dataclass(frozen=True, slots=True)
class Leader:
    """A line from a note to the thing it names.

    Attributes:
        points: From the note to the thing [in].
        layer: Layer name.
        end: "arrow" on an edge, "dot" on a surface.
        marks: The line and its end exactly as every format draws them.
        names: Id of the thing the leader ends on, "" when it is not an object of the design.
    """

    points: tuple[Point, ...]
    layer: str
    end: str
    marks: tuple[Line | Polyline | Area | Circle, ...]
    names: str = ""


@dataclass(frozen=True, slots=True)
class Attribute:
    """A named value carried by an insertion.

    Attributes:
        tag: Name, capitals, digits and underscores.
        value: What it says.
        text: Where it is written, in the coordinates of the insertion's container; None for
            data that is carried but not shown.
    """

    tag: str
    value: str
    text: Text | None = None


@dataclass(frozen=True, slots=True)
class Insert:
    """One use of a block.

    Attributes:
        block: Name of the block.
        at: Where its origin lands [in].
        layer: Layer of the insertion; what the block draws on layer "0" takes it.
        rotation_deg: Counterclockwise [deg].
        scale: Uniform factor.
        attributes: Named values.
        identity: Id of the design object this insertion is, "" when it is none.
    """

    block: str
    at: Point
    layer: str
    rotation_deg: float = 0.0
    scale: float = 1.0
    attributes: tuple[Attribute, ...] = ()
    identity: str = ""


@dataclass(frozen=True, slots=True)
class Link:
    """A part of the page that leads to another sheet, or to a view.

    Attributes:
        lower_left: Corner [in].
        upper_right: Opposite corner [in].
        sheet: Id of the sheet, or of the data sheet, it leads to.
        view: Number of the view on that sheet, 0 for the sheet as a whole.
    """

    lower_left: Point
    upper_right: Point
    sheet: str
    view: int = 0


Primitive = Line | Polyline | Circle | Area | Text | Dimension | Leader | Insert | Link


@dataclass(frozen=True, slots=True)
class Block:
    """Something drawn once and inserted wherever it shows, in model inches at true size.

    Attributes:
        name: Unique name.
        primitives: Its drawing, origin at (0, 0).
        description: What it is, carried into the DXF.
        attribute_tags: Tags an insertion may fill.
        written: Values that every insertion shows, at their places in the block; the insertion
            repeats them, moved along.
        constants: Values of every insertion that none shows and none repeats.
    """

    name: str
    primitives: tuple[Primitive, ...]
    description: str = ""
    attribute_tags: tuple[str, ...] = field(default=())
    written: tuple[Attribute, ...] = field(default=())
    constants: tuple[Attribute, ...] = field(default=())
