"""Labels of the roof plan; each steps aside for what is already drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress

from planset.design.layout import PlacedArray, PlacedModule, surface_to_plan
from planset.design.roof import Plane
from planset.drawing.dimension import leader
from planset.drawing.fit import Part
from planset.drawing.furniture import BUBBLE, BUBBLE_RADIUS, bubble
from planset.drawing.geometry import Box, Placement, Point, box_around, direction_deg, toward
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, rotated_text_box
from planset.drawing.page import View
from planset.drawing.primitives import Block, Dimension, Insert, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SLACK, SUBTITLE_HEIGHT, text_width
from planset.sheets.context import SheetContext
from planset.sheets.edge_names import edge_names
from planset.sheets.roof_plan_dimensions import Wanted
from planset.sheets.words import compass
from planset.units import format_pitch

_TEXT = "A-ANNO-TEXT"
_LEADER = "A-ANNO-NOTE"
_TAG = "E-SOLR-IDEN"
_ARROW = "SLOPE_ARROW"
_INSET_IN = 6.0  # of a leader's end from the edge of a clear strip [model in]
_IN_MODULE = 0.06  # kept free between a tag and its module [paper in]


def annotation(
    context: SheetContext,
    part: Part,
    wanted: tuple[Wanted, ...],
    fixed: tuple[Primitive, ...],
    blocks: Mapping[str, Block],
) -> tuple[tuple[Primitive, ...], tuple[Wanted, ...]]:
    """Dimensions and all labels of the plan, or of a part of it, and dimensions left out.

    They are placed in order of how little they can move. A part shows only what lies in it.

    Args:
        context: What the sheet is given.
        part: The plan, or the part.
        wanted: Dimensions.
        fixed: Words and lines that have their place already.
        blocks: The blocks that insertions name.

    Raises:
        NoRoomError: A label has no free place.
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
    dimensions, left_out = _dimensions(placer, part, wanted)
    made += dimensions
    for item in context.design.obstructions:
        placer.reserve(_paper_box(view, item.plane, item.surface))
    made += _module_tags(placer, context, view)
    callout = list(_detail_callout(placer, context, view))
    placer.keep_clear(callout, blocks)
    made += callout
    made += edge_names(placer, context.design.roof, view, _TEXT)
    for array in context.design.arrays:
        placer.reserve(_paper_box(view, array.plane, array.frames))
    made += _plane_callouts(placer, context, view)
    made += _obstruction_labels(placer, context, view)
    return tuple(made), tuple(left_out)


def _dimensions(
    placer: LabelPlacer, part: Part, wanted: tuple[Wanted, ...]
) -> tuple[list[Dimension], list[Wanted]]:
    """Each dimension in its first way that has room, and those that have room in none.

    Of a plan in parts, a dimension that a match line cuts belongs to none of them.
    """
    made, left_out = [], []
    for item in wanted:
        ways = [way for way in item.ways if _inside(way, part.view.frame)]
        if part.neighbors and not ways:
            continue
        try:
            made.append(placer.place_dimension(ways or item.ways))
        except NoRoomError:
            left_out.append(item)
    return made, left_out


def _inside(way: Dimension, frame: Box) -> bool:
    """Whether both measured points and the line of a dimension lie in a frame."""
    return all(frame.holds(point) for point in (way.a, way.b, way.line_a, way.line_b))


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


def _plane_callouts(placer: LabelPlacer, context: SheetContext, view: View) -> Iterable[Primitive]:
    """Name, pitch, azimuth and slope arrow on every plane."""
    for plane in context.design.roof.planes:
        lines = (
            f"{plane.id.upper()} PLANE",
            format_pitch(plane.pitch),
            f"AZIM. {plane.azimuth_deg:.0f} {compass(plane.azimuth_deg)}",
        )
        region = _plane_region(view, plane)
        if region.width <= 0 or region.height <= 0:
            continue
        anchor = view.on_paper.apply(plane.to_plan(_free_spot(context, plane)))
        label = Label(lines, anchor, NOTE_HEIGHT, _TEXT, _LEADER, end="dot")
        try:
            words = placer.place_inside(label, region)
        except NoRoomError:
            if not view.frame.holds(anchor):
                continue  # the part that shows the anchor names the plane
            words = placer.place_near(label, view.frame, always_led=True)
        yield from words
        yield from _slope_arrow(placer, context, plane, words, region)


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


def _free_spot(context: SheetContext, plane: Plane) -> Point:
    """A point of a plane that nothing stands on, for a leader to end on."""
    strips = context.design.access.strips_on(plane.id)
    if strips:  # its inner side, low down, away from the words of the pathway
        box = strips[0].surface
        inset = min(_INSET_IN, box.width / 2)
        u = box.x0 + inset if strips[0].side == "right" else box.x1 - inset
        return (u, box.y0 + 0.08 * box.height)
    corners = plane.surface_outline
    return (sum(u for u, _ in corners) / len(corners), sum(v for _, v in corners) / len(corners))


def _obstruction_labels(
    placer: LabelPlacer, context: SheetContext, view: View
) -> Iterable[Primitive]:
    for item in context.design.obstructions:
        box = _paper_box(view, item.plane, item.surface)
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
    pairs = zip(context.design.arrays, context.design.racking, strict=True)
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


def _street(context: SheetContext, view: View) -> Iterable[Text]:
    """The street, written along the side it lies on."""
    sides = context.design.inputs.job.site.street_sides
    frame = view.frame
    if "front" in sides:
        words = "STREET SIDE"
        width = text_width(words, SUBTITLE_HEIGHT)
        at = (frame.center[0] - width / 2, frame.y0 + 0.05)
        yield Text(words, at, SUBTITLE_HEIGHT, _TEXT)


def _paper_box(view: View, plane: Plane, surface: Box) -> Box:
    return box_around(view.on_paper.apply(corner) for corner in surface_to_plan(plane, surface))
