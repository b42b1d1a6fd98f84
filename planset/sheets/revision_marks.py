"""Clouds around what the newest revision changed, and deltas beside what any revision did."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import product
from operator import itemgetter

from planset.drawing.along_box import above_and_below, across, anywhere_in, beside, inside
from planset.drawing.dimension import leader
from planset.drawing.flatten import course, rotated_text_box
from planset.drawing.free_boxes import left_of
from planset.drawing.geometry import Box, Point, box_around, toward, united
from planset.drawing.labels import LabelPlacer, NoRoomError
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
from planset.second_process import done_by_two
from planset.sheets.changes import Marks, changes, marks, newest_number
from planset.sheets.context import SheetContext, SheetDrawing, SheetEntry, base_id
from planset.sheets.lettering import beside_views
from planset.sheets.named_places import Place, named_places
from planset.sheets.plan_blocks import array_block

_MARGINS = (0.12, 0.1, 0.08, 0.06, 0.05, 0.04, 0.03, 0.02, 0.16)  # tried, the best first [in]
_ARCS = (1.0, 0.7)  # times as large as usual, tried the larger first
_OFF_WORDS = 0.04  # from a cloud to what is outside of it, where there is room [in]
_TOGETHER = 0.3  # what is nearer to each other shares a cloud if nothing stands between [in]
_OUTSIDE, _INSIDE = 0.08, 0.03  # from the sides of a cloud to a delta [in]
_HAIR = 0.01  # kept free around a delta [in]
_ROWS = 0.2  # between the words of two rows, at most: less than a row is high [in]
_COARSE = 0.1  # scale at which the arcs of clouds that are only tried are made chords
_EDGE = 0.04  # what the lines of two things may take of what is left between them [in]


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
        marker = _Marker(drawing, context.titleblock, blocks, size)
        return marker.marked(of_pages[sheet], newest)

    tasks = {
        entry.id: partial(with_its_marks, entry.id, drawing)
        for entry, drawing in drawn
        if entry.id in of_pages
    }
    made = dict(zip(tasks, done_by_two(list(tasks.values())), strict=True))
    return [(entry, made.get(entry.id, drawing)) for entry, drawing in drawn]


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
        waiting: list[tuple[int, Place, bool]] = []
        for number, places in of_page.items():
            for view, is_view in dict.fromkeys((one.view, one.is_view) for one in places):
                boxes = [p.box for p in places if (p.view, p.is_view) == (view, is_view)]
                room = 0 if is_view else view
                for box in _united(boxes, _TOGETHER * self._size, self._placer(room).is_clear):
                    in_cloud = number == newest
                    sides = box_around(self._cloud(room, box).points) if in_cloud else box
                    waiting.append((number, Place(view, sides, is_view), in_cloud))
        for number, place, in_cloud in waiting:
            self._delta(number, place, led=in_cloud)
        made = self._made
        views = tuple(
            replace(view, annotation=(*view.annotation, *made[view.number]))
            for view in self._drawing.views
        )
        return replace(self._drawing, views=views, paper=(*self._drawing.paper, *made[0]))

    def _cloud(self, view: int, box: Box) -> Polyline:
        """Draw the cloud that runs over no other and over the fewest words, nor close to some.

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

        tried: list[tuple[tuple[int, ...], Polyline]] = []
        for arcs, margin in product(_ARCS, _MARGINS):
            line, around = (
                cloud(box.grown(by * self._size), room, arcs * self._size)
                for by in (margin, margin + _OFF_WORDS)
            )
            wrong = amiss(line)
            if any(wrong > of_other[: len(wrong)] for of_other, _ in tried):
                continue  # what is around it can't make up for that
            tried.append(((*wrong, *amiss(around)), line))
            if not any(tried[-1][0]):
                break
        _, best = min(tried, key=itemgetter(0))
        self._clouds.append(box_around(course(best, 1.0)))
        for number in self._rooms:
            self._placer(number).keep_clear([best], {})
        self._made[where].append(best)
        return best

    def _delta(self, number: int, place: Place, *, led: bool) -> None:
        """Draw a delta close to a place, on paper or in its view, else as near as there is room."""
        height = DELTA_HEIGHT * self._size
        view, box = place.view, place.box
        beside_it = (0, box if place.is_view or not view else self._rooms[view])
        close_to = [beside_it, (view, box)] if place.is_view else [(view, box), beside_it]
        for where, sides in dict.fromkeys(close_to):
            if spot := self._spot(number, where, sides):
                self._placer(where).reserve(spot)
                self._made[where].append(delta(number, (spot.center[0], spot.y0), height))
                return
        where = 0 if place.is_view else view
        self._made[where] += self._far_delta(number, where, (box.x1, box.y1), led=led)

    def _far_delta(self, number: int, view: int, corner: Point, *, led: bool) -> list[Primitive]:
        """The delta nearest to a corner that has room in a view, its number clear if it can be."""
        placer, height = self._placer(view), DELTA_HEIGHT * self._size
        symbol, size = delta(number, corner, height), delta_box(number, height)
        far = partial(placer.place_symbol, symbol, size, self._rooms[view])
        is_clear = partial(_number_is_clear, number, placer)

        def may_be_led(spot: Box) -> bool:
            way = united([spot, Box(*corner, *corner)])
            frames = [one.frame for one in self._drawing.views if one.number != view]
            return is_clear(spot) and not any(way.overlaps(frame) for frame in frames)

        if led:
            with suppress(NoRoomError):
                at = far(within=may_be_led, led_to=corner)[0].at
                middle = (at[0], at[1] + height / 2)
                line = leader((toward(middle, corner, height / 2), corner), DELTA_LAYER)
                placer.keep_clear([line], {})
                return [delta(number, at, height), line]
        with suppress(NoRoomError):
            return [delta(number, far(within=is_clear)[0].at, height)]
        placed, crowded = far()
        return [delta(number, placed.at, height, crowded=crowded)]

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
        spots_in = anywhere_in(inner, size)
        over_rules = (spots_in, is_over_lines)  # of the rows that changed
        tries = [*kept_out, *kept_in] if view else [kept_out[0], *kept_in, over_rules, kept_out[1]]
        tries.append((spots_in, is_clear))
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


def _united(boxes: Iterable[Box], gap: float, is_clear: Callable[[Box], bool]) -> list[Box]:
    """Boxes with those made one that may share a cloud."""
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
    """Whether two boxes may share a cloud that goes around nothing else.

    They overlap, or are rows of one table that follow each other, or nothing is drawn in what is
    left of the box around both.
    """
    if one.overlaps(other):
        return True
    apart = max(one.y0 - other.y1, other.y0 - one.y1)
    in_column = max(abs(one.x0 - other.x0), abs(one.x1 - other.x1)) < _EDGE
    if in_column and apart < _ROWS:
        return True
    if not one.grown(gap / 2).overlaps(other.grown(gap / 2)):
        return False
    rest = left_of(left_of([united([one, other])], one), other, 2 * _EDGE)
    return all(is_clear(box.grown(-_EDGE)) for box in rest)
