"""A part of the roof plan with its dimensions, before its labels are placed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import takewhile

from planset.design.access.area import AccessArea
from planset.design.layout import PlacedArray, PlacedObstruction, surface_to_plan
from planset.drawing.fit import Part
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, box_around
from planset.drawing.labels import LabelPlacer, NoRoomError
from planset.drawing.page import View
from planset.drawing.primitives import Block, Dimension, Primitive, Text
from planset.sheets.context import SheetContext
from planset.sheets.module_tags import module_tags
from planset.sheets.plan_blocks import obstruction_extent
from planset.sheets.site_names import side_words
from planset.sheets.wanted import Wanted

_TRIES = 3
_OFF_OBSTRUCTIONS = 0.08  # that figures keep, so that a leader still ends there [paper in]


@dataclass(frozen=True, slots=True)
class Draft:
    """A part of the plan with its dimensions.

    Attributes:
        view: Its view, no annotation in it yet.
        placer: Knows of all that is drawn.
        drawn: Dimensions, and words and lines that had their place already.
        left_out: Dimensions there was no room to draw.
        worded: Access areas that have their words.
    """

    view: View
    placer: LabelPlacer
    drawn: tuple[Primitive, ...]
    left_out: tuple[Wanted, ...]
    worded: frozenset[AccessArea]


def drafted(
    context: SheetContext,
    part: Part,
    wanted: tuple[Wanted, ...],
    fixed: tuple[Primitive, ...],
    worded: frozenset[AccessArea],
    blocks: Mapping[str, Block],
) -> Draft:
    """The plan, or a part of it, with all dimensions it has room for.

    Args:
        context: What the sheet is given.
        part: The plan, or the part.
        wanted: Dimensions, the ones that matter most first.
        fixed: Words and lines that have their place already; a part shows those that lie in it.
        worded: Access areas that have their words among those.
        blocks: The blocks that insertions name.
    """
    view = part.view
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, blocks, view.on_paper)
    lines = [primitive for primitive in fixed if not isinstance(primitive, Text)]
    words = [text for text in fixed if isinstance(text, Text)]
    words += side_words(context, view, part.neighbors)
    made: list[Primitive] = [
        *lines,
        *(placer.settled(text) for text in words if view.frame.contains(rotated_text_box(text))),
    ]
    placer.keep_clear(made, blocks)
    made += module_tags(placer, context, view)
    for array in context.design.arrays:
        reserve(placer, view, array)
    for item in context.design.obstructions:
        placer.reserve(obstruction_box(view, item).grown(_OFF_OBSTRUCTIONS))
    placer, dimensions, left_out = _dimensions(placer, part, wanted)
    noted = tuple(item for item in left_out if not item.dispensable)
    return Draft(view, placer, (*made, *dimensions), noted, worded)


def reserve(placer: LabelPlacer, view: View, array: PlacedArray) -> None:
    """Keep words off an array; where cells are omitted, off its modules only."""
    whole = len(array.modules) == array.extent.rows * array.extent.columns
    boxes = [array.frames] if whole else [module.surface for module in array.modules]
    for box in boxes:
        corners = surface_to_plan(array.plane, box)
        placer.reserve_ring([view.on_paper.apply(corner) for corner in corners])


def obstruction_box(view: View, item: PlacedObstruction) -> Box:
    """What an obstruction covers of a view [paper in]."""
    return box_around(view.on_paper.apply(point) for point in obstruction_extent(item).corners)


_Placed = tuple[LabelPlacer, list[Dimension], list[Wanted]]
"""The placer that knows of the dimensions, the dimensions, and those left out."""


def _dimensions(placer: LabelPlacer, part: Part, wanted: tuple[Wanted, ...]) -> _Placed:
    """Most of the dimensions, and those that find no room, though tried before the others.

    What finds none before any other is drawn has none at all: nothing more is tried for it.
    """
    tried: list[_Placed] = []
    hopeless: list[Wanted] = []
    for order in (wanted, wanted[::-1]):
        turn = order
        for _ in range(_TRIES):
            tried.append(_in_turn(placer.copy(), part, turn))
            left_out = tried[-1][2]
            hopeless += takewhile(left_out.__contains__, turn)
            if all(item.dispensable or item in hopeless for item in left_out):
                return tried[-1]
            turn = (*left_out, *(item for item in turn if item not in left_out))
    return min(tried, key=lambda placed: len(placed[2]))


def _in_turn(placer: LabelPlacer, part: Part, wanted: tuple[Wanted, ...]) -> _Placed:
    """Each dimension in its first way that has room, and those that have room in none.

    Of a plan in parts, a dimension that a match line cuts belongs to none of them.
    """
    made: list[Dimension] = []
    left_out: list[Wanted] = []
    for item in wanted:
        ways = [way for way in item.ways if _inside(way, part.view.frame)]
        if part.neighbors and not ways:
            continue
        try:
            made.append(placer.place_dimension(ways or item.ways))
        except NoRoomError:
            left_out.append(item)
    return placer, made, left_out


def _inside(way: Dimension, frame: Box) -> bool:
    """Whether both measured points and the line of a dimension lie in a frame."""
    return all(frame.holds(point) for point in (way.a, way.b, way.line_a, way.line_b))
