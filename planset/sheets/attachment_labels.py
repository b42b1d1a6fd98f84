"""Names on the attachment plan: of lines, rails, attachments, zones, obstructions and edges."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from functools import partial
from operator import attrgetter

from planset.catalog.mounting import MountingSystem
from planset.design.design import Design
from planset.design.electrical.lugs import Lug
from planset.design.layout import PlacedArray
from planset.design.mounted import Mounted
from planset.design.part_places import COUPLING, parts_of
from planset.design.racking import Attachment, Rail
from planset.design.wind_zones import ZoneRegion
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Point, distance, readable, united
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, first_with_room
from planset.drawing.leader_course import ends_inside
from planset.drawing.primitives import Primitive, Text
from planset.drawing.region import Region
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SLACK, text_width
from planset.sheets.edge_names import edge_name, places_along
from planset.sheets.part_symbols import COUPLING_RADIUS
from planset.sheets.plan_blocks import supported_planes
from planset.sheets.racking_blocks import on_seams
from planset.sheets.slope_view import SlopeView
from planset.sheets.tape_marks import whole_eave
from planset.sheets.unnamed import Marked, Unnamed, or_unnamed
from planset.sheets.wiring_blocks import LUG_RADIUS
from planset.sheets.zone_plan import zones_drawn
from planset.units import format_feet_inches

TEXT = "S-ANNO-TEXT"
_LEADER = "S-ANNO-NOTE"
_BESIDE = 0.025  # from a plate or a rail's end to its tag [paper in]
_FARTHER = 0.08  # past a rail's end, at which its tag is tried next [paper in]
_LIFT = 0.02  # between levels at which a tag is tried [paper in]
_OFF_EDGE = MINIMUM_HEIGHT / 2 + 0.015  # from a line to the middle of a tag clear of it [paper in]
_OFF_JOINT = 0.015  # from the circle of a coupling to a tag [paper in]
_UNDER = 0.11  # from the eave to the middle of a rafter's number [paper in]
_FROM_END = 0.12  # from the end of a support to the leader of its words [paper in]
_OFF_SUPPORT = 0.045  # from a support, which may be under a ridge, to its words [paper in]
_STEP = 0.08  # between places along a support at which its words are tried [paper in]
_OFF_ARRAY = 0.12  # of a zone's name, from symbols that reach past the edge [paper in]
_ZONE_REACH = 0.02  # that a zone's name keeps from its boundary [paper in]


def line_numbers(
    placer: LabelPlacer, design: Design, on: SlopeView, mounted: Sequence[Mounted]
) -> Iterator[Marked]:
    """Numbers below the eave, of rafters or seams that start there or carry an attachment."""
    carrying = {item.line for one in mounted for item in one.racking.attachments}
    seams = on_seams(mounted[0].array)
    word = "SEAM" if seams else "RAFTER"
    for line in design.seams if seams else design.rafters:
        if line.plane != on.plane.id:
            continue
        x, level = on.at(line.u_in, 0.0)
        number = Text(str(line.number), (x, level - _UNDER), MINIMUM_HEIGHT, TEXT, "middle")
        place = partial(_first, placer, on, [number])
        if line.number in carrying:
            yield from or_unnamed(f"{word} {line.number}", place)
        elif line.spans and line.spans[0][0] < 1.0:
            with suppress(NoRoomError):  # its neighbors tell which it is
                yield from place()
    left, level = on.at(whole_eave(on.plane).left_in, 0.0)
    at = (left - 0.1, level - _UNDER - MINIMUM_HEIGHT / 2)
    words = Text(word, at, MINIMUM_HEIGHT, TEXT, "right")
    with suppress(NoRoomError):
        yield from _first(placer, on, [words])


def rail_tags(placer: LabelPlacer, on: SlopeView, mounted: Sequence[Mounted]) -> Iterator[Marked]:
    """A tag beside the end of every rail: the upper one, or the left one of a rail across."""
    for rail in (rail for one in mounted for rail in one.racking.rails):
        place = partial(
            first_with_room,
            [partial(_preferred, placer, on, _past_ends(on, rail))]
            if rail.up
            else [partial(_first, placer, on, places) for places in _beside_ends(on, rail)],
        )
        yield from or_unnamed(f"RAIL {rail.id}", place)


def _past_ends(on: SlopeView, rail: Rail) -> list[Text]:
    """Beside the rafter past the upper end of a rail up the slope, else past the lower one."""
    gap = _BESIDE + MINIMUM_HEIGHT / 2
    half = text_width(rail.id, MINIMUM_HEIGHT) * SLACK / 2
    (x, low), (_, high) = on.at(*rail.at(rail.start_in)), on.at(*rail.at(rail.end_in))
    return [
        Text(rail.id, (x + side * (_BESIDE + half), y), MINIMUM_HEIGHT, TEXT, "middle")
        for y in (high + gap, high + 2 * gap, low - gap, low - 2 * gap)
        for side in (1, -1)
    ]


def _beside_ends(on: SlopeView, rail: Rail) -> list[list[Text]]:
    """Left of a rail across the slope, a little higher or lower where taken; right of it."""
    half = text_width(rail.id, MINIMUM_HEIGHT) * SLACK / 2 + 2 * _BESIDE
    (left, y), (right, _) = on.at(*rail.at(rail.start_in)), on.at(*rail.at(rail.end_in))
    lifts = [0.0, *(way * n * _LIFT for n in range(1, 7) for way in (1, -1))]
    return [
        [
            Text(rail.id, (x, y + lift), MINIMUM_HEIGHT, TEXT, "middle")
            for x in (end, end + farther)
            for lift in lifts
        ]
        for end, farther in ((left - half, -_FARTHER), (right + half, _FARTHER))
    ]


def attachment_tags(
    placer: LabelPlacer, on: SlopeView, mounted: Sequence[Mounted], shown: Sequence[Lug] = ()
) -> Iterator[Marked]:
    """A tag beside every attachment; those at the ends of rails first, corners led if need be.

    Args:
        placer: Knows of what is drawn.
        on: The view.
        mounted: What it shows.
        shown: Grounding lugs that it shows.
    """
    for one in mounted:
        array = one.array
        by_rail = one.racking.by_rail
        rows = [*by_rail.values()]
        corners = {row[n].id for row in (rows[0], rows[-1]) if row for n in (0, -1)} if rows else ()
        ends = [item for row in rows if row for item in dict.fromkeys((row[0], row[-1]))]
        at_ends = {item.id for item in ends}
        between = [item for item in one.racking.attachments if item.id not in at_ends]
        levels = sorted({on.at(0.0, v)[1] for m in array.modules for v in _low_high(m.surface)})
        joints = _joints(on, one)
        rings = _rings(on, [lug for lug in shown if lug.array == array.id])
        up = {rail.id: rail.up for rail in one.racking.rails}
        for item in (*ends, *between):
            if up[item.rail]:
                places = _beside(on, item, array.system.attachment.footprint[0] / 2, levels)
                places = _off_joints(_off_joints(places, joints), rings)
                place = partial(_preferred, placer, on, places)
            else:
                others = [other.u_in for other in by_rail[item.rail]]
                places = _over_and_under(on, item, array.system, others)
                place = partial(_first, placer, on, _off_joints(places, rings))
            if item.id in corners:
                place = partial(first_with_room, [place, partial(_led, placer, on, item)])
            yield from or_unnamed(item.id, place)


def _joints(on: SlopeView, one: Mounted) -> list[Box]:
    """The circles of an array's couplings from the left [paper in]."""
    middles = ((part.u_in, part.v_in) for part in parts_of(one) if part.kind == COUPLING)
    return _circles(on, middles, COUPLING_RADIUS)


def _rings(on: SlopeView, shown: Iterable[Lug]) -> list[Box]:
    """The rings of lugs from the left [paper in]."""
    return _circles(on, (lug.at for lug in shown), LUG_RADIUS)


def _circles(on: SlopeView, middles: Iterable[Point], radius_in: float) -> list[Box]:
    """Boxes around circles at points of the plane, with a little room around [paper in]."""
    reach = radius_in / on.view.scale.factor + _OFF_JOINT
    return [Box(x, y, x, y).grown(reach) for x, y in sorted(on.at(*at) for at in middles)]


def _off_joints(places: Sequence[Text], joints: Sequence[Box]) -> list[Text]:
    """The places, last those where the circle of a coupling or lug would cut a figure of the tag.

    Args:
        places: The tag at each.
        joints: Boxes around the circles from the left, all of one size [paper in].
    """
    words = _at_origin(places[0])
    around = _around(words, places)
    left = bisect_left(joints, around.x0, key=attrgetter("x1"))
    right = bisect_right(joints, around.x1, key=attrgetter("x0"))
    near = [box for box in joints[left:right] if box.overlaps(around)]

    def meets(text: Text) -> bool:
        return any(map(words.moved(*text.at).overlaps, near))

    return sorted(places, key=meets) if near else list(places)


def _at_origin(text: Text) -> Box:
    """The box of words moved to where they stand at 0, 0 [paper in]."""
    x, y = text.at
    return rotated_text_box(text).moved(-x, -y)


def _around(words: Box, places: Sequence[Text]) -> Box:
    """The box around words at all of their places [paper in]."""
    across, up = zip(*(text.at for text in places), strict=True)
    return united((words.moved(min(across), min(up)), words.moved(max(across), max(up))))


def _led(placer: LabelPlacer, on: SlopeView, item: Attachment) -> tuple[Primitive, ...]:
    """The tag farther off, with a leader: diagonals are measured from the corners.

    Raises:
        NoRoomError: There is no place.
    """
    at = on.at(item.u_in, item.v_in)
    label = Label((item.id,), at, MINIMUM_HEIGHT, TEXT, _LEADER, item.id, end="dot")
    return placer.place_near(label, on.view.frame)


def _over_and_under(
    on: SlopeView, item: Attachment, system: MountingSystem, others: Sequence[float]
) -> list[Text]:
    """Over a rail across the slope, beside the plate; over the plate where the next one is near.

    Args:
        on: The view.
        item: The attachment.
        system: Its mounting system.
        others: Where attachments stand on its rail, u [in].
    """
    x, y = on.at(item.u_in, item.v_in)
    plate, rail = system.attachment.footprint[0], system.rail.width / on.plane.slope_factor
    half = plate / 2 / on.view.scale.factor + _BESIDE
    half += text_width(item.id, MINIMUM_HEIGHT) * SLACK / 2
    off = rail / 2 / on.view.scale.factor + _BESIDE + MINIMUM_HEIGHT / 2
    apart = [(u - item.u_in) / on.view.scale.factor for u in others if u != item.u_in]
    clear = [
        across
        for across in (half, -half, 0.0, half / 2, -half / 2)
        if all(abs(across) < abs(other - across) for other in apart)
    ]
    return [
        Text(item.id, (x + across, y + side * (off + lift)), MINIMUM_HEIGHT, TEXT, "middle")
        for across in clear
        for lift in (n * _LIFT for n in range(5))
        for side in (1, -1)
    ]


def _low_high(box: Box) -> tuple[float, float]:
    return box.y0, box.y1


def _beside(
    on: SlopeView, attachment: Attachment, plate_in: float, levels: Sequence[float]
) -> list[Text]:
    """To the right of a plate, off the edges of module rows, then to the left.

    Args:
        on: The view.
        attachment: The attachment.
        plate_in: Half the width of its plate [in].
        levels: Of the edges of module rows [paper in].
    """
    x, y = on.at(attachment.u_in, attachment.v_in)
    half = text_width(attachment.id, MINIMUM_HEIGHT) * SLACK / 2
    across = plate_in / on.view.scale.factor + _BESIDE + half
    lifts = [0.0, *(way * n * _LIFT for n in range(1, 7) for way in (1, -1))]
    lifts.sort(key=lambda lift: _is_near_one(levels, y + lift))
    return [
        Text(attachment.id, (x + side * across, y + lift), MINIMUM_HEIGHT, TEXT, "middle")
        for side in (1, -1)
        for lift in lifts
    ]


def _is_near_one(levels: Sequence[float], y: float) -> bool:
    """Whether a height is too near to one of the levels, which go up [paper in]."""
    above = bisect_right(levels, y - _OFF_EDGE)
    return above < len(levels) and levels[above] < y + _OFF_EDGE


def _preferred(placer: LabelPlacer, on: SlopeView, places: list[Text]) -> tuple[Primitive, ...]:
    """The words at the first place, thin lines or not, that tags in a row stand alike; else _first.

    Raises:
        NoRoomError: There is no place.
    """
    with suppress(NoRoomError):
        return _first(placer, on, places[:1])
    return _first(placer, on, places[1:])


def _first(
    placer: LabelPlacer, on: SlopeView, places: list[Text], *, clear: bool = False
) -> tuple[Primitive, ...]:
    """The words at the first free place in the view, clear of all but dashed gray pens if asked.

    Raises:
        NoRoomError: There is none.
    """
    frame = on.view.frame
    if frame.contains(_around(_at_origin(places[0]), places)):
        shown = places
    else:
        shown = [text for text in places if frame.contains(rotated_text_box(text))]
    if not shown:
        msg = f"no place in the view for {places[0].text}"
        raise NoRoomError(msg)
    return (placer.place_first(shown, clear=clear),)


def zone_names(
    placer: LabelPlacer, design: Design, on: SlopeView, arrays: Sequence[PlacedArray]
) -> Iterator[Marked]:
    """The name of every zone of the plane, within it, off the arrays where there is room."""
    under = [Region.of(on.box(array.hardware).grown(_OFF_ARRAY).corners) for array in arrays]
    for plane, plan in zones_drawn(design):
        if plane is on.plane:
            named: set[str] = set()
            for region in plan.regions:
                with suppress(NoRoomError):
                    yield from _zone_name(placer, on, region, under)
                    named.add(region.zone)
            for zone in sorted({region.zone for region in plan.regions} - named):
                yield Unnamed(f"ZONE {zone}")


def _zone_name(
    placer: LabelPlacer, on: SlopeView, zone: ZoneRegion, under: Sequence[Region]
) -> tuple[Primitive, ...]:
    """Its name in full or, in a narrow strip, by itself."""
    rings = (zone.surface.exterior, *zone.surface.interiors)
    outline, *holes = (tuple((u, v) for u, v in ring.coords[:-1]) for ring in rings)
    whole = on.region(outline, tuple(holes)).grown(-_ZONE_REACH)
    return first_with_room(
        partial(_within, placer, words, region)
        for region in (whole.less(*under), whole)
        for words in (f"ZONE {zone.zone}", zone.zone)
    )


def _within(placer: LabelPlacer, words: str, region: Region) -> tuple[Primitive, ...]:
    """Words within a region, near its widest spot.

    Raises:
        NoRoomError: There is no place.
    """
    if region.is_empty:
        msg = f"no room for {words}"
        raise NoRoomError(msg)
    spot = region.widest_spot
    label = Label((words,), spot, NOTE_HEIGHT, TEXT, _LEADER)
    return placer.place_inside(label, region.box, middle=spot, within=region.holds)


def obstruction_names(placer: LabelPlacer, design: Design, on: SlopeView) -> Iterator[Marked]:
    """The id of every obstruction of the plane, led to it."""
    for item in design.obstructions:
        box = on.box(item.surface)
        if item.plane is on.plane and ends_inside(on.view.frame, box.center):
            offset = max(box.width, box.height) / 2
            label = Label(
                (item.id,), box.center, MINIMUM_HEIGHT, TEXT, _LEADER, item.id, offset, "dot"
            )
            place = partial(placer.place_near, label, on.view.frame)
            yield from or_unnamed(f"OBSTRUCTION {item.id}", place)


def support_names(
    placer: LabelPlacer, design: Design, on: SlopeView, mounted: Sequence[Mounted]
) -> Iterator[Marked]:
    """How far from the eave each support of the rafters lies: along its line, beside the arrays.

    Where that has no room the words are led to an end of the line.
    """
    under = [on.box(one.array.hardware) for one in mounted]
    if on_seams(mounted[0].array) or on.plane.id not in supported_planes(design):
        return
    for support in design.bearings:
        if support.plane != on.plane.id or not support.spans:
            continue
        at = format_feet_inches(support.from_eave_in)
        runs = [[on.at(u, support.v_in) for u in span] for span in reversed(support.spans)]
        full, short = (f"SUPPORT {at} FROM EAVE IN PLAN", f"SUPPORT {at} IN PLAN")
        tried = ((full, _OFF_SUPPORT, True), (short, _OFF_SUPPORT, True), (short, _BESIDE, False))
        tries = [
            partial(_first, placer, on, places, clear=clear)
            for words, off, clear in tried
            if (places := [t for r in runs for t in _along(words, r, off) if not _meets(t, under)])
        ]
        for (x, y), inward in ((runs[0][1], -_FROM_END), (runs[-1][0], _FROM_END)):
            words = (f"SUPPORT {at}", "FROM EAVE IN PLAN")
            label = Label(words, (x + inward, y), MINIMUM_HEIGHT, TEXT, _LEADER, end="dot")
            if ends_inside(on.view.frame, label.anchor):
                tries.append(partial(placer.place_near, label, on.view.frame, always_led=True))
        yield from or_unnamed(f"SUPPORT {at} FROM EAVE", partial(first_with_room, tries))


def _along(words: str, ends: Sequence[Point], off_line: float) -> list[Text]:
    """Words over and under a level line, so far off it, from its right end to its left."""
    (left, y), (right, _) = ends
    half = text_width(words, MINIMUM_HEIGHT) * SLACK / 2 + _BESIDE
    off = MINIMUM_HEIGHT / 2 + off_line
    count = max(int((right - left - 2 * half) / _STEP) + 1, 0)
    return [
        Text(words, (right - half - n * _STEP, y + side * off), MINIMUM_HEIGHT, TEXT, "middle")
        for n in range(count)
        for side in (1, -1)
    ]


def _meets(text: Text, boxes: Sequence[Box]) -> bool:
    own = rotated_text_box(text)
    return any(own.overlaps(box) for box in boxes)


def plane_edge_names(placer: LabelPlacer, design: Design, on: SlopeView) -> Iterator[Primitive]:
    """The name of every edge of the plane that has room, outside of it, else inside.

    The roof plan names them all.
    """
    plane = on.plane
    for edge in design.roof.edges:
        if plane.id not in edge.planes:
            continue
        ends = [on.at(*plane.to_surface(end)) for end in edge.plan]
        a, b = readable(*ends)
        name = edge_name(edge)
        if distance(a, b) < text_width(name, NOTE_HEIGHT) * SLACK:
            continue
        # A plane lies left of the sides of its outline.
        own = edge.planes[0] == plane.id
        outer = -1.0 if (a == ends[0]) == own else 1.0
        places = places_along(name, a, b, TEXT, (outer, -outer))
        with suppress(NoRoomError):
            yield from _first(placer, on, places)
