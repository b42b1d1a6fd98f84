"""Clouds around what the newest revision changed, and deltas beside what any revision did."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from operator import itemgetter

from planset.drawing.along_box import above_and_below, across, anywhere_in, beside, inside
from planset.drawing.dimension import leader
from planset.drawing.flatten import course, rotated_text_box
from planset.drawing.geometry import Box, box_around, toward, united
from planset.drawing.labels import LabelPlacer, first_with_room
from planset.drawing.page import TitleBlock
from planset.drawing.primitives import Block, Polyline, Primitive
from planset.drawing.revision_marks import (
    ARCS_REACH,
    DELTA_HEIGHT,
    DELTA_LAYER,
    NUMBER_AT,
    cloud,
    delta,
    delta_box,
    delta_number,
)
from planset.sheets.changes import Marks, changes, marks, newest_number
from planset.sheets.context import SheetContext, SheetDrawing, SheetEntry, base_id
from planset.sheets.lettering import beside_views
from planset.sheets.named_places import Place, named_places
from planset.sheets.plan_blocks import array_block

_MARGINS = (0.12, 0.1, 0.08, 0.06, 0.05, 0.04, 0.03, 0.02, 0.16)  # tried, the best first [in]
_ARCS = (1.0, 0.7)  # times as large as usual, tried the larger first
_TOGETHER = 0.3  # what is nearer to each other shares a cloud if nothing stands between [in]
_OUTSIDE, _INSIDE = 0.08, 0.03  # from the sides of a cloud to a delta [in]
_HAIR = 0.01  # kept free around a delta [in]
_ROWS = 0.2  # between the words of two rows, at most: less than a row is high [in]
_COARSE = 0.1  # scale at which the arcs of clouds that are only tried are made chords
_EDGE = 0.04  # of a strip between two things, which their own lines may take [in]


def marked(
    context: SheetContext,
    drawn: Sequence[tuple[SheetEntry, SheetDrawing]],
    blocks: Mapping[str, Block],
) -> list[tuple[SheetEntry, SheetDrawing]]:
    """The sheets with clouds and deltas where the job names what changed.

    Clouds of earlier revisions are taken off and their deltas stay (common practice, no source).

    Args:
        context: The job and its title block.
        drawn: Every sheet, with those that each runs over to.
        blocks: The blocks their insertions name.

    Raises:
        JobErrors: Something that is said to have changed stands nowhere on its sheet.
        NoRoomError: There is no free place for a delta.
    """
    inputs = context.design.inputs
    sheets = {one.sheet for one in changes(inputs) if one.names}
    called = {array_block(array.id): array.id for array in context.design.arrays}
    pages = {
        entry.id: named_places(drawing, blocks, called)
        for entry, drawing in drawn
        if base_id(entry.id) in sheets
    }
    of_pages = marks(inputs, pages)
    size = beside_views(context)
    newest = newest_number(inputs)

    def with_its_marks(sheet: str, drawing: SheetDrawing) -> SheetDrawing:
        if sheet not in of_pages:
            return drawing
        marker = _Marker(drawing, context.titleblock, blocks, size)
        return marker.marked(of_pages[sheet], newest)

    return [(entry, with_its_marks(entry.id, drawing)) for entry, drawing in drawn]


class _Marker:
    """Draws the marks of one page, in a view as its annotation, beside views on paper."""

    def __init__(
        self,
        drawing: SheetDrawing,
        titleblock: TitleBlock,
        blocks: Mapping[str, Block],
        size: float,
    ) -> None:
        self._drawing, self._size = drawing, size
        self._views = {view.number: view for view in drawing.views}
        self._rooms = {view.number: view.frame for view in drawing.views}
        self._rooms[0] = titleblock.drawing_area
        self._placers: dict[int, LabelPlacer] = {}
        self._clouds: list[Box] = []
        self._made: dict[int, list[Primitive]] = {view: [] for view in self._rooms}
        self._blocks = blocks

    def marked(self, of_page: Marks, newest: int) -> SheetDrawing:
        """The page with its marks, all clouds drawn before the deltas look for a place."""
        waiting: list[tuple[int, int, Box, bool]] = []
        for number, places in of_page.items():
            for view in dict.fromkeys(map(_drawn_in, places)):
                boxes = [place.box for place in places if _drawn_in(place) == view]
                for box in _united(boxes, _TOGETHER * self._size, self._placer(view).is_clear):
                    if number == newest:
                        line = self._cloud(view, box)
                        waiting.append((number, view, box_around(line.points), True))
                    else:
                        waiting.append((number, view, box, False))
        for number, view, box, in_cloud in waiting:
            self._delta(number, view, box, led=in_cloud)
        made = self._made
        views = tuple(
            replace(view, annotation=(*view.annotation, *made[view.number]))
            for view in self._drawing.views
        )
        return replace(self._drawing, views=views, paper=(*self._drawing.paper, *made[0]))

    def _cloud(self, view: int, box: Box) -> Polyline:
        """Draw the cloud that runs over no other and over the fewest words.

        One that the frame of its view would cut stands on paper.
        """
        whole = box.grown((max(_MARGINS) + ARCS_REACH) * self._size)
        where = view if self._rooms[view].contains(whole) else 0
        room = self._rooms[where]
        placers = [self._placer(number) for number in sorted({view, where})]

        def amiss(line: Polyline) -> tuple[int, ...]:
            points = course(line, _COARSE)
            covered = box_around(points)
            crossed = [placer.words_crossed(points) for placer in placers]
            return (sum(map(covered.overlaps, self._clouds)), *map(sum, zip(*crossed, strict=True)))

        tried = []
        for arcs in _ARCS:
            for margin in _MARGINS:
                line = cloud(box.grown(margin * self._size), room, arcs * self._size)
                tried.append((amiss(line), line))
                if not any(tried[-1][0]):
                    break
        _, best = min(tried, key=itemgetter(0))
        self._clouds.append(box_around(course(best, 1.0)))
        for placer in placers:
            placer.keep_clear([best], {})
        self._made[where].append(best)
        return best

    def _delta(self, number: int, view: int, box: Box, *, led: bool) -> None:
        """Draw a delta close to a box, else beside its view, else at the nearest place with room.

        That one is led to the box where it can be.
        """
        height = DELTA_HEIGHT * self._size
        close_to = [(view, box), (0, self._rooms[view])] if view else [(view, box)]
        for where, sides in close_to:
            if spot := self._spot(number, where, sides):
                self._placer(where).reserve(spot)
                self._made[where].append(delta(number, (spot.center[0], spot.y0), height))
                return
        corner = (box.x1, box.y1)
        placer = self._placer(view)
        symbol, size = delta(number, corner, height), delta_box(number, height)
        far = partial(placer.place_symbol, symbol, size, self._rooms[view])
        clear = partial(far, within=partial(_number_is_clear, number, placer))
        ways = [partial(clear, led_to=corner), clear, far] if led else [clear, far]
        placed, _ = first_with_room(ways)
        crowded = not _number_is_clear(number, placer, size.moved(*placed.at))
        self._made[view].append(delta(number, placed.at, height, crowded=crowded))
        middle = (placed.at[0], placed.at[1] + height / 2)
        line = (toward(middle, corner, height / 2), corner)
        if led and not placer.words_crossed(line)[0]:
            drawn = leader(line, DELTA_LAYER)
            placer.keep_clear([drawn], {})
            self._made[view].append(drawn)

    def _spot(self, number: int, view: int, box: Box) -> Box | None:
        """Where a delta stands clear of lines along the sides of a box, else its number does.

        Beside views it stands inside, or across, before it stands over or under: there it would
        seem to belong to the row of a table that did not change.
        """
        placer, room = self._placer(view), self._rooms[view]
        size = delta_box(number, DELTA_HEIGHT * self._size)
        ring, inner = box.grown(_OUTSIDE * self._size), box.grown(-_INSIDE)
        outside = [beside(ring, size), above_and_below(ring, size)]
        within = inside(inner, size)

        def is_clear(spot: Box) -> bool:
            return placer.is_clear(spot.grown(_HAIR))

        is_readable = partial(_number_is_clear, number, placer)

        def is_over_lines(spot: Box) -> bool:
            return is_readable(spot) and not placer.holds_words(spot.grown(_HAIR))

        def is_over_thin_lines(spot: Box) -> bool:
            return is_readable(spot) and placer.is_free(spot.grown(_HAIR))

        kept_in = [(within, is_clear), (across(inner, size, NUMBER_AT), is_over_lines)]
        kept_out = [(spots, is_clear) for spots in outside]
        tries = [*kept_out, *kept_in] if view else [kept_out[0], *kept_in, kept_out[1]]
        tries.append((anywhere_in(inner, size), is_clear))
        tries.append(([*outside[0], *within, *outside[1]], is_over_thin_lines))
        kept = ((spot, test) for spots, test in tries for spot in spots)
        return next(
            (spot for spot, test in kept if room.contains(spot.grown(_HAIR)) and test(spot)), None
        )

    def _placer(self, number: int) -> LabelPlacer:
        """What knows of everything drawn in a view, or beside views."""
        if number not in self._placers:
            placer = LabelPlacer(self._rooms[number])
            if number:
                view = self._views[number]
                placer.keep_clear(view.model, self._blocks, view.on_paper)
                placer.keep_clear(view.annotation, self._blocks)
            else:
                placer.keep_clear(self._drawing.paper, self._blocks)
                for view in self._drawing.views:
                    placer.reserve(view.frame)
            self._placers[number] = placer
        return self._placers[number]


def _number_is_clear(number: int, placer: LabelPlacer, spot: Box) -> bool:
    """Whether nothing is drawn where the number of a delta would stand."""
    text = delta_number(number, (spot.center[0], spot.y0), spot.height)
    return placer.is_clear(rotated_text_box(text).grown(_HAIR))


def _drawn_in(place: Place) -> int:
    """The view whose annotation the marks of a place are, 0 for marks on paper."""
    return 0 if place.is_view else place.view


def _united(boxes: Iterable[Box], gap: float, is_clear: Callable[[Box], bool]) -> list[Box]:
    """Boxes with those made one that are near to each other with nothing drawn between."""
    left = list(boxes)
    made: list[Box] = []
    while left:
        box = left.pop(0)
        near = next((one for one in left if _is_near(box, one, gap, is_clear)), None)
        if near:
            left.remove(near)
            left.insert(0, united([box, near]))
        else:
            made.append(box)
    return made


def _is_near(one: Box, other: Box, gap: float, is_clear: Callable[[Box], bool]) -> bool:
    """Whether two boxes are like rows of a table, or nothing is drawn in a strip between them."""
    if one.grown(_ROWS / 2).overlaps(other.grown(_ROWS / 2)):
        return True
    if not one.grown(gap / 2).overlaps(other.grown(gap / 2)):
        return False
    shared = one.shared(other)  # turned inside out across the strip
    between = Box(
        min(shared.x0, shared.x1),
        min(shared.y0, shared.y1),
        max(shared.x0, shared.x1),
        max(shared.y0, shared.y1),
    )
    return is_clear(between.grown(-_EDGE))
