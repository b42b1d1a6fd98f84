"""Labels of the roof plan; each steps aside for what is already drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress

from planset.design.layout import surface_to_plan
from planset.design.roof import Plane
from planset.drawing.furniture import bubble
from planset.drawing.geometry import Box, Placement, Point, box_around, direction_deg
from planset.drawing.labels import Label, LabelPlacer, NoRoomError
from planset.drawing.page import View
from planset.drawing.primitives import Block, Dimension, Insert, Line, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SUBTITLE_HEIGHT, text_width
from planset.sheets.context import SheetContext
from planset.sheets.edge_names import edge_names
from planset.sheets.words import compass
from planset.units import format_pitch

_TEXT = "A-ANNO-TEXT"
_LEADER = "A-ANNO-NOTE"
_ARROW = "SLOPE_ARROW"


def annotation(
    context: SheetContext,
    view: View,
    dimensions: tuple[Dimension, ...],
    areas: tuple[Text, ...],
    blocks: Mapping[str, Block],
) -> tuple[Primitive, ...]:
    """Dimensions and all labels of the plan, placed in order of how little they can move."""
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, blocks, view.on_paper)
    fixed = (*dimensions, *areas, *_detail_callout(context, view), *_street(context, view))
    made = [placer.settled(part) for part in fixed]
    placer.keep_clear(made, blocks)
    for item in context.design.obstructions:
        placer.reserve(_paper_box(view, item.plane, item.surface))
    made += edge_names(placer, context.design.roof, view, _TEXT)
    made += _module_tags(placer, context, view)
    for array in context.design.arrays:
        placer.reserve(_paper_box(view, array.plane, array.frames))
    made += _plane_callouts(placer, context, view)
    made += _obstruction_labels(placer, context, view)
    return tuple(made)


def _module_tags(placer: LabelPlacer, context: SheetContext, view: View) -> Iterable[Primitive]:
    for array in context.design.arrays:
        for module in array.modules:
            box = _paper_box(view, array.plane, module.surface)
            label = Label((module.id,), box.center, MINIMUM_HEIGHT, "E-SOLR-IDEN", _LEADER)
            yield from placer.place_inside(label, box)


def _plane_callouts(placer: LabelPlacer, context: SheetContext, view: View) -> Iterable[Primitive]:
    """Name, pitch, azimuth and slope arrow on every plane."""
    for plane in context.design.roof.planes:
        lines = (
            f"{plane.id.upper()} PLANE",
            format_pitch(plane.pitch),
            f"AZIM. {plane.azimuth_deg:.0f} {compass(plane.azimuth_deg)}",
        )
        region = _plane_region(view, plane)
        anchor = view.on_paper.apply(plane.to_plan(_free_spot(context, plane)))
        label = Label(lines, anchor, NOTE_HEIGHT, _TEXT, _LEADER, end="dot")
        try:
            words = placer.place_inside(label, region)
        except NoRoomError:
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
        yield placer.place_symbol(Insert(_ARROW, near, "A-ROOF-LEVL", turn), size, region)


def _plane_region(view: View, plane: Plane) -> Box:
    """Where the labels of a plane may stand [paper in]."""
    return box_around(view.on_paper.apply(corner) for corner in plane.outline).grown(-0.06)


def _free_spot(context: SheetContext, plane: Plane) -> Point:
    """A point of a plane that nothing stands on, for a leader to end on."""
    strips = context.design.access.strips_on(plane.id)
    if strips:
        return strips[0].surface.center
    corners = plane.surface_outline
    return (sum(u for u, _ in corners) / len(corners), sum(v for _, v in corners) / len(corners))


def _obstruction_labels(
    placer: LabelPlacer, context: SheetContext, view: View
) -> Iterable[Primitive]:
    for item in context.design.obstructions:
        box = _paper_box(view, item.plane, item.surface)
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


def _detail_callout(context: SheetContext, view: View) -> Iterable[Primitive]:
    """A bubble that names the attachment detail, led to one attachment."""
    if not any(entry.id == "S-501" for entry in context.index):
        return
    array, racking = context.design.arrays[0], context.design.racking[0]
    if not racking.attachments:
        return
    first = racking.attachments[0]
    anchor = view.on_paper.apply(array.plane.to_plan((first.u_in, first.v_in)))
    center = (anchor[0] - 0.42, anchor[1] + 0.75)
    yield from bubble(center, "1", "S-501")
    yield Line((center[0] + 0.1, center[1] - 0.23), anchor, _LEADER)


def _street(context: SheetContext, view: View) -> Iterable[Primitive]:
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
