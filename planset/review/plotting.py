"""From the pages of a set to what is plotted: blocks expanded, arcs flattened, views cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import islice
from typing import TypeGuard

import numpy as np
import shapely
from shapely.geometry import Polygon, box

from planset.drawing.extent import BlockBoxes
from planset.drawing.flatten import course
from planset.drawing.geometry import Box, Placement, box_around
from planset.drawing.layers import INHERITED, LAYERS, Layer
from planset.drawing.page import Page, View
from planset.drawing.primitives import (
    Area,
    Block,
    Circle,
    Dimension,
    Insert,
    Leader,
    Line,
    Link,
    Polyline,
    Primitive,
    Text,
)
from planset.drawing.text import text_box
from planset.review.plotted import (
    HAIR,
    Item,
    Part,
    PlottedDimension,
    PlottedLink,
    PlottedText,
)
from planset.review.strokes import Stroke, Strokes

_ON_PAPER = Placement()


def plotted_items(page: Page, blocks: Mapping[str, Block], boxes: BlockBoxes) -> tuple[Item, ...]:
    """Everything on a page, an item per primitive of its views and paper.

    Args:
        page: The page.
        blocks: The blocks that insertions name.
        boxes: The boxes around them.

    Raises:
        KeyError: A block or layer is not defined.
        ValueError: The drawing face lacks a character.
    """
    made: list[Item] = []
    for view in page.views:
        model, annotation = _Drawn(blocks, view, boxes), _Drawn(blocks, view)
        model.draw(view.model, Part.MODEL, view.on_paper)
        made += model.items(view.frame)
        annotation.draw(view.annotation, Part.ANNOTATION)
        made += annotation.items()
    paper = _Drawn(blocks)
    for primitive in page.paper:
        border = isinstance(primitive, Insert) and primitive.block == page.titleblock
        paper.draw((primitive,), Part.TITLE_BLOCK if border else Part.PAPER)
    made += paper.items()
    return tuple(made)


@dataclass(slots=True)
class _Item:
    """An item whose strokes are not on paper yet."""

    primitive: Primitive
    part: Part
    strokes: int = 0
    texts: list[PlottedText] = field(default_factory=list)
    dimensions: list[PlottedDimension] = field(default_factory=list)
    links: list[PlottedLink] = field(default_factory=list)


class _Drawn:
    """Collects what primitives leave on the sheet.

    Args:
        blocks: The blocks that insertions name.
        view: The view they stand in, None outside of views.
        boxes: The boxes around the blocks, to leave out what they draw outside of the view.
    """

    def __init__(
        self,
        blocks: Mapping[str, Block],
        view: View | None = None,
        boxes: BlockBoxes | None = None,
    ) -> None:
        self._blocks, self._view, self._boxes = blocks, view, boxes
        self._window = view.frame.grown(HAIR) if view else None
        self._view_factor = view.scale.factor if view else 1.0
        self._strokes = Strokes()
        self._items: list[_Item] = []
        self._known: dict[tuple[str, str, float], tuple[Stroke, ...] | None] = {}

    def draw(
        self, primitives: Iterable[Primitive], part: Part, placement: Placement = _ON_PAPER
    ) -> None:
        """Add an item for each primitive."""
        for primitive in primitives:
            before = len(self._strokes)
            self._items.append(_Item(primitive, part))
            self._add((primitive,), placement, INHERITED)
            self._items[-1].strokes = len(self._strokes) - before

    def items(self, frame: Box | None = None) -> Iterator[Item]:
        """The items as a view's frame cuts them; of text what is outside of it is left out."""
        inks = self._strokes.ink(frame)
        window = frame and box(frame.x0, frame.y0, frame.x1, frame.y1).buffer(-HAIR)
        for item in self._items:
            ink = tuple(one for one in islice(inks, item.strokes) if one)
            texts = (one for one in item.texts if not window or one.shape.intersects(window))
            dimensions, links = tuple(item.dimensions), tuple(item.links)
            yield Item(item.primitive, item.part, self._view, ink, tuple(texts), dimensions, links)

    def _add(
        self,
        primitives: Iterable[Primitive],
        placement: Placement,
        inherited: str,
        identity: str = "",
    ) -> None:
        """Add the primitives, all but those on layers that are not plotted."""
        item = self._items[-1]
        for part in primitives:
            match part:
                case Insert():
                    self._insert(part, placement, inherited, identity)
                case Link():
                    corners = (placement.apply(part.lower_left), placement.apply(part.upper_right))
                    item.links.append(PlottedLink(box_around(corners), part.sheet, part.view))
                case Dimension():
                    true = placement.scale * self._view_factor
                    item.dimensions.append(PlottedDimension(part, true, self._view_factor))
                    self._add(part.marks, placement, inherited, identity)
                case Leader():
                    self._add(part.marks, placement, inherited, identity)
                case Text():
                    self._text(part, placement, inherited)
                case _:
                    if stroke := _stroke(part, placement.scale, inherited):
                        self._strokes.add((stroke,), placement, identity)

    def _insert(self, part: Insert, placement: Placement, inherited: str, identity: str) -> None:
        layer = inherited if part.layer == INHERITED else part.layer
        inner = Placement(part.at, part.rotation_deg, part.scale).within(placement)
        own = part.identity or identity
        if self._shows(part.block, inner):
            strokes = self._strokes_of(part.block, layer, inner.scale)
            if strokes is None:
                self._add(self._blocks[part.block].primitives, inner, layer, own)
            else:
                self._strokes.add(strokes, inner, own)
        shown = [attribute.text for attribute in part.attributes if attribute.text]
        self._add(shown, placement, inherited)

    def _shows(self, block: str, place: Placement) -> bool:
        """Whether something of a block may stand in the view."""
        if self._boxes is None or self._window is None:
            return True
        return self._boxes.meets(block, place, self._window)

    def _strokes_of(self, block: str, inherited: str, scale: float) -> tuple[Stroke, ...] | None:
        """The strokes of a block that is made of nothing else; such are inserted most often."""
        key = (block, inherited, scale)
        if key not in self._known:
            primitives = self._blocks[block].primitives
            made = [_stroke(part, scale, inherited) for part in primitives if _is_stroke(part)]
            plotted = tuple(stroke for stroke in made if stroke)
            self._known[key] = plotted if len(made) == len(primitives) else None
        return self._known[key]

    def _text(self, part: Text, placement: Placement, inherited: str) -> None:
        layer = _layer(part, inherited)
        if layer.plotted and part.text.strip():
            outline, height = _outline(part, placement), part.height * placement.scale
            text = PlottedText(part.text, outline, height, layer, part.crowded)
            self._items[-1].texts.append(text)


Drawable = Line | Polyline | Circle | Area


def _is_stroke(part: Primitive) -> TypeGuard[Drawable]:
    return isinstance(part, Line | Polyline | Circle | Area)


def _stroke(part: Drawable, scale: float, inherited: str) -> Stroke | None:
    """It in its own coordinates, fine enough for a scale; None where it is not plotted."""
    layer = _layer(part, inherited)
    if not layer.plotted:
        return None
    return Stroke(np.array(course(part, scale)), layer, isinstance(part, Area))


def _layer(part: Drawable | Text, inherited: str) -> Layer:
    return LAYERS[inherited if part.layer == INHERITED else part.layer]


def _outline(part: Text, placement: Placement) -> Polygon:
    """The rectangle a text covers on the sheet."""
    own = text_box(part.text, (0.0, 0.0), part.height, part.align)
    turned = Placement(part.at, part.rotation_deg).within(placement)
    if not turned.rotation_deg:
        (x0, y0), (x1, y1) = turned.apply((own.x0, own.y0)), turned.apply((own.x1, own.y1))
        return shapely.box(x0, y0, x1, y1)  # made much faster than by its corners
    return shapely.polygons([turned.apply(corner) for corner in own.corners])
