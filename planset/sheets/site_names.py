"""Words around the buildings: streets and driveways, other buildings, openings in walls."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from planset.design.walls import buildings
from planset.drawing.flatten import rotated_text_box
from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.labels import Label, LabelPlacer, first_with_room
from planset.drawing.leader_course import ends_inside
from planset.drawing.page import View
from planset.drawing.primitives import Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SUBTITLE_HEIGHT
from planset.sheets.context import SheetContext
from planset.sheets.plan_blocks import roof_extent
from planset.sheets.plan_walls import below_block, escape_block, roof_given
from planset.sheets.unnamed import Marked, or_unnamed

if TYPE_CHECKING:
    from planset.job.building import EscapeOpening, OpeningBelow

_TEXT = "A-ANNO-TEXT"
_LEADER = "A-ANNO-NOTE"
_AT_FRAME = 0.05  # of words along the frame of their view from it [paper in]
_OFF_BUILDING = (0.12, 0.45, 0.8, 1.15)  # of a building's name from its roof [paper in]
_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)
_LED_TRIED = 3  # of these parts of an opening, for a leader


def side_words(context: SheetContext, view: View, cut: Iterable[str]) -> Iterator[Text]:
    """Street and driveway, along the sides of the plan they lie on.

    Args:
        context: What the sheet is given.
        view: The view.
        cut: Sides where another part of the plan goes on, "left", "right", "top" or "bottom".
    """
    site, frame = context.design.inputs.job.site, view.frame
    corners = (view.on_paper.apply(corner) for corner in roof_extent(context.design).corners)
    x, y = box_around(corners).shared(frame).center
    half = SUBTITLE_HEIGHT / 2 + _AT_FRAME
    places: dict[str, tuple[str, Point, float]] = {
        "front": ("bottom", (x, frame.y0 + half), 0.0),
        "back": ("top", (x, frame.y1 - half), 0.0),
        "left": ("left", (frame.x0 + half, y), 90.0),
        "right": ("right", (frame.x1 - half, y), 90.0),
    }
    for side, (edge, at, turn) in places.items():
        named = (("STREET SIDE", site.street_sides), ("DRIVEWAY", site.driveway_sides))
        words = ", ".join(word for word, sides in named if side in sides)
        if words and edge not in set(cut):
            yield Text(words, at, SUBTITLE_HEIGHT, _TEXT, "middle", turn)


def building_names(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """The name of each building where there are several."""
    roof = context.design.roof
    listed = buildings(roof)
    uses = {other.id: other.use for other in context.design.inputs.job.other_buildings}
    for building in listed if len(listed) > 1 else ():
        words = _building_words(building, uses)
        corners = (corner for plane in roof.planes_of(building) for corner in plane.outline)
        box = box_around(view.on_paper.apply(corner) for corner in corners)
        places = [text for text in _around(words, box) if _fits(view.frame, text)]
        if places:
            yield from or_unnamed(words, partial(_first, placer, places))


def _building_words(building: str, uses: Mapping[str, str]) -> str:
    if not building:
        return "HOUSE"
    use = uses[building].replace("_", " ").upper()
    name = building.replace("_", " ").upper()
    return f"{name} ({use})" if name not in use else use


def _first(placer: LabelPlacer, places: list[Text]) -> tuple[Primitive, ...]:
    return (placer.place_first(places),)


def _fits(frame: Box, text: Text) -> bool:
    return frame.contains(rotated_text_box(text))


def _around(words: str, box: Box) -> Iterator[Text]:
    """Above a building, or below it, ever farther out; at last on it."""
    for off in (*_OFF_BUILDING, *(-out for out in _OFF_BUILDING)):
        for level in (box.y1 + off + NOTE_HEIGHT / 2, box.y0 - off - NOTE_HEIGHT / 2):
            for share in _SHARES:
                at = (box.x0 + share * box.width, level)
                yield Text(words, at, SUBTITLE_HEIGHT, _TEXT, "middle")


def opening_labels(placer: LabelPlacer, context: SheetContext, view: View) -> Iterator[Marked]:
    """Escape openings as EERO, windows and doors below eaves by their kind."""
    roof, job = context.design.roof, context.design.inputs.job
    for n, item in enumerate(job.building.escape_openings_onto_roof):
        plane = roof.plane(item.plane)
        ends = [view.on_paper.apply(plane.to_plan((u, item.up))) for u in _along(item)]
        yield from _led(placer, "EERO", ends, escape_block(n), view)
    for n, below in enumerate(job.building.openings_below_eaves or ()):
        plane = roof.plane(below.plane)
        inward = roof_given(context.design, plane.building).eave_overhang * plane.slope_factor
        ends = [view.on_paper.apply(plane.to_plan((u, inward))) for u in _along(below)]
        yield from _led(placer, f"{below.kind.upper()} BELOW", ends, below_block(n), view)


def _along(item: EscapeOpening | OpeningBelow) -> list[float]:
    """Where on an opening a leader may end, best first [in]."""
    return [item.along + share * item.width for share in _SHARES[:_LED_TRIED]]


def _led(
    placer: LabelPlacer, words: str, ends: Sequence[Point], names: str, view: View
) -> Iterator[Marked]:
    shown = [at for at in ends if ends_inside(view.frame, at)]
    if shown:
        label = Label((words,), shown[0], MINIMUM_HEIGHT, _TEXT, _LEADER, names=names, end="dot")
        led = partial(placer.place_near, region=view.frame, always_led=True)
        tries = (partial(led, replace(label, anchor=at)) for at in shown)
        yield from or_unnamed(words, partial(first_with_room, tries))
