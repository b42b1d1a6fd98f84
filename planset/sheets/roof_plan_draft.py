"""A part of the roof plan with its dimensions, before its labels are placed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from planset.design.layout import PlacedObstruction
from planset.drawing.fit import Part
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, box_around
from planset.drawing.labels import LabelPlacer, NoRoomError
from planset.drawing.page import View
from planset.drawing.primitives import Block, Dimension, Primitive, Text
from planset.drawing.text import SUBTITLE_HEIGHT, text_width
from planset.sheets.context import SheetContext
from planset.sheets.plan_blocks import obstruction_extent, roof_extent
from planset.sheets.roof_plan_dimensions import Wanted

_TEXT = "A-ANNO-TEXT"
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
    """

    view: View
    placer: LabelPlacer
    drawn: tuple[Primitive, ...]
    left_out: tuple[Wanted, ...]


def drafted(
    context: SheetContext,
    part: Part,
    wanted: tuple[Wanted, ...],
    fixed: tuple[Primitive, ...],
    blocks: Mapping[str, Block],
) -> Draft:
    """The plan, or a part of it, with all dimensions it has room for.

    Args:
        context: What the sheet is given.
        part: The plan, or the part.
        wanted: Dimensions, the ones that matter most first.
        fixed: Words and lines that have their place already; a part shows those that lie in it.
        blocks: The blocks that insertions name.
    """
    view = part.view
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, blocks, view.on_paper)
    lines = [primitive for primitive in fixed if not isinstance(primitive, Text)]
    words = [text for text in fixed if isinstance(text, Text)] + list(_street(context, view))
    made: list[Primitive] = [
        *lines,
        *(placer.settled(text) for text in words if view.frame.contains(rotated_text_box(text))),
    ]
    placer.keep_clear(made, blocks)
    for item in context.design.obstructions:
        placer.reserve(obstruction_box(view, item).grown(_OFF_OBSTRUCTIONS))
    placer, dimensions, left_out = _dimensions(placer, part, wanted)
    return Draft(view, placer, (*made, *dimensions), tuple(left_out))


def obstruction_box(view: View, item: PlacedObstruction) -> Box:
    """What an obstruction covers of a view [paper in]."""
    return box_around(view.on_paper.apply(point) for point in obstruction_extent(item).corners)


_Placed = tuple[LabelPlacer, list[Dimension], list[Wanted]]
"""The placer that knows of the dimensions, the dimensions, and those left out."""


def _dimensions(placer: LabelPlacer, part: Part, wanted: tuple[Wanted, ...]) -> _Placed:
    """Most of the dimensions, and those that find no room, though tried before the others."""
    tried: list[_Placed] = []
    for order in (wanted, wanted[::-1]):
        turn = order
        for _ in range(_TRIES):
            tried.append(_in_turn(placer.copy(), part, turn))
            left_out = tried[-1][2]
            if not left_out:
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


def _street(context: SheetContext, view: View) -> Iterable[Text]:
    """The street, written along the side it lies on."""
    sides = context.design.inputs.job.site.street_sides
    frame = view.frame
    if "front" in sides:
        words = "STREET SIDE"
        middle = _middle_of_roof(context, view)
        at = (middle - text_width(words, SUBTITLE_HEIGHT) / 2, frame.y0 + 0.05)
        yield Text(words, at, SUBTITLE_HEIGHT, _TEXT)


def _middle_of_roof(context: SheetContext, view: View) -> float:
    """Where the middle of what a view shows of the roof lies across the page [in]."""
    corners = (view.on_paper.apply(corner) for corner in roof_extent(context.design).corners)
    return box_around(corners).shared(view.frame).center[0]
