"""From the pages of a set to what is plotted: blocks expanded, arcs flattened, views cut."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from itertools import chain

import shapely
from shapely.geometry import Polygon, box

from planset.drawing.extent import BlockBoxes
from planset.drawing.flatten import course
from planset.drawing.geometry import Box, Placement, Point, box_around
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
    Ink,
    Item,
    Part,
    PlottedDimension,
    PlottedLink,
    PlottedText,
)

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
        frame = view.frame
        clip = (frame.grown(HAIR), boxes)
        window = box(frame.x0, frame.y0, frame.x1, frame.y1).buffer(-HAIR)
        for primitive in view.model:
            whole = _item(primitive, Part.MODEL, view, view.on_paper, blocks, clip)
            made.append(_cut(whole, frame, window))
        made += [
            _item(primitive, Part.ANNOTATION, view, _ON_PAPER, blocks)
            for primitive in view.annotation
        ]
    for primitive in page.paper:
        border = isinstance(primitive, Insert) and primitive.block == page.titleblock
        part = Part.TITLE_BLOCK if border else Part.PAPER
        made.append(_item(primitive, part, None, _ON_PAPER, blocks))
    return tuple(made)


def _item(
    primitive: Primitive,
    part: Part,
    view: View | None,
    placement: Placement,
    blocks: Mapping[str, Block],
    clip: tuple[Box, BlockBoxes] | None = None,
) -> Item:
    drawn = _Drawn(blocks, view.scale.factor if view else 1.0, clip)
    drawn.add((primitive,), placement, INHERITED)
    return Item(
        primitive,
        part,
        view,
        drawn.ink(),
        tuple(drawn.texts),
        tuple(drawn.dimensions),
        tuple(drawn.links),
    )


def _cut(item: Item, frame: Box, window: Polygon) -> Item:
    """The item as a view's frame cuts it; text is left out only when it is outside the window."""
    return replace(
        item,
        ink=_cut_ink(item.ink, frame),
        texts=tuple(text for text in item.texts if text.shape.intersects(window)),
    )


def _cut_ink(inks: tuple[Ink, ...], frame: Box) -> tuple[Ink, ...]:
    kept = []
    for ink, bounds in zip(inks, shapely.bounds([ink.shape for ink in inks]), strict=True):
        if frame.contains(Box(*bounds.tolist())):
            kept.append(ink)
            continue
        inside = shapely.clip_by_rect(ink.shape, *frame)
        if not inside.is_empty:
            kept.append(replace(ink, shape=inside))
    return tuple(kept)


_Stroke = tuple[list[Point], Layer, bool, str]
"""What a primitive leaves: its points, its layer, whether it is an area, whose it is."""


@dataclass(slots=True)
class _Drawn:
    """Collects what primitives leave on the sheet.

    What blocks draw outside a clip, the window and the boxes of the blocks, is left out.
    """

    blocks: Mapping[str, Block]
    view_factor: float
    clip: tuple[Box, BlockBoxes] | None = None
    strokes: list[_Stroke] = field(default_factory=list)
    texts: list[PlottedText] = field(default_factory=list)
    dimensions: list[PlottedDimension] = field(default_factory=list)
    links: list[PlottedLink] = field(default_factory=list)

    def add(
        self,
        primitives: Iterable[Primitive],
        placement: Placement,
        inherited: str,
        identity: str = "",
    ) -> None:
        """Add the primitives, all but those on layers that are not plotted."""
        for part in primitives:
            match part:
                case Insert():
                    self._insert(part, placement, inherited, identity)
                case Link():
                    corners = (placement.apply(part.lower_left), placement.apply(part.upper_right))
                    self.links.append(PlottedLink(box_around(corners), part.sheet, part.view))
                case Dimension():
                    true = placement.scale * self.view_factor
                    self.dimensions.append(PlottedDimension(part, true, self.view_factor))
                    self.add(part.marks, placement, inherited, identity)
                case Leader():
                    self.add(part.marks, placement, inherited, identity)
                case _:
                    self._shape(part, placement, inherited, identity)

    def _insert(self, part: Insert, placement: Placement, inherited: str, identity: str) -> None:
        layer = inherited if part.layer == INHERITED else part.layer
        inner = Placement(part.at, part.rotation_deg, part.scale).within(placement)
        if self._shows(part.block, inner):
            self.add(self.blocks[part.block].primitives, inner, layer, part.identity or identity)
        shown = [attribute.text for attribute in part.attributes if attribute.text]
        self.add(shown, placement, inherited)

    def _shows(self, block: str, place: Placement) -> bool:
        if self.clip is None:
            return True
        window, boxes = self.clip
        return boxes.meets(block, place, window)

    def _shape(
        self,
        part: Line | Polyline | Circle | Area | Text,
        placement: Placement,
        inherited: str,
        identity: str,
    ) -> None:
        layer = LAYERS[inherited if part.layer == INHERITED else part.layer]
        if not layer.plotted:
            return
        if isinstance(part, Text):
            if part.text.strip():
                outline, height = _outline(part, placement), part.height * placement.scale
                self.texts.append(PlottedText(part.text, outline, height, layer, part.crowded))
        elif isinstance(part, Area):
            corners = [placement.apply(point) for point in part.points]
            self.strokes.append((corners, layer, True, identity))
        else:
            points = [placement.apply(point) for point in course(part, placement.scale)]
            self.strokes.append((points, layer, False, identity))

    def ink(self) -> tuple[Ink, ...]:
        """The strokes as shapes: all lines at once, which is much faster than one by one."""
        lines = [points for points, _, filled, _ in self.strokes if not filled]
        numbers = [number for number, points in enumerate(lines) for _ in points]
        made = iter(shapely.linestrings([*chain(*lines)], indices=numbers) if lines else ())
        return tuple(
            Ink(shapely.polygons(points) if filled else next(made), layer, filled, identity)
            for points, layer, filled, identity in self.strokes
        )


def _outline(part: Text, placement: Placement) -> Polygon:
    """The rectangle a text covers on the sheet."""
    own = text_box(part.text, (0.0, 0.0), part.height, part.align)
    turned = Placement(part.at, part.rotation_deg).within(placement)
    if not turned.rotation_deg:
        (x0, y0), (x1, y1) = turned.apply((own.x0, own.y0)), turned.apply((own.x1, own.y1))
        return shapely.box(x0, y0, x1, y1)  # made much faster than by its corners
    return shapely.polygons([turned.apply(corner) for corner in own.corners])
