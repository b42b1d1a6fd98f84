"""Name, pitch, azimuth and slope arrow of every roof plane, on the plane or led to it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import compress

from planset.design.design import Design
from planset.drawing.flatten import text_corners
from planset.drawing.geometry import Placement, Point, box_around, direction_deg, readable
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, WithinEach, first_with_room
from planset.drawing.leader_course import ends_inside
from planset.drawing.page import View
from planset.drawing.primitives import Insert, Primitive, Text
from planset.drawing.region import Region
from planset.drawing.text import NOTE_HEIGHT, SLACK
from planset.roof.plane import Plane
from planset.sheets.context import SheetContext
from planset.sheets.plan_blocks import SUPPORTS
from planset.sheets.plan_walls import outside_of_roofs
from planset.sheets.unnamed import Marked, Unnamed, led_from_outside
from planset.units import format_pitch

_TEXT = "A-ANNO-TEXT"
_LEADER = "A-ANNO-NOTE"
_ARROW = "SLOPE_ARROW"
_OFF_EDGES = 0.06  # kept free between words and the edges of their plane [paper in]
_OFF_SUPPORTS = 0.02  # kept free between words and the supports of rafters [paper in]
_INSET_IN = 6.0  # of a leader's end from the edge of a clear strip [model in]
_TURNED_SHARES = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1)
_ANCHORS_TRIED = 2
_SPOT_SHARES = ((0.5, 0.1, 0.9, 0.3, 0.7), (0.5, 0.98, 0.02, 0.75, 0.25))
"""Parts of the height and of the width of a plane where its leader may end, best first."""


def plane_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Name, pitch, azimuth and slope arrow on every plane; the name alone where room is short."""
    outside = outside_of_roofs(context.design.roof, view)
    planes = sorted(context.design.roof.planes, key=lambda plane: -plane.plan_area_sqin)
    for plane in planes:
        region = _region(view, plane)
        if region is None:
            continue
        anchors = [view.on_paper.apply(spot) for spot in _free_spots(context.design, plane)]
        lines = _words(plane)
        label = Label(lines, anchors[0], NOTE_HEIGHT, _TEXT, _LEADER, end="dot")
        level = replace(label, lines=(", ".join(lines),))
        name = replace(label, lines=lines[:1])  # the table of planes has the rest
        between = region.less_strips(_supports(context.design, plane, view))
        tries = (
            partial(_inside, placer, label, region, within=between, clear=True),
            partial(_inside, placer, label, region, clear=True),
            partial(_inside, placer, level, region, clear=True),
            partial(_inside, placer, label, region),
            partial(_inside, placer, name, region, clear=True),
            partial(_along_eave, placer, name, plane, view, region, clear=True),
            partial(_inside, placer, name, region),
            partial(_along_eave, placer, name, plane, view, region),
            partial(_led, placer, name, anchors, view, outside),
        )
        try:
            words = first_with_room(tries)
        except NoRoomError:
            yield Unnamed(lines[0])
            continue
        if words:
            yield from words
            yield from _slope_arrow(placer, context, plane, words, region)


def _words(plane: Plane) -> tuple[str, ...]:
    name = f"{plane.id.upper()} PLANE"
    if not plane.pitch:
        return (name, "LEVEL")
    return (name, format_pitch(plane.pitch), f"AZIM. {plane.azimuth_deg:.0f} DEG")


def _supports(design: Design, plane: Plane, view: View) -> list[tuple[Point, Point, float]]:
    """The lines of the supports of a plane's rafters on paper, where this view draws them.

    Level as the words are on many planes, one would strike through them from end to end.
    """
    if not any(isinstance(part, Insert) and part.block == SUPPORTS for part in view.model):
        return []
    ends = (
        [view.on_paper.apply(plane.to_plan((u, support.v_in))) for u in span]
        for support in design.bearings
        if support.plane == plane.id
        for span in support.spans
    )
    return [(left, right, _OFF_SUPPORTS) for left, right in ends]


def _inside(
    placer: LabelPlacer,
    label: Label,
    region: Region,
    *,
    within: Region | None = None,
    clear: bool = False,
) -> tuple[Primitive, ...]:
    middle = None if region.is_rectangle else region.widest_spot
    holds = (within or region).holds
    return placer.place_inside(label, region.box, middle=middle, within=holds, clear=clear)


def _along_eave(
    placer: LabelPlacer,
    label: Label,
    plane: Plane,
    view: View,
    region: Region,
    *,
    clear: bool = False,
) -> tuple[Primitive, ...]:
    """The words turned as the eave of their plane runs.

    Raises:
        NoRoomError: They have no free place on it.
    """
    around = box_around(plane.surface_outline)
    ends = readable(*(plane.to_plan((u, 0.0)) for u in (0.0, 1.0)))
    places = [
        Text(
            label.lines[0],
            view.on_paper.apply(
                plane.to_plan((around.x0 + across * around.width, around.y0 + up * around.height))
            ),
            label.height,
            label.layer,
            "middle",
            direction_deg(*ends),
        )
        for up in _TURNED_SHARES
        for across in _TURNED_SHARES
    ]
    held = list(compress(places, region.holds_rings([text_corners(t, SLACK) for t in places])))
    if not held:
        msg = f"no room on its plane for {label.lines[0]!r}"
        raise NoRoomError(msg)
    return (placer.place_first(held, clear=clear),)


def _led(
    placer: LabelPlacer, label: Label, anchors: list[Point], view: View, outside: WithinEach
) -> tuple[Primitive, ...]:
    """The words led to their plane; none where another part of the plan names it.

    Raises:
        NoRoomError: They have no free place.
    """
    if not ends_inside(view.frame, anchors[0]):
        return ()
    return first_with_room(
        partial(led_from_outside, placer, replace(label, anchor=anchor), view.frame, outside)
        for anchor in anchors[:_ANCHORS_TRIED]
    )


def _slope_arrow(
    placer: LabelPlacer,
    context: SheetContext,
    plane: Plane,
    words: tuple[Primitive, ...],
    region: Region,
) -> Iterable[Primitive]:
    """The arrow as near to the plane's words as there is room for it on the plane."""
    if not plane.pitch:
        return
    near = next(text.at for text in words if isinstance(text, Text))
    turn = direction_deg((0.0, 0.0), plane.downslope)
    turned = Placement(rotation_deg=turn)
    size = box_around(turned.apply(corner) for corner in context.symbols[_ARROW].box.corners)
    arrow = Insert(_ARROW, near, "A-ROOF-LEVL", turn)
    # A plane too full for its arrow still has its pitch and azimuth in words.
    with suppress(NoRoomError):
        yield placer.place_symbol(arrow, size, region.box, within=region.holds)[0]


def _region(view: View, plane: Plane) -> Region | None:
    """Where the words of a plane may stand on paper, None where this view shows nothing of it."""
    outline, *holes = ([view.on_paper.apply(corner) for corner in ring] for ring in plane.rings)
    area = Region.of(outline, holes).grown(-_OFF_EDGES).within(view.frame)
    return None if area.is_empty else area


def _free_spots(design: Design, plane: Plane) -> list[Point]:
    """Points of a plane in plan for a leader to end on, those first that nothing stands on."""
    spots: list[Point] = []
    strips = design.access.strips_on(plane.id)
    if strips:  # its inner side, low down, away from the words of the pathway
        box = strips[0].on(plane.id)
        inset = min(_INSET_IN, box.width / 2)
        u = box.x0 + inset if strips[0].side == "right" else box.x1 - inset
        spots.append((u, box.y0 + 0.08 * box.height))
    around = box_around(plane.surface_outline)
    ups, acrosses = _SPOT_SHARES
    spots += [
        (around.x0 + across * around.width, around.y0 + up * around.height)
        for up in ups
        for across in acrosses
    ]
    ground = Region(plane.surface_polygon)
    on_plane = [spot for spot in spots if ground.holds_point(spot)] or [ground.inner_point]
    taken = [array.hardware for array in design.arrays if array.plane.id == plane.id]
    taken += [item.surface for item in design.obstructions if item.plane.id == plane.id]
    on_plane.sort(key=lambda spot: any(surface.holds(spot) for surface in taken))
    return [plane.to_plan(spot) for spot in on_plane]
