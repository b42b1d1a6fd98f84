"""From the pages of a set to what is plotted: blocks expanded, arcs flattened, views cut."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

import shapely
from shapely.geometry import LineString, Polygon, box

from planset.drawing.geometry import Box, Placement, Point, box_around, distance
from planset.drawing.layers import INHERITED, LAYERS
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

_SAGITTA = 0.001  # how far a chord may stand off its arc [paper in]
_ON_PAPER = Placement()


def plotted_items(page: Page, blocks: Mapping[str, Block]) -> tuple[Item, ...]:
    """Everything on a page, an item per primitive of its views and paper.

    Args:
        page: The page.
        blocks: The blocks that insertions name.

    Raises:
        KeyError: A block or layer is not defined.
        ValueError: The drawing face lacks a character.
    """
    made: list[Item] = []
    for view in page.views:
        for primitive in view.model:
            whole = _item(primitive, Part.MODEL, view, view.on_paper, blocks)
            made.append(_cut(whole, view.frame))
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
) -> Item:
    drawn = _Drawn(blocks, view.scale.factor if view else 1.0)
    drawn.add((primitive,), placement, INHERITED)
    return Item(
        primitive,
        part,
        view,
        tuple(drawn.ink),
        tuple(drawn.texts),
        tuple(drawn.dimensions),
        tuple(drawn.links),
    )


def _cut(item: Item, frame: Box) -> Item:
    """The item as a view's frame cuts it; text is left out only when it is wholly outside."""
    window = box(frame.x0, frame.y0, frame.x1, frame.y1).buffer(-HAIR)
    return replace(
        item,
        ink=tuple(kept for ink in item.ink if (kept := _cut_ink(ink, frame))),
        texts=tuple(text for text in item.texts if text.shape.intersects(window)),
    )


def _cut_ink(ink: Ink, frame: Box) -> Ink | None:
    if frame.contains(Box(*ink.shape.bounds)):
        return ink
    inside = shapely.clip_by_rect(ink.shape, frame.x0, frame.y0, frame.x1, frame.y1)
    return None if inside.is_empty else replace(ink, shape=inside)


@dataclass(slots=True)
class _Drawn:
    """Collects what primitives leave on the sheet."""

    blocks: Mapping[str, Block]
    view_factor: float
    ink: list[Ink] = field(default_factory=list)
    texts: list[PlottedText] = field(default_factory=list)
    dimensions: list[PlottedDimension] = field(default_factory=list)
    links: list[PlottedLink] = field(default_factory=list)

    def add(self, primitives: Iterable[Primitive], placement: Placement, inherited: str) -> None:
        """Add the primitives, all but those on layers that are not plotted."""
        for part in primitives:
            match part:
                case Insert():
                    self._insert(part, placement, inherited)
                case Link():
                    corners = (placement.apply(part.lower_left), placement.apply(part.upper_right))
                    self.links.append(PlottedLink(box_around(corners), part.sheet))
                case Dimension():
                    true = placement.scale * self.view_factor
                    self.dimensions.append(PlottedDimension(part, true, self.view_factor))
                    self.add(part.marks, placement, inherited)
                case Leader():
                    self.add(part.marks, placement, inherited)
                case _:
                    self._shape(part, placement, inherited)

    def _insert(self, part: Insert, placement: Placement, inherited: str) -> None:
        layer = inherited if part.layer == INHERITED else part.layer
        inner = Placement(part.at, part.rotation_deg, part.scale).within(placement)
        self.add(self.blocks[part.block].primitives, inner, layer)
        shown = [attribute.text for attribute in part.attributes if attribute.text]
        self.add(shown, placement, inherited)

    def _shape(
        self,
        part: Line | Polyline | Circle | Area | Text,
        placement: Placement,
        inherited: str,
    ) -> None:
        layer = LAYERS[inherited if part.layer == INHERITED else part.layer]
        if not layer.plotted:
            return
        if isinstance(part, Text):
            if part.text.strip():
                outline, height = _outline(part, placement), part.height * placement.scale
                self.texts.append(PlottedText(part.text, outline, height, layer))
        elif isinstance(part, Area):
            corners = [placement.apply(point) for point in part.points]
            self.ink.append(Ink(Polygon(corners), layer, filled=True))
        else:
            points = [placement.apply(point) for point in _course(part, placement.scale)]
            self.ink.append(Ink(LineString(points), layer))


def _outline(part: Text, placement: Placement) -> Polygon:
    """The rectangle a text covers on the sheet."""
    own = text_box(part.text, (0.0, 0.0), part.height, part.align)
    turned = Placement(part.at, part.rotation_deg).within(placement)
    return Polygon([turned.apply(corner) for corner in own.corners])


def _course(part: Line | Polyline | Circle, scale: float) -> list[Point]:
    """The points a stroke runs through, in its own coordinates, fine enough when plotted."""
    match part:
        case Line():
            return [part.a, part.b]
        case Circle():
            (x, y), radius = part.center, part.radius
            return _arc((x, y), radius, 0.0, 2 * math.pi, scale)
        case Polyline():
            points = [*part.points, part.points[0]] if part.closed else list(part.points)
            if not any(part.bulges):
                return points
            course = points[:1]
            for start, end, bulge in zip(points, points[1:], part.bulges, strict=False):
                course += _bulged(start, end, bulge, scale)
            return course


def _bulged(start: Point, end: Point, bulge: float, scale: float) -> list[Point]:
    """The points after `start` of a segment whose middle stands off `bulge` half chords."""
    chord = distance(start, end)
    if not bulge or not chord:
        return [end]
    off = (1 - bulge * bulge) / (4 * bulge)  # of the center from the chord, in chords, to the left
    center = (
        (start[0] + end[0]) / 2 - (end[1] - start[1]) * off,
        (start[1] + end[1]) / 2 + (end[0] - start[0]) * off,
    )
    begin = math.atan2(start[1] - center[1], start[0] - center[0])
    points = _arc(center, distance(center, start), begin, 4 * math.atan(bulge), scale)
    return [*points[1:-1], end]


def _arc(center: Point, radius: float, begin: float, sweep: float, scale: float) -> list[Point]:
    """Both ends of an arc and points between them; angles in radians."""
    plotted = max(radius * scale, _SAGITTA)
    step = 2 * math.acos(max(0.0, 1 - _SAGITTA / plotted))
    count = max(1, math.ceil(abs(sweep) / step - 1e-9))
    turns = (begin + sweep * n / count for n in range(count + 1))
    return [(center[0] + radius * math.cos(t), center[1] + radius * math.sin(t)) for t in turns]
