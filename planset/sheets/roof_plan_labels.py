"""Labels of the roof plan; each steps aside for what is already drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import replace
from functools import partial

from planset.design.layout import PlacedArray, PlacedModule, surface_to_plan
from planset.drawing.dimension import leader
from planset.drawing.flatten import rotated_text_box
from planset.drawing.furniture import BUBBLE, BUBBLE_RADIUS, bubble
from planset.drawing.geometry import Box, Placement, Point, box_around, direction_deg, toward
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, first_with_room
from planset.drawing.page import View
from planset.drawing.primitives import Insert, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SLACK
from planset.roof.plane import Plane
from planset.sheets.context import SheetContext
from planset.sheets.edge_names import edge_names
from planset.sheets.roof_plan_draft import Draft, obstruction_box
from planset.units import format_pitch

_TEXT = "A-ANNO-TEXT"
_LEADER = "A-ANNO-NOTE"
_TAG = "E-SOLR-IDEN"
_ARROW = "SLOPE_ARROW"
_INSET_IN = 6.0  # of a leader's end from the edge of a clear strip [model in]
_IN_MODULE = 0.06  # kept free between a tag and its module [paper in]


def labeled(context: SheetContext, draft: Draft) -> View:
    """The view of a part of the plan with all its labels.

    They are placed in order of how little they can move. Where that leaves one without a place,
    the names of the planes may stand in the clearances of obstructions, and at last go before
    the names of those. A part shows only what lies in it.

    Args:
        context: What the sheet is given.
        draft: The part with its dimensions.

    Raises:
        NoRoomError: A label has no free place.
    """
    view, placer = draft.view, draft.placer.copy()
    made = list(draft.drawn)
    made += _module_tags(placer, context, view)
    callout = list(_detail_callout(placer, context, view))
    placer.keep_clear(callout, {BUBBLE: context.symbols[BUBBLE].block})
    made += callout
    made += edge_names(placer, context.design.roof, view, _TEXT)
    for array in context.design.arrays:
        placer.reserve(_paper_box(view, array.plane, array.frames))
    orders = (
        (_obstruction_labels, _clear_plane_callouts),
        (_obstruction_labels, _plane_callouts),
        (_plane_callouts, _obstruction_labels),
    )
    made += first_with_room(partial(_in_order, placer, context, view, order) for order in orders)
    return replace(view, annotation=tuple(made))


_Labeler = Callable[[LabelPlacer, SheetContext, View], Iterable[Primitive]]


def _in_order(
    placer: LabelPlacer, context: SheetContext, view: View, order: tuple[_Labeler, ...]
) -> list[Primitive]:
    """Labels of several kinds, one kind after the other."""
    tried = placer.copy()
    return [mark for labels in order for mark in labels(tried, context, view)]


def _module_tags(placer: LabelPlacer, context: SheetContext, view: View) -> Iterable[Primitive]:
    """A tag in every module, or at a small scale one label for the array."""
    for array in context.design.arrays:
        shown = [
            module
            for module in array.modules
            if view.frame.contains(_paper_box(view, array.plane, module.surface))
        ]
        if all(_fits(module.id, view, array, module) for module in shown):
            for module in shown:
                box = _paper_box(view, array.plane, module.surface)
                label = Label((module.id,), box.center, MINIMUM_HEIGHT, _TAG, _LEADER)
                yield from placer.place_inside(label, box)
        else:
            yield from _array_tag(placer, array, shown[0], view)


def _fits(tag: str, view: View, array: PlacedArray, module: PlacedModule) -> bool:
    box = _paper_box(view, array.plane, module.surface).grown(-_IN_MODULE)
    size = rotated_text_box(Text(tag, (0.0, 0.0), MINIMUM_HEIGHT, _TAG), SLACK)
    return size.width <= box.width and size.height <= box.height


def _array_tag(
    placer: LabelPlacer, array: PlacedArray, named: PlacedModule, view: View
) -> Iterable[Primitive]:
    first, last = array.modules[0], array.modules[-1]
    box = _paper_box(view, array.plane, named.surface)
    lines = (f"ARRAY {array.id}: {first.id} TO {last.id},", "ROW BY ROW FROM THE EAVE")
    label = Label(lines, box.center, MINIMUM_HEIGHT, _TAG, _LEADER, names=named.id, end="dot")
    return placer.place_near(label, view.frame, always_led=True)


def _clear_plane_callouts(
    placer: LabelPlacer, context: SheetContext, view: View
) -> Iterable[Primitive]:
    """Plane callouts out of the clearances of obstructions."""
    for item in context.design.obstructions:
        placer.reserve(_paper_box(view, item.plane, item.surface.grown(item.clearance_in)))
    yield from _plane_callouts(placer, context, view)


def _plane_callouts(placer: LabelPlacer, context: SheetContext, view: View) -> Iterable[Primitive]:
    """Name, pitch, azimuth and slope arrow on every plane."""
    for plane in context.design.roof.planes:
        lines = (
            f"{plane.id.upper()} PLANE",
            format_pitch(plane.pitch),
            f"AZIM. {plane.azimuth_deg:.0f} DEG",
        )
        region = _plane_region(view, plane)
        if region.width <= 0 or region.height <= 0:
            continue
        anchors = [view.on_paper.apply(plane.to_plan(p)) for p in _free_spots(context, plane)]
        label = Label(lines, anchors[0], NOTE_HEIGHT, _TEXT, _LEADER, end="dot")
        try:
            words = _plane_words(placer, label, anchors, view, region)
        except NoRoomError:  # the table of planes has the rest
            name = replace(label, lines=lines[:1])
            words = _plane_words(placer, name, anchors, view, region)
        if words:
            yield from words
            yield from _slope_arrow(placer, context, plane, words, region)


def _plane_words(
    placer: LabelPlacer, label: Label, anchors: list[Point], view: View, region: Box
) -> tuple[Primitive, ...]:
    """The words on their plane, or led to it; none where another part of the plan names it.

    Raises:
        NoRoomError: They have no free place.
    """
    with suppress(NoRoomError):
        return placer.place_inside(label, region)
    if not view.frame.holds(anchors[0]):
        return ()
    return first_with_room(
        partial(placer.place_near, replace(label, anchor=anchor), view.frame, always_led=True)
        for anchor in anchors
    )


def _slope_arrow(
    placer: LabelPlacer,
    context: SheetContext,
    plane: Plane,
    words: tuple[Primitive, ...],
    region: Box,
) -> Iterable[Primitive]:
    """The arrow as near to the plane's words as there is room for it on the plane."""
    near = next(text.at for text in words if isinstance(text, Text))
    turn = direction_deg((0.0, 0.0), plane.downslope)
    turned = Placement(rotation_deg=turn)
    size = box_around(turned.apply(corner) for corner in context.symbols[_ARROW].box.corners)
    # A plane too full for its arrow still has its pitch and azimuth in words.
    with suppress(NoRoomError):
        yield placer.place_symbol(Insert(_ARROW, near, "A-ROOF-LEVL", turn), size, region)[0]


def _plane_region(view: View, plane: Plane) -> Box:
    """Where the labels of a plane may stand, turned inside out off this view [paper in]."""
    box = box_around(view.on_paper.apply(corner) for corner in plane.outline)
    return box.grown(-0.06).shared(view.frame)


def _free_spots(context: SheetContext, plane: Plane) -> list[Point]:
    """Points of a plane for a leader to end on, those first that nothing stands on."""
    strips = context.design.access.strips_on(plane.id)
    spots: list[Point] = []
    if strips:  # its inner side, low down, away from the words of the pathway
        box = strips[0].surface
        inset = min(_INSET_IN, box.width / 2)
        u = box.x0 + inset if strips[0].side == "right" else box.x1 - inset
        spots.append((u, box.y0 + 0.08 * box.height))
    around = box_around(plane.surface_outline)
    spots += [
        (around.x0 + across * around.width, around.y0 + up * around.height)
        for up in (0.5, 0.1, 0.9, 0.3, 0.7)
        for across in (0.5, 0.98, 0.02, 0.75, 0.25)
    ]
    taken = [array.hardware for array in context.design.arrays if array.plane.id == plane.id]
    taken += [item.surface for item in context.design.obstructions if item.plane.id == plane.id]
    return sorted(spots, key=lambda spot: any(surface.holds(spot) for surface in taken))


def _obstruction_labels(
    placer: LabelPlacer, context: SheetContext, view: View
) -> Iterable[Primitive]:
    for item in context.design.obstructions:
        box = obstruction_box(view, item)
        if not view.frame.holds(box.center):
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
        yield from placer.place_near(label, view.frame)


def _detail_callout(placer: LabelPlacer, context: SheetContext, view: View) -> Iterable[Primitive]:
    """A bubble that names the attachment detail, led to one attachment."""
    pairs = zip(context.design.mounted, context.design.racking, strict=True)
    held = [
        (view.on_paper.apply(array.plane.to_plan((attachment.u_in, attachment.v_in))), attachment)
        for array, rack in pairs
        for attachment in rack.attachments
    ]
    shown = [pair for pair in held if view.frame.holds(pair[0])]
    if not shown or not any(entry.id == "S-501" for entry in context.index):
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
    yield from bubble(center, "1", "S-501", crowded=crowded)
    yield leader((toward(center, anchor, radius), anchor), _LEADER, end="dot", names=first.id)


def _paper_box(view: View, plane: Plane, surface: Box) -> Box:
    return box_around(view.on_paper.apply(corner) for corner in surface_to_plan(plane, surface))
