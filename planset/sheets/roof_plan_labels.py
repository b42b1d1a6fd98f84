"""Labels of the roof plan; each steps aside for what is already drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from planset.design.access.area import AccessArea, AreaKind
from planset.drawing.dimension import leader
from planset.drawing.furniture import BUBBLE, BUBBLE_RADIUS, bubble
from planset.drawing.geometry import Box, Point, toward
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, first_with_room
from planset.drawing.leader_course import ends_inside
from planset.drawing.page import View
from planset.drawing.primitives import Insert, Primitive
from planset.drawing.region import Region
from planset.drawing.text import MINIMUM_HEIGHT
from planset.sheets.access_areas import led_words
from planset.sheets.context import SheetContext
from planset.sheets.details.detail import ALONG, SHEET, Detail, details_of
from planset.sheets.edge_names import edge_names
from planset.sheets.module_tags import array_names, on_paper
from planset.sheets.plan_walls import outside_of_roofs
from planset.sheets.plane_names import plane_names
from planset.sheets.roof_plan_draft import Draft, obstruction_box
from planset.sheets.site_names import building_names, opening_labels
from planset.sheets.unnamed import Marked, Unnamed, led_from_outside, or_unnamed

_TEXT = "A-ANNO-TEXT"
_FIRE_TEXT = "F-ANNO-TEXT"
_LEADER = "A-ANNO-NOTE"
_OFF_MIDDLE = (0.2, 0.8)  # parts of an area's size, where a leader has no room at its middle


@dataclass(frozen=True, slots=True)
class Labeled:
    """A part of the plan with its labels.

    Attributes:
        view: Its view.
        unnamed: What it had no room to name.
    """

    view: View
    unnamed: tuple[str, ...]


def labeled(context: SheetContext, draft: Draft) -> Labeled:
    """The view of a part of the plan with its labels.

    They are placed in order of how little they can move. Where that leaves one without a place,
    the names of the planes may stand in the clearances of obstructions, and at last go before
    the names of those. A part shows only what lies in it.

    Args:
        context: What the sheet is given.
        draft: The part with its dimensions.
    """
    view, placer = draft.view, draft.placer.copy()
    made: list[Marked] = list(draft.drawn)
    made += _detail_callouts(placer, context, view)
    made += building_names(placer, context, view)
    made += edge_names(placer, context.design.roof, view, _TEXT)
    made += opening_labels(placer, context, view)
    made += array_names(placer, context, view)
    made += _area_leaders(placer, context, draft)
    made += _least_unnamed(placer, context, view)
    marks = tuple(mark for mark in made if not isinstance(mark, Unnamed))
    unnamed = tuple(mark.thing for mark in made if isinstance(mark, Unnamed))
    return Labeled(replace(view, annotation=marks), unnamed)


_Labeler = Callable[[LabelPlacer, SheetContext, View], Iterable[Marked]]


def _least_unnamed(placer: LabelPlacer, context: SheetContext, view: View) -> list[Marked]:
    """Names of planes and obstructions, in the order that leaves the fewest without."""
    tried: list[list[Marked]] = []
    orders: tuple[tuple[_Labeler, ...], ...] = (
        (_obstruction_labels, _clear_plane_names),
        (_obstruction_labels, plane_names),
        (plane_names, _obstruction_labels),
    )
    for order in orders if context.design.obstructions else orders[:1]:
        tried.append(_in_order(placer, context, view, order))
        counts = [_count_unnamed(marks) for marks in tried]
        if not counts[-1] or (len(counts) > 1 and counts[-1] >= counts[-2]):
            break
    return min(tried, key=_count_unnamed)


def _count_unnamed(marks: list[Marked]) -> int:
    return sum(isinstance(mark, Unnamed) for mark in marks)


def _in_order(
    placer: LabelPlacer, context: SheetContext, view: View, order: tuple[_Labeler, ...]
) -> list[Marked]:
    """Labels of several kinds, one kind after the other."""
    tried = placer.copy()
    return [mark for labels in order for mark in labels(tried, context, view)]


def _clear_plane_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Names of planes out of the clearances of obstructions."""
    for item in context.design.obstructions:
        placer.reserve(on_paper(view, item.plane, item.surface.grown(item.clearance_in)))
    yield from plane_names(placer, context, view)


def _area_leaders(placer: LabelPlacer, context: SheetContext, draft: Draft) -> Iterator[Marked]:
    """What areas are kept free for that have no room for words."""
    roof, view = context.design.roof, draft.view
    outside = outside_of_roofs(roof, view)
    told = {_told_by(context, area) for area in draft.worded}
    for area in context.design.access_areas:
        if area in draft.worded or _told_by(context, area) in told:
            continue
        words, to_plan = led_words(area), roof.plane(area.plane).to_plan
        anchors = [view.on_paper.apply(to_plan(spot)) for spot in _spots(context, area)]
        if ends_inside(view.frame, anchors[0]):
            told.add(_told_by(context, area))
            label = Label((words,), anchors[0], MINIMUM_HEIGHT, _FIRE_TEXT, _LEADER, end="dot")
            tries = (
                partial(
                    led_from_outside, placer, replace(label, anchor=anchor), view.frame, outside
                )
                for anchor in anchors
            )
            name = f"{words}, {area.plane.upper()} PLANE"
            yield from or_unnamed(name, partial(first_with_room, tries))


def _told_by(context: SheetContext, area: AccessArea) -> tuple[object, ...]:
    """What areas have in common of which words at one tell of all, as their hatch is the same.

    That is a way on a plane, and a setback on a building.
    """
    roof = context.design.roof
    way = area.kind in (AreaKind.PATHWAY, AreaKind.ESCAPE_PATHWAY, AreaKind.INTERIOR_PATHWAY)
    where = area.plane if way else roof.plane(area.plane).building
    return (area.kind, area.required_in, where)


def _spots(context: SheetContext, area: AccessArea) -> list[Point]:
    """Points of an area for a leader to end on, where no module lies on it if it can be so.

    Its middle comes first; in a small area that is where the figure of its width stands.
    """
    whole = Region.of(area.outline)
    free = whole.less(
        *(Region(a.occupied) for a in context.design.arrays if a.plane.id == area.plane)
    )
    shown = whole if free.is_empty else free
    box = shown.box
    corners = (
        (box.x0 + right * box.width, box.y0 + up * box.height)
        for right in _OFF_MIDDLE
        for up in _OFF_MIDDLE
    )
    return [shown.inner_point, *filter(shown.holds_point, corners)]


def _obstruction_labels(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    for item in context.design.obstructions:
        box = obstruction_box(view, item)
        if not ends_inside(view.frame, box.center):
            continue
        label = Label(
            (item.id,),
            box.center,
            MINIMUM_HEIGHT,
            _TEXT,
            _LEADER,
            names=item.id,
            offset=max(box.width, box.height) / 2,
            end="dot",
        )
        place = partial(placer.place_near, label, view.frame)
        yield from or_unnamed(f"OBSTRUCTION {item.id}", place)


def _detail_callouts(placer: LabelPlacer, context: SheetContext, view: View) -> list[Primitive]:
    """Bubbles that name the attachment details, each led to one of its attachments."""
    made: list[Primitive] = []
    if not any(entry.id == SHEET for entry in context.index):
        return made
    for detail in details_of(context.design):
        callout = list(_detail_callout(placer, detail, view))
        placer.keep_clear(callout, {BUBBLE: context.symbols[BUBBLE].block})
        made += callout
    return made


def _detail_callout(placer: LabelPlacer, detail: Detail, view: View) -> Iterable[Primitive]:
    held = [
        (view.on_paper.apply(one.array.plane.to_plan((at.u_in, at.v_in))), at)
        for one in detail.mounts
        for at in one.racking.attachments
    ]
    shown = [pair for pair in held if ends_inside(view.frame, pair[0])]
    if not shown:
        return
    anchor, first = shown[0]
    wanted = (anchor[0] - 0.42, anchor[1] + 0.75)
    radius = BUBBLE_RADIUS
    size = Box(-radius, -radius, radius, radius)
    try:
        placed, crowded = placer.place_symbol(
            Insert(BUBBLE, wanted, _TEXT), size, view.frame, led_to=anchor
        )
    except NoRoomError:
        return  # the legend names the attachment too
    center = placed.at
    yield from bubble(center, str(ALONG), detail.sheet, crowded=crowded)
    yield leader((toward(center, anchor, radius), anchor), _LEADER, end="dot", names=first.id)
