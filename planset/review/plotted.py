"""What stands on a sheet once it is plotted, in paper inches."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from planset.drawing.geometry import Box, Point, united
from planset.drawing.layers import Layer
from planset.drawing.page import View
from planset.drawing.primitives import Dimension, Insert, Primitive

HAIR = 0.005
"""What plotter and eye let pass [in]: things nearer than this, or overlapping by less, touch."""

_MM_PER_IN = 25.4


class Part(StrEnum):
    """Which part of a page a primitive belongs to."""

    TITLE_BLOCK = "title block"
    PAPER = "paper"
    ANNOTATION = "annotation"
    MODEL = "model"


@dataclass(frozen=True, slots=True)
class Ink:
    """A line or a filled area; arcs and circles are flattened to chords.

    Attributes:
        shape: the course of a line or the area; in pieces where a frame cuts it [paper in].
        layer: whose pen draws it.
        filled: whether it is an area.
        identity: id of the design object it draws, that of the innermost insertion with one.
    """

    shape: BaseGeometry
    layer: Layer
    filled: bool = False
    identity: str = ""

    @property
    def reach_in(self) -> float:
        """How far the ink reaches beyond its shape [in]."""
        return 0.0 if self.filled else self.layer.pen_mm / 2 / _MM_PER_IN


@dataclass(frozen=True, slots=True)
class PlottedText:
    """One line of text.

    Attributes:
        words: the line.
        shape: the rectangle it covers, turned as it is, descenders included [paper in].
        height_in: plotted height of the capitals [in].
        layer: layer of its ink.
        crowded: whether no place clear of thin pens was free for it.
    """

    words: str
    shape: Polygon
    height_in: float
    layer: Layer
    crowded: bool = False

    @property
    def box(self) -> Box:
        """The axis-parallel box around it [paper in]."""
        return Box(*self.shape.bounds)

    @property
    def where(self) -> str:
        """The words and the lower left corner of their box, for messages."""
        x, y, _, _ = self.shape.bounds
        return f'"{self.words}" at {place((x, y))}'


@dataclass(frozen=True, slots=True)
class PlottedDimension:
    """A dimension.

    Attributes:
        dimension: as the sheet made it.
        true_per_drawn: inches of the thing shown per inch of the dimension's coordinates.
        view_factor: model inches per paper inch of the view it stands in, 1 outside of views.
    """

    dimension: Dimension
    true_per_drawn: float
    view_factor: float


@dataclass(frozen=True, slots=True)
class PlottedLink:
    """A part of the page that leads to another sheet, or to a view.

    Attributes:
        box: where it is [paper in].
        sheet: id of the sheet it leads to.
        view: number of the view on it, 0 for the sheet as a whole.
    """

    box: Box
    sheet: str
    view: int = 0


@dataclass(frozen=True)  # without slots, for the box to be kept
class Item:
    """One primitive of a page or view and all that comes of it, nested blocks included.

    What a view shows of the model is cut at its frame, as every format cuts it. Annotation is
    kept whole, so that a rule can see what the frame would cut.

    Attributes:
        primitive: as the sheet made it.
        part: the part of the page it belongs to.
        view: the view it stands in, None outside of views.
        ink: its lines and filled areas.
        texts: its words, blank ones left out.
        dimensions: its dimensions; their lines and figures are among ink and texts too.
        links: its links.
    """

    primitive: Primitive
    part: Part
    view: View | None
    ink: tuple[Ink, ...]
    texts: tuple[PlottedText, ...]
    dimensions: tuple[PlottedDimension, ...]
    links: tuple[PlottedLink, ...]

    @cached_property
    def box(self) -> Box | None:
        """The box around all it leaves on the sheet, None when that is nothing [paper in]."""
        shapes = [ink.shape for ink in self.ink]
        boxes = [Box(*shapely.total_bounds(shapes).tolist())] if shapes else []
        boxes += [text.box for text in self.texts] + [link.box for link in self.links]
        return united(boxes) if boxes else None

    @property
    def name(self) -> str:
        """What to call it in a message: its words, else what it is and on which layer."""
        if isinstance(self.primitive, Insert):
            return f"block {self.primitive.block}"
        if self.texts:
            return " / ".join(f'"{text.words}"' for text in self.texts)
        kind = type(self.primitive).__name__.lower()
        layer = getattr(self.primitive, "layer", "")
        return f"{kind} on {layer}" if layer else kind


def place(point: Point) -> str:
    """A place on a sheet for messages, from its lower left corner: `3.25, 7.40 in`."""
    return f"{point[0]:.2f}, {point[1]:.2f} in"
