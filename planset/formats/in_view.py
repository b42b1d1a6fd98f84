"""What of a drawing a DXF file holds: no insertion that shows nothing, no block without one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import chain

from planset.drawing.geometry import Box, Placement, box_around
from planset.drawing.page import DrawingSet, Page, View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.formats.block_order import blocks_behind
from planset.formats.regions import extent


def page_in_view(page: Page, blocks: Mapping[str, Block]) -> Page:
    """A page without the insertions in its views that show nothing."""
    return replace(page, views=tuple(_view(view, blocks) for view in page.views))


def set_in_view(drawing: DrawingSet) -> DrawingSet:
    """A set with such pages, and with the blocks that they insert."""
    pages = tuple(page_in_view(page, drawing.blocks) for page in drawing.pages)
    drawn = chain.from_iterable(map(_drawn, pages))
    blocks = {block.name: block for block in blocks_behind(drawn, drawing.blocks)}
    return replace(drawing, pages=pages, blocks=blocks)


def _drawn(page: Page) -> Iterable[Primitive]:
    views = (chain(view.model, view.annotation) for view in page.views)
    return chain(page.paper, *views)


def _view(view: View, blocks: Mapping[str, Block]) -> View:
    shown = tuple(
        part
        for part in view.model
        if not isinstance(part, Insert) or _meets(part, Placement(), view.window, blocks)
    )
    return replace(view, model=shown)


def _meets(part: Primitive, place: Placement, window: Box, blocks: Mapping[str, Block]) -> bool:
    """Whether any of what a primitive draws may lie in a window."""
    if isinstance(part, Insert):
        inner = Placement(part.at, part.rotation_deg, part.scale).within(place)
        written = (attribute.text for attribute in part.attributes if attribute.text)
        return any(
            _meets(one, inner, window, blocks) for one in blocks[part.block].primitives
        ) or any(_meets(text, place, window, blocks) for text in written)
    box = extent((part,), {})
    return box is not None and window.overlaps(box_around(map(place.apply, box.corners)))
