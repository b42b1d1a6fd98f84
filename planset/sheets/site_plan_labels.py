"""Words on the site plan; each steps aside for what is already drawn."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planset.design.site import Body, StreetOnPlan
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Point, box_around, direction_deg, distance, readable
from planset.drawing.labels import Label, LabelPlacer, NoRoomError, first_with_room
from planset.drawing.page import View
from planset.drawing.primitives import Primitive, Text
from planset.drawing.region import Region
from planset.drawing.text import NOTE_HEIGHT, SUBTITLE_HEIGHT
from planset.sheets.edge_names import places_along
from planset.sheets.module_tags import on_paper
from planset.sheets.site_blocks import mark_box, triangle
from planset.sheets.site_equipment_tags import equipment_tags
from planset.sheets.site_words import LEADER, TEXT, OnSitePlan
from planset.sheets.unnamed import Marked, or_unnamed
from planset.units import format_feet_inches

_HOUSE_WORDS = {
    "one_family_dwelling": "ONE-FAMILY DWELLING",
    "two_family_dwelling": "TWO-FAMILY DWELLING",
    "townhouse": "TOWNHOUSE",
    "other": "BUILDING",
}
_FIRE = "F-ANNO-TEXT"
_OUT = (0.14, 0.26, 0.4)  # of a street's name from its property line or pavement [paper in]
_WITHIN = 0.2  # of such a name before the pavement, for want of room beyond [paper in]
_STREET_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)
_WALK_SHARES = (0.5, 0.3, 0.7)


def reserve(plan: OnSitePlan) -> None:
    """Keep words off arrays and marks."""
    for array in plan.design.arrays:
        plan.placer.reserve(on_paper(plan.view, array.plane, array.frames))
    for item in plan.site.equipment:
        plan.placer.reserve(plan.box(mark_box(item).corners))
    for point in plan.site.access_points:
        plan.placer.reserve(plan.box(triangle(point)))


def labels(plan: OnSitePlan) -> Iterator[Marked]:
    """All words of the plan, those first that can move the least."""
    yield from _lot_line_names(plan)
    yield from _street_names(plan)
    yield from equipment_tags(plan)
    yield from _body_names(plan)
    yield from _access_words(plan)
    yield from _array_names(plan)
    for ring in plan.site.driveways:
        corners = [plan.view.on_paper.apply(point) for point in ring]
        yield from plan.led("DRIVEWAY", [Region.of(corners).widest_spot])


def bearing_words(bearing_deg: float) -> str:
    """A bearing to the degree, as `N 80 DEG E`; DXF readers differ on the degree sign."""
    whole = round(bearing_deg) % 360
    north = whole <= 90 or whole >= 270
    angle = min(whole % 180, 180 - whole % 180)
    return f"{'N' if north else 'S'} {angle} DEG {'E' if whole < 180 else 'W'}"


def _lot_line_names(plan: OnSitePlan) -> Iterator[Marked]:
    """Tag, bearing and length along each property line, outside of the lot where there is room."""
    azimuth = plan.design.inputs.job.roof.front_azimuth
    view, placer = plan.view, plan.placer
    for line in plan.site.lines:
        length = format_feet_inches(line.length_in, denominator=1)
        words = f"{line.id}  {bearing_words(line.bearing_deg(azimuth))}  {length}"
        first, last = view.on_paper.apply(line.a), view.on_paper.apply(line.b)
        a, b = readable(first, last)
        outside = -1.0 if a == first else 1.0
        shown = _shown(places_along(words, a, b, TEXT, (outside, -outside)), view)
        label = Label((words,), _between(a, b), NOTE_HEIGHT, TEXT, LEADER)
        tries = (
            partial(_first, placer, shown),
            partial(placer.place_near, label, view.frame, always_led=True),
        )
        yield from or_unnamed(words, partial(first_with_room, tries))


def _street_names(plan: OnSitePlan) -> Iterator[Marked]:
    """Each street's name along its property line, beyond the edge of its pavement."""
    for street in plan.site.streets:
        shown = _shown(_street_places(street, plan.view), plan.view)
        yield from or_unnamed(f"STREET {street.name.upper()}", partial(_first, plan.placer, shown))


def _street_places(street: StreetOnPlan, view: View) -> list[Text]:
    line, at = street.line, view.on_paper.apply
    a, b = readable(at(line.a), at(line.b))
    beyond = (street.edge_in or 0.0) / view.scale.factor
    made = []
    for away in (*(beyond + out for out in _OUT), beyond - _WITHIN):
        for share in _STREET_SHARES:
            x, y = _between(a, b, share)
            place = (x + line.outward[0] * away, y + line.outward[1] * away)
            turn = direction_deg(a, b)
            made.append(Text(street.name.upper(), place, SUBTITLE_HEIGHT, TEXT, "middle", turn))
    return made


def _body_names(plan: OnSitePlan) -> Iterator[Marked]:
    """What each building and structure is, within its walls where there is room."""
    site, job = plan.site, plan.design.inputs.job
    uses = {one.id: one.use.replace("_", " ").upper() for one in job.other_buildings}
    house, *others = site.buildings
    yield from _body_name(plan, house, _HOUSE_WORDS[job.building.use])
    for one in others:
        yield from _body_name(plan, one, uses[one.id])
    words = {one.id: one.words.upper() for one in job.site_plan.structures} if job.site_plan else {}
    for one in site.structures:
        yield from _body_name(plan, one, words[one.id])


def _body_name(plan: OnSitePlan, body: Body, words: str) -> Iterator[Marked]:
    ring = [plan.view.on_paper.apply(point) for point in body.rings[0]]
    region = Region.of(ring)
    label = Label((words,), region.widest_spot, NOTE_HEIGHT, TEXT, LEADER, end="dot")
    tries = (
        partial(plan.placer.place_inside, label, box_around(ring), within=region.holds),
        partial(plan.beside_lines, [label]),
    )
    yield from or_unnamed(words, partial(first_with_room, tries))


def _access_words(plan: OnSitePlan) -> Iterator[Marked]:
    """Where the roof is climbed, named where the least is drawn around it, and the way there."""
    walk = plan.site.walk
    marks = [plan.box(triangle(point)) for point in plan.site.access_points]
    if marks:
        ways = [*walk, *(corner for ring in plan.site.driveways for corner in ring)]
        around = [plan.view.on_paper.apply(point) for point in ways]
        marks.sort(key=lambda box: -min((distance(box.center, one) for one in around), default=0.0))
        house = plan.box(plan.site.buildings[0].rings[0]).center
        tips = [max(_edges(box), key=lambda at: distance(at, house)) for box in marks]
        yield from plan.led("ROOF ACCESS\nPOINT", tips, _FIRE)
    if len(walk) > 1:
        a, b = map(plan.view.on_paper.apply, walk[:2])
        anchors = [_between(a, b, share) for share in _WALK_SHARES]
        yield from plan.led("FIRE SERVICE\nWALK", anchors, _FIRE)


def _edges(box: Box) -> tuple[Point, ...]:
    """The middles of a box's lower and upper edge, a little inside."""
    (x, y), rise = box.center, 0.35 * box.height
    return ((x, y - rise), (x, y + rise))


def _array_names(plan: OnSitePlan) -> Iterator[Marked]:
    """Each array's name, led to a module in a corner, far from where a roof is climbed."""
    marks = [plan.view.on_paper.apply(point) for point in plan.site.access_points]
    for array in plan.design.arrays:
        modules = sorted(array.modules, key=lambda one: (one.row, one.column))
        rows = [[m for m in modules if m.row == row] for row in (modules[0].row, modules[-1].row)]
        corners = [one for row in rows for one in (row[0], row[-1])]
        at = [on_paper(plan.view, array.plane, one.surface).center for one in corners]
        at.sort(key=lambda point: -min((distance(point, one) for one in marks), default=0.0))
        yield from plan.led(f"PV ARRAY {array.id}\n{len(array.modules)} MODULES", at)


def _shown(places: list[Text], view: View) -> list[Text]:
    return [text for text in places if view.frame.contains(rotated_text_box(text))]


def _first(placer: LabelPlacer, places: list[Text]) -> tuple[Primitive, ...]:
    if not places:
        msg = "no place lies in the view"
        raise NoRoomError(msg)
    return (placer.place_first(places),)


def _between(a: Point, b: Point, share: float = 0.5) -> Point:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
