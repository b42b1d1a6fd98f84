"""Words on the site plan; each steps aside for what is already drawn."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import partial
from itertools import pairwise

from planset.design.site import Body, Site, StreetOnPlan
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Point, box_around, direction_deg, readable
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, Within, first_with_room
from planset.drawing.page import View
from planset.drawing.primitives import Primitive, Text
from planset.drawing.region import Region
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SUBTITLE_HEIGHT
from planset.sheets.context import SheetContext
from planset.sheets.edge_names import places_along
from planset.sheets.module_tags import on_paper
from planset.sheets.plan_walls import outside_of_roofs
from planset.sheets.site_blocks import equipment_block, mark_center, setback_rings, street_edge
from planset.sheets.unnamed import Marked, or_unnamed
from planset.units import format_feet_inches

TEXT, LEADER = "C-ANNO-TEXT", "C-ANNO-NOTE"
HOUSE_WORDS = {
    "one_family_dwelling": "ONE-FAMILY DWELLING",
    "two_family_dwelling": "TWO-FAMILY DWELLING",
    "townhouse": "TOWNHOUSE",
    "other": "BUILDING",
}
_FIRE = "F-ANNO-TEXT"
_OUT = (0.14, 0.26, 0.4)  # of a street's name from its property line or pavement [paper in]
_WITHIN = 0.2  # of such a name before the pavement, for want of room beyond [paper in]
_WALK_SHARES = (0.5, 0.3, 0.7)
_NEARBY = 1.3  # how far off words are sought first [paper in]
_STREET_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)


def bearing_words(bearing_deg: float) -> str:
    """A bearing to the degree as surveyors write it: `N 80° E`."""
    whole = round(bearing_deg) % 360
    north = whole <= 90 or whole >= 270
    angle = min(whole % 180, 180 - whole % 180)
    return f"{'N' if north else 'S'} {angle}° {'E' if whole < 180 else 'W'}"


def lot_line_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Tag, bearing and length along each property line, outside of the lot where there is room."""
    azimuth = context.design.inputs.job.roof.front_azimuth
    for line in _site(context).lines:
        length = format_feet_inches(line.length_in, denominator=1)
        words = f"{line.id}  {bearing_words(line.bearing_deg(azimuth))}  {length}"
        first, last = view.on_paper.apply(line.a), view.on_paper.apply(line.b)
        a, b = readable(first, last)
        outside = -1.0 if a == first else 1.0
        places = places_along(words, a, b, TEXT, (outside, -outside))
        shown = [text for text in places if view.frame.contains(rotated_text_box(text))]
        label = Label((words,), _between(a, b), NOTE_HEIGHT, TEXT, LEADER)
        tries = (
            partial(_first, placer, shown),
            partial(placer.place_near, label, view.frame, always_led=True),
        )
        yield from or_unnamed(words, partial(first_with_room, tries))


def street_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Each street's name along its property line, beyond the edge of its pavement."""
    for street in _site(context).streets:
        places = list(_street_places(street, view))
        shown = [text for text in places if view.frame.contains(rotated_text_box(text))]
        yield from or_unnamed(f"STREET {street.name.upper()}", partial(_first, placer, shown))


def _street_places(street: StreetOnPlan, view: View) -> Iterator[Text]:
    line, at = street.line, view.on_paper.apply
    a, b = readable(at(line.a), at(line.b))
    x, y = line.outward
    beyond = (street.edge_in or 0.0) / view.scale.factor
    for away in (*(beyond + out for out in _OUT), beyond - _WITHIN):
        for share in _STREET_SHARES:
            place = (
                a[0] + (b[0] - a[0]) * share + x * away,
                a[1] + (b[1] - a[1]) * share + y * away,
            )
            yield Text(
                street.name.upper(), place, SUBTITLE_HEIGHT, TEXT, "middle", direction_deg(a, b)
            )


def equipment_tags(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """The tag of each piece of equipment, led to its mark; they stand close together."""
    for item in _site(context).equipment:
        at = view.on_paper.apply(mark_center(item))
        name = equipment_block(item.id)
        label = Label((item.id,), at, MINIMUM_HEIGHT, TEXT, LEADER, names=name, end="dot")
        place = partial(_beside_lines, placer, [label], context, view)
        yield from or_unnamed(f"EQUIPMENT {item.id}", place)


def body_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """What each building and structure is, within its walls where there is room."""
    site, job = _site(context), context.design.inputs.job
    uses = {one.id: one.use.replace("_", " ").upper() for one in job.other_buildings}
    house, *others = site.buildings
    yield from _body_name(placer, context, view, house, HOUSE_WORDS[job.building.use])
    for one in others:
        yield from _body_name(placer, context, view, one, uses[one.id])
    words = {one.id: one.words.upper() for one in job.site_plan.structures} if job.site_plan else {}
    for one in site.structures:
        yield from _body_name(placer, context, view, one, words[one.id])


def _body_name(
    placer: LabelPlacer, context: SheetContext, view: View, body: Body, words: str
) -> Iterator[Marked]:
    ring = [view.on_paper.apply(point) for point in body.rings[0]]
    region = Region.of(ring)
    label = Label((words,), region.widest_spot, NOTE_HEIGHT, TEXT, LEADER, end="dot")
    tries = (
        partial(placer.place_inside, label, box_around(ring), within=region.holds),
        partial(_beside_lines, placer, [label], context, view),
    )
    yield from or_unnamed(words, partial(first_with_room, tries))


def area_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Driveways within them or beside them, arrays and the way of the fire service led to them."""
    site = _site(context)
    yield from _array_names(placer, context, view)
    if site.access_points:
        at = view.on_paper.apply(site.walk[-1])
        yield from _led(placer, "ROOF ACCESS\nPOINT", [at], context, view, _FIRE)
    if len(site.walk) > 1:
        a, b = map(view.on_paper.apply, site.walk[:2])
        anchors = [_between(a, b, share) for share in _WALK_SHARES]
        yield from _led(placer, "FIRE SERVICE\nWALK", anchors, context, view, _FIRE)
    for ring in site.driveways:
        corners = [view.on_paper.apply(point) for point in ring]
        yield from _led(placer, "DRIVEWAY", [Region.of(corners).widest_spot], context, view)


def _array_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Each array's name, led to the module in one of its corners."""
    for array in context.design.arrays:
        modules = sorted(array.modules, key=lambda one: (one.row, one.column))
        rows = [[m for m in modules if m.row == row] for row in (modules[0].row, modules[-1].row)]
        corners = [one for row in rows for one in (row[0], row[-1])]
        at = [on_paper(view, array.plane, one.surface).center for one in corners]
        words = f"PV ARRAY {array.id}\n{len(array.modules)} MODULES"
        yield from _led(placer, words, at, context, view)


def _led(
    placer: LabelPlacer,
    words: str,
    anchors: Sequence[Point],
    context: SheetContext,
    view: View,
    layer: str = TEXT,
) -> Iterator[Marked]:
    lines = tuple(words.splitlines())
    labels = [Label(lines, at, MINIMUM_HEIGHT, layer, LEADER, end="dot") for at in anchors]
    yield from or_unnamed(" ".join(lines), partial(_beside_lines, placer, labels, context, view))


def _beside_lines(
    placer: LabelPlacer, labels: Sequence[Label], context: SheetContext, view: View
) -> tuple[Primitive, ...]:
    """Words led to one of their anchors, outside of roofs and on no line of the lot.

    They stand nearby if they can, then anywhere, and on lines only for want of another place.
    """
    free = _on_no_outline(context, view)
    tries = []
    for reach, within in ((_NEARBY, free), (math.inf, free), (math.inf, None)):
        for label in labels:
            x, y = label.anchor
            region = view.frame.shared(Box(x - reach, y - reach, x + reach, y + reach))
            near = partial(placer.place_near, label, region, always_led=True, within=within)
            tries.append(near)
    return first_with_room(tries)


def _on_no_outline(context: SheetContext, view: View) -> Within:
    """Tells of a box on paper whether it lies beside all roofs and on no line of the lot."""
    site, at = _site(context), view.on_paper.apply
    rings = [*site.driveways, *(ring for one in site.structures for ring in one.rings)]
    rings += setback_rings(site)
    outlines = [Region.of(map(at, ring)) for ring in rings]
    beside = outside_of_roofs(context.design.roof, view)
    lines = [*pairwise(site.walk), *((line.a, line.b) for line in site.lines)]
    lines += [edge for street in site.streets if (edge := street_edge(street))]
    drawn = [(at(a), at(b)) for a, b in lines]

    def free(box: Box) -> bool:
        if not beside(box) or any(one.meets(box) and not one.holds(box) for one in outlines):
            return False
        words = Region.of(box.corners)
        return not any(words.crossed_by(a, b) for a, b in drawn)

    return free


def _first(placer: LabelPlacer, places: list[Text]) -> tuple[Primitive, ...]:
    if not places:
        msg = "no place lies in the view"
        raise NoRoomError(msg)
    return (placer.place_first(places),)


def _between(a: Point, b: Point, share: float = 0.5) -> Point:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def _site(context: SheetContext) -> Site:
    """The lot of the job.

    Raises:
        ValueError: The job describes none.
    """
    if context.design.site is None:
        msg = "the job describes no lot; add site_plan"
        raise ValueError(msg)
    return context.design.site


def reserve_arrays(placer: LabelPlacer, context: SheetContext, view: View) -> None:
    """Keep words off the arrays."""
    for array in context.design.arrays:
        placer.reserve(on_paper(view, array.plane, array.frames))
