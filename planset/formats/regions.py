"""Where each view lies in the one model space of a drawing file.

Every view has a region of its own, away from the origin, where some readers pile up the paper
layouts, and away from every other view, so that an edit in one is never mistaken for another.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planset.drawing.geometry import Box, Placement, Point, box_around, distance, united
from planset.drawing.page import DrawingSet, View
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
from planset.formats.block_order import dependency_order

START = 1200.0  # lower left corner of the first region, both ways [in]
STEP = 120.0  # regions start on multiples of this and keep at least this apart [in]


@dataclass(frozen=True, slots=True)
class Region:
    """The part of model space that one view has to itself.

    Args:
        offset: From the view's model frame to model space [in].
        box: All the view draws, window included, in model space [in].
    """

    offset: Point
    box: Box


def view_regions(drawing: DrawingSet) -> list[list[Region]]:
    """A region per view, page by page: a row of regions for each page, rows going up.

    Args:
        drawing: The set.

    Returns:
        For each page the regions of its views, in the order of the page.
    """
    boxes = block_boxes(drawing.blocks)
    rows: list[list[Region]] = []
    y = START
    for page in drawing.pages:
        x, top = START, y
        row: list[Region] = []
        for view in page.views:
            extent = view_extent(view, boxes)
            offset = (x - _floor(extent.x0), y - _floor(extent.y0))
            region = Region(offset, extent.moved(*offset))
            row.append(region)
            x = _ceil(region.box.x1) + STEP
            top = max(top, _ceil(region.box.y1) + STEP)
        rows.append(row)
        y = top
    return rows


def view_extent(view: View, boxes: Mapping[str, Box | None]) -> Box:
    """All a view draws and its window, in its own model frame [in].

    Args:
        view: The view.
        boxes: The boxes of the blocks it inserts, as `block_boxes` gives them.
    """
    parts = [view.window]
    model = extent(view.model, boxes)
    if model:
        parts.append(model)
    annotation = extent(view.annotation, boxes)
    if annotation:
        to_model = annotation_placement(view)
        parts.append(box_around(map(to_model.apply, annotation.corners)))
    return united(parts)


def annotation_placement(view: View) -> Placement:
    """From paper inches to the view's model frame: the reverse of `View.on_paper`."""
    factor = view.scale.factor
    return Placement(
        (view.window.x0 - view.at[0] * factor, view.window.y0 - view.at[1] * factor), 0.0, factor
    )


def block_boxes(blocks: Mapping[str, Block]) -> dict[str, Box | None]:
    """The box around each block in its own frame [in], None for one that draws nothing."""
    boxes: dict[str, Box | None] = {}
    for block in dependency_order(blocks):
        boxes[block.name] = extent(block.primitives, boxes)
    return boxes


def extent(primitives: Iterable[Primitive], boxes: Mapping[str, Box | None]) -> Box | None:
    """A box that holds the primitives (never smaller than they are), None for none [in]."""
    points = list(_outlines(primitives, boxes))
    return box_around(points) if points else None


def _outlines(primitives: Iterable[Primitive], boxes: Mapping[str, Box | None]) -> Iterator[Point]:
    for part in primitives:
        yield from _outline(part, boxes)


def _outline(part: Primitive, boxes: Mapping[str, Box | None]) -> Iterator[Point]:
    match part:
        case Line():
            yield part.a
            yield part.b
        case Polyline():
            yield from _polyline_outline(part)
        case Circle():
            yield from Box(*part.center, *part.center).grown(part.radius).corners
        case Area():
            yield from part.points
        case Text():
            yield from _text_outline(part)
        case Dimension():
            yield part.a
            yield part.b
            yield from _outlines(part.marks, boxes)
        case Leader():
            yield from _outlines(part.marks, boxes)
        case Insert():
            box = boxes[part.block]
            if box:
                place = Placement(part.at, part.rotation_deg, part.scale)
                yield from map(place.apply, box.corners)
            for attribute in part.attributes:
                if attribute.text:
                    yield from _text_outline(attribute.text)
        case Link():
            pass


def _polyline_outline(part: Polyline) -> Iterator[Point]:
    """Vertices, and for an arc a square about each end that is as wide as the arc is high."""
    yield from part.points
    following = (*part.points[1:], part.points[0])
    for start, end, bulge in zip(part.points, following, part.bulges, strict=False):
        height = abs(bulge) * distance(start, end) / 2
        for point in (start, end):
            yield from Box(*point, *point).grown(height).corners


def _text_outline(part: Text) -> Iterator[Point]:
    place = Placement(part.at, part.rotation_deg)
    corners = text_box(part.text, (0.0, 0.0), part.height, part.align).corners
    yield from map(place.apply, corners)


def _floor(value: float) -> float:
    return math.floor(value / STEP) * STEP


def _ceil(value: float) -> float:
    return math.ceil(value / STEP) * STEP
