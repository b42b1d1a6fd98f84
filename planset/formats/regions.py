"""Where each view lies in the one model space of a drawing file.

Every view has a region of its own, away from the origin, where some readers pile up the paper
layouts, and away from every other view, so that an edit in one is never mistaken for another.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from planset.drawing.extent import BlockBoxes, extent
from planset.drawing.geometry import Box, Placement, Point, box_around, united
from planset.drawing.page import DrawingSet, View

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
    boxes = BlockBoxes(drawing.blocks)
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
        boxes: The boxes of the blocks it inserts, as `BlockBoxes` gives them.
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


def _floor(value: float) -> float:
    return math.floor(value / STEP) * STEP


def _ceil(value: float) -> float:
    return math.ceil(value / STEP) * STEP
