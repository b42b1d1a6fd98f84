"""What of a drawing a DXF file holds: no insertion that shows nothing, no block without one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import chain

from planset.drawing.extent import BlockBoxes, extent
from planset.drawing.geometry import Box, Placement, box_around
from planset.drawing.page import DrawingSet, Page, View
from planset.drawing.primitives import Block, Insert, Primitive
from planset.formats.block_order import blocks_behind

_CLEAR_IN = 1e-6  # from the edge of a window to what surely shows in it


def page_in_view(page: Page, blocks: Mapping[str, Block]) -> Page:
    """A page without the insertions in its views that show nothing."""
    return _in_view(page, blocks, BlockBoxes(blocks))


def set_in_view(drawing: DrawingSet) -> DrawingSet:
    """A set with such pages, and with the blocks that they insert."""
    boxes = BlockBoxes(drawing.blocks)
    pages = tuple(_in_view(page, drawing.blocks, boxes) for page in drawing.pages)
    drawn = chain.from_iterable(map(_drawn, pages))
    blocks = {block.name: block for block in blocks_behind(drawn, drawing.blocks)}
    return replace(drawing, pages=pages, blocks=blocks)


def _drawn(page: Page) -> Iterable[Primitive]:
    views = (chain(view.model, view.annotation) for view in page.views)
    return chain(page.paper, *views)


def _in_view(page: Page, blocks: Mapping[str, Block], boxes: BlockBoxes) -> Page:
    return replace(page, views=tuple(_view(view, blocks, boxes) for view in page.views))


def _view(view: View, blocks: Mapping[str, Block], boxes: BlockBoxes) -> View:
    looked_at = _Window(view.window, blocks, boxes)
    shown = tuple(
        part
        for part in view.model
        if not isinstance(part, Insert) or looked_at.meets(part, Placement())
    )
    return replace(view, model=shown)


@dataclass(frozen=True, slots=True)
class _Window:
    """A window of a view.

    Attributes:
        box: The window [in].
        blocks: Blocks by name.
        boxes: The boxes around them.
    """

    box: Box
    blocks: Mapping[str, Block]
    boxes: BlockBoxes

    def meets(self, part: Primitive, place: Placement) -> bool:
        """Whether any of what a primitive draws may lie in it."""
        around = extent((part,), self.boxes)
        if around is None:
            return False
        placed = box_around(map(place.apply, around.corners))
        if not isinstance(part, Insert) or not self.box.overlaps(placed):
            return self.box.overlaps(placed)
        if self.box.grown(-_CLEAR_IN).contains(placed, 0.0):
            return True
        inner = Placement(part.at, part.rotation_deg, part.scale).within(place)
        written = (attribute.text for attribute in part.attributes if attribute.text)
        return any(self.meets(one, inner) for one in self.blocks[part.block].primitives) or any(
            self.meets(text, place) for text in written
        )
