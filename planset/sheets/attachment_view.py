"""One view of the attachment plan: a plane with its framing, rails, attachments and tapes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from planset.design.electrical.lugs import lugs
from planset.design.mounted import Mounted
from planset.design.part_places import parts_of
from planset.drawing.fit import Margins, ViewTooLargeError, fit_view
from planset.drawing.flatten import text_corners
from planset.drawing.geometry import Box
from planset.drawing.hatching import outside
from planset.drawing.labels import LabelPlacer
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import PLAN_SCALES, Scale, View
from planset.drawing.primitives import Block, Insert, Line, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, SLACK
from planset.roof.plane import Plane
from planset.sheets.array_layers import MODULES_FAINT
from planset.sheets.attachment_labels import (
    attachment_tags,
    line_numbers,
    obstruction_names,
    plane_edge_names,
    rail_tags,
    support_names,
    zone_names,
)
from planset.sheets.attachment_tapes import Tapes, room_below, room_beside, tapes
from planset.sheets.beyond_plane import names_beyond
from planset.sheets.box_marks import box_names, boxes_shown
from planset.sheets.context import SheetContext
from planset.sheets.electrical_blocks import box_blocks
from planset.sheets.plan_blocks import (
    OBSTRUCTIONS,
    ROOF,
    SUPPORT_LAYER,
    array_block,
    framing_block,
    plan_blocks,
    seams_block,
    supported_planes,
    supports_block,
)
from planset.sheets.racking_blocks import holding_block, on_seams, racking_block
from planset.sheets.slope_view import SlopeView, slope_extent, turned
from planset.sheets.unnamed import Marked, Unnamed, or_unnamed
from planset.sheets.wiring_blocks import wiring_block, wiring_blocks
from planset.sheets.zone_plan import zone_blocks, zones_block, zones_drawn

_LEAST_BOTTOM, _TOP = 1.16, 0.26  # room below and above a plane [paper in]
_NARROW_LEFT, _NARROW_RIGHT = 0.72, 0.2  # beside it without a tape [paper in]
_CUT_BELOW = 64.0  # factor of the scale at which a plane is shown whole if it can
_GOES_ON = "PLANE GOES ON"
_AROUND = 0.01  # free of stretched lines around words [paper in]
_LEAST_PIECE = 0.05  # of what is left of such a line [paper in]
_OUT = 0.15  # of a cut beyond the plane [paper in]
_PAST_ARRAYS_IN = 48.0  # that is shown of a longer one to the right of its arrays


@dataclass(frozen=True, slots=True)
class Shows:
    """What a view shows beside framing, rails, attachments and tapes.

    Attributes:
        zones: Whether it shows wind zones, and what rafters bear on.
        wiring: Whether it shows wire clips, grounding lugs and junction boxes.
        lines: Lines that the crew stretches on the roof, of one array.
    """

    zones: bool = True
    wiring: bool = False
    lines: Callable[[SlopeView, Mounted], tuple[Line, ...]] = lambda *_: ()


ATTACHMENTS = Shows()
"""What an attachment plan shows."""


@dataclass(frozen=True, slots=True)
class PlaneView:
    """The view of a plane with mounted arrays.

    Attributes:
        plane: The plane.
        mounted: Its arrays with their rails and attachments.
        view: The view.
        missing: Tapes there was no room to draw.
        unnamed: What there was no room to name.
    """

    plane: Plane
    mounted: tuple[Mounted, ...]
    view: View
    missing: tuple[str, ...]
    unnamed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Draft:
    """A view with its tapes, not labeled yet; the lines that are stretched leave words free."""

    on: SlopeView
    placer: LabelPlacer
    stretched: tuple[Line, ...]
    drawn: tuple[Marked, ...]
    tapes: Tapes

    @property
    def rank(self) -> tuple[int, float, int]:
        """The less, the better."""
        return (len(self.tapes.missing), self.on.view.scale.factor, self.tapes.crowded)

    @property
    def lacks_nothing(self) -> bool:
        """Whether all tapes are drawn, and none of their figures stands on a pen."""
        return not self.tapes.missing and not self.tapes.crowded


def mounted_planes(context: SheetContext) -> tuple[tuple[Plane, tuple[Mounted, ...]], ...]:
    """Planes with arrays mounted by this job, in the order of the arrays, with those arrays."""
    design = context.design
    planes = dict.fromkeys(one.array.plane.id for one in design.mounts)
    return tuple(
        (design.roof.plane(name), tuple(m for m in design.mounts if m.array.plane.id == name))
        for name in planes
    )


def blocks(context: SheetContext, shows: Shows = ATTACHMENTS) -> tuple[Block, ...]:
    """What the views show."""
    design = context.design
    wiring = [*wiring_blocks(design), *box_blocks(design)] if shows.wiring else []
    return (*plan_blocks(design), *wiring, *(zone_blocks(design) if shows.zones else ()))


def plane_view(
    context: SheetContext,
    plane: Plane,
    mounted: tuple[Mounted, ...],
    number: int,
    place: Box,
    shows: Shows = ATTACHMENTS,
) -> PlaneView:
    """The plane as large as fits, with all of its tapes if some margins have room for them.

    Args:
        context: What the sheet is given.
        plane: The plane.
        mounted: Its arrays with their rails and attachments.
        number: View number on its sheet.
        place: Where the view goes [paper in].
        shows: What it shows.

    Raises:
        ViewTooLargeError: It fits at no standard scale.
    """
    known = {block.name: block for block in blocks(context, shows)}
    views = _views(context, plane, mounted, number, place, shows)
    drafts: list[_Draft] = []
    for view in sorted(views, key=lambda one: one.scale.factor):
        drafts.append(_draft(context, known, mounted, view, shows))
        if drafts[-1].lacks_nothing:
            break  # none of a smaller scale is better
    best = min(drafts, key=lambda draft: draft.rank)
    made = [*best.drawn, *_labels(context, best, mounted, shows)]
    marks = [mark for mark in made if not isinstance(mark, Unnamed)]
    lettered = [text_corners(mark, SLACK, _AROUND) for mark in marks if isinstance(mark, Text)]
    annotation = (*outside(best.stretched, lettered, _LEAST_PIECE), *marks)
    unnamed = tuple(mark.thing for mark in made if isinstance(mark, Unnamed))
    view = replace(best.on.view, annotation=annotation)
    return PlaneView(plane, mounted, view, best.tapes.missing, unnamed)


def room_for(
    context: SheetContext, plane: Plane, mounted: tuple[Mounted, ...], scale: Scale
) -> tuple[float, float]:
    """Width and height of the view of a plane at a scale, widest margins included [paper in]."""
    extent = _extent(context, plane, mounted)
    beside, above_and_below = _most_beside(mounted), _TOP + _bottom(mounted)
    return extent.width / scale.factor + beside, extent.height / scale.factor + above_and_below


def _bottom(mounted: tuple[Mounted, ...]) -> float:
    return max(room_below(mounted), _LEAST_BOTTOM)


def _sides(mounted: tuple[Mounted, ...]) -> tuple[tuple[float, float], ...]:
    """Room left and right: the tape up the slope at the left, at the right, in the plane."""
    tape = room_beside(mounted)
    return (
        (max(tape, _NARROW_LEFT), _NARROW_RIGHT),
        (_NARROW_LEFT, tape),
        (_NARROW_LEFT, _NARROW_RIGHT),
    )


def _most_beside(mounted: tuple[Mounted, ...]) -> float:
    return max(map(sum, _sides(mounted)))


def _extent(context: SheetContext, plane: Plane, mounted: tuple[Mounted, ...]) -> Box:
    """The whole plane; one too long for the sheet at 3/16" ends past its arrays [model in]."""
    whole = slope_extent(plane)
    if whole.width / _CUT_BELOW + _most_beside(mounted) <= context.area.width:
        return whole
    last = max(one.array.hardware.x1 for one in mounted)
    return Box(whole.x0, whole.y0, min(whole.x1, last + _PAST_ARRAYS_IN), whole.y1)


def _views(
    context: SheetContext,
    plane: Plane,
    mounted: tuple[Mounted, ...],
    number: int,
    place: Box,
    shows: Shows,
) -> Iterator[View]:
    """The view with wider and narrower margins, as far as it fits."""
    failure: ViewTooLargeError | None = None
    fits = False
    for left, right in _sides(mounted):
        try:
            margins = Margins(left, right, _TOP, _bottom(mounted))
            view = _view(context, plane, mounted, number, place, margins)
            yield replace(view, model=_shown(context, plane, mounted, shows))
            fits = True
        except ViewTooLargeError as too_large:
            failure = too_large
    if failure and not fits:
        raise failure


def _view(
    context: SheetContext,
    plane: Plane,
    mounted: tuple[Mounted, ...],
    number: int,
    place: Box,
    margins: Margins,
) -> View:
    title = f"{plane.id.upper().replace('_', ' ')} PLANE, FROM ITS EAVE"
    extent = _extent(context, plane, mounted)
    view = fit_view(number, title, extent, margins, place, PLAN_SCALES, ())
    return replace(view, at=(place.x0, place.y1 - view.frame.height))


def _shown(
    context: SheetContext, plane: Plane, mounted: tuple[Mounted, ...], shows: Shows
) -> tuple[Primitive, ...]:
    design = context.design
    shown: list[Insert] = []
    if shows.zones and any(drawn is plane for drawn, _ in zones_drawn(design)):
        shown.append(turned(zones_block(plane.id), plane, OWN_LAYERS))
    if on_seams(mounted[0].array):
        shown.append(turned(seams_block(plane.id), plane, "S-ROOF-SEAM"))
    elif any(rafter.plane == plane.id and rafter.spans for rafter in design.rafters):
        shown.append(turned(framing_block(plane.id), plane, "S-ROOF-FRAM"))
        if shows.zones and plane.id in supported_planes(design):
            shown.append(turned(supports_block(plane.id), plane, SUPPORT_LAYER))
    shown += [turned(array_block(one.id), plane, MODULES_FAINT) for one in mounted]
    shown.append(turned(OBSTRUCTIONS, plane, OWN_LAYERS))
    shown.append(turned(ROOF, plane, OWN_LAYERS))
    shown += [turned(racking_block(one.id), plane, OWN_LAYERS) for one in mounted]
    held = [one for one in mounted if parts_of(one)]
    shown += [turned(holding_block(one.id), plane, OWN_LAYERS) for one in held]
    if shows.wiring:
        shown += [turned(wiring_block(one.id), plane, OWN_LAYERS) for one in mounted]
        shown += boxes_shown(design, plane)
    return tuple(shown)


def _draft(
    context: SheetContext,
    known: Mapping[str, Block],
    mounted: tuple[Mounted, ...],
    view: View,
    shows: Shows,
) -> _Draft:
    plane = mounted[0].array.plane
    on = SlopeView(plane, view)
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, known, view.on_paper)
    cut = _cut(context, on, mounted)
    placer.keep_clear(cut, {})
    stretched = tuple(line for one in mounted for line in shows.lines(on, one))
    placer.keep_clear(stretched, {})
    fixed: list[Marked] = [*cut]
    fixed += line_numbers(placer, context.design, on, mounted)
    drawn = tapes(placer, on, mounted, _extent(context, plane, mounted).x1)
    goes_on = [words for line in cut for words in _goes_on(placer, line)]
    return _Draft(on, placer, stretched, (*fixed, *drawn.drawn, *goes_on), drawn)


def _cut(context: SheetContext, on: SlopeView, mounted: tuple[Mounted, ...]) -> list[Line]:
    """Where a plane is not shown to its end, a line."""
    extent = _extent(context, on.plane, mounted)
    if extent.x1 == slope_extent(on.plane).x1:
        return []
    (x, foot), (_, head) = (on.view.on_paper.apply((extent.x1, y)) for y in (extent.y0, extent.y1))
    return [Line((x, foot - _OUT), (x, head + _OUT), "G-ANNO-MTCH")]


def _goes_on(placer: LabelPlacer, cut: Line) -> Iterator[Marked]:
    """Words beside such a line, at its head or its foot."""
    (x, foot), (_, head) = cut.a, cut.b
    places = [
        Text(_GOES_ON, (x - 0.06, y), MINIMUM_HEIGHT, "S-ANNO-TEXT", "right")
        for y in (head + 0.08 - _OUT, foot - 0.35 + _OUT, foot - 0.55 + _OUT, head - 0.3 - _OUT)
    ]
    yield from or_unnamed(_GOES_ON, lambda: (placer.place_first(places),))


def _labels(
    context: SheetContext, draft: _Draft, mounted: tuple[Mounted, ...], shows: Shows
) -> Iterator[Marked]:
    """In order of how little they can move."""
    on, placer, design = draft.on, draft.placer, context.design
    yield from rail_tags(placer, on, mounted)
    yield from attachment_tags(placer, on, mounted, lugs(design) if shows.wiring else ())
    if shows.wiring:
        yield from box_names(placer, design, on)
    yield from obstruction_names(placer, design, on)
    yield from plane_edge_names(placer, design, on)
    if shows.zones:
        yield from support_names(placer, design, on, mounted)
        yield from zone_names(placer, design, on, [one.array for one in mounted])
    boxes = shows.wiring and bool(boxes_shown(design, on.plane))
    yield from names_beyond(placer, design, on, boxes=boxes)
