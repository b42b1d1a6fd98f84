"""Which views, tables and notes of the electrical plan stand on which page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import chain, permutations, product, repeat

from planset.drawing.enlarge import reduced
from planset.drawing.fit import Part, ViewTooLargeError
from planset.drawing.geometry import Box
from planset.drawing.notes import Section, flow
from planset.drawing.primitives import Primitive
from planset.drawing.stack import TableAt, merged, stack
from planset.sheets.context import SheetContext, continued_id
from planset.sheets.electrical_plan_tables import spaces_table, tables
from planset.sheets.electrical_plan_view import fitted_parts
from planset.sheets.electrical_plan_wall_place import PlacedWall, Wall, walls_at, walls_of
from planset.sheets.electrical_plan_wide import NoRoomBelowError, Wide, drawn_wide, notes_section
from planset.sheets.lettering import beside_views
from planset.sheets.note_table import LINE_LAYER, TEXT_LAYER

TITLE_STRIP = 0.85  # under a plan: its title [in]
GAP = 0.16  # between tables [in]

_PLAN_TITLE = "ROOF, ELECTRICAL PLAN"
_COLUMN = 2.75  # width of the tables' column, words at their least [in]
_WIDER = (1.5, 1.25, 1.0)  # times as wide, while the plan keeps its scale
_LEAST_NOTES = 1.5  # height of the end of a column in which notes begin [in]
_FOLDS = tuple(product((True, False), (False, True), (True, False)))
"""Whether walls are shown whole, whether tables stand below the views, too, and whether walls have
the largest scale that fits; best first."""
_APART = 0.15  # of views and tables [in]
_LEAST_PLAN = 9.1  # beside wider tables, for the plan's title, scale and north arrow [in]
_LEAST_STRIP = 1.6  # height below a plan that is worth using [in]
_LEAST_COLUMN = 2.5  # height of a column of tables, words at their least [in]


@dataclass(frozen=True, slots=True)
class PageLayout:
    """What stands on a page, and where.

    Attributes:
        columns: Where tables go [paper in].
        part: The plan or a part of it.
        walls: Walls.
        free: What is left below or beside the views [paper in].
        wide: What stands there at the width there is, before enlargement.
    """

    columns: tuple[Box, ...] = ()
    part: Part | None = None
    walls: tuple[PlacedWall, ...] = ()
    free: tuple[Box, ...] = ()
    wide: tuple[tuple[Wide, tuple[Primitive, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """The pages with views, and how wide tables are on them and beyond.

    Attributes:
        sheet: Id of the first page.
        pages: The pages.
        column: Width of a column of tables [in].
        lettering: How many times as large words are drawn.
        notes: Cautions and notes.
    """

    sheet: str
    pages: tuple[PageLayout, ...]
    column: float
    lettering: float
    notes: Section

    def listed(
        self, context: SheetContext, unnamed: Sequence[str], undrawn: Sequence[str]
    ) -> tuple[tuple[Primitive, ...], ...]:
        """Tables and what has no place below a view, page by page, before enlargement."""
        placed = [block for page in self.pages for block, _ in page.wide]
        made: list[TableAt] = tables(context, unnamed, undrawn, self._walls_on)
        if context.design.inputs.job.electrical.walls and Wide.SPACES not in placed:
            made.append(partial(spaces_table, context.design))
        beside = [self._reduced(page.columns) for page in self.pages]
        further = self._reduced(_columns(context.area, self.column))
        listed = stack(made, chain(beside, repeat(further)), GAP, broken=True)
        if Wide.NOTES in placed:
            return listed.pages
        ends = [tuple(box for box in page if box.height >= _LEAST_NOTES) for page in listed.ends]
        ends[-1] += listed.rest
        rest = chain(ends, beside[len(ends) :], repeat(further))
        noted = flow((self.notes,), rest, TEXT_LAYER, LINE_LAYER)
        return merged(listed.pages, noted.pages)

    @property
    def _walls_on(self) -> str:
        """The first sheet with walls, "" where that is the first of all."""
        with_walls = [number for number, page in enumerate(self.pages) if page.walls]
        return continued_id(self.sheet, with_walls[0]) if with_walls and with_walls[0] else ""

    def _reduced(self, boxes: Sequence[Box]) -> tuple[Box, ...]:
        return tuple(reduced(box, self.lettering) for box in boxes)


def laid_out(context: SheetContext, sheet: str) -> Layout:
    """The layout with the fewest pages; of these the one with the widest tables.

    Args:
        context: What the sheet is given.
        sheet: Id of the first page.
    """
    best: tuple[int, Layout] | None = None
    for layout in _layouts(context, sheet):
        count = max(len(layout.pages), len(layout.listed(context, (), ())))
        if best is None or count < best[0]:
            best = (count, layout)
        if count == sum(page.part is not None for page in layout.pages):
            break
    assert best is not None, "the narrowest column is always tried"
    return best[1]


def _layouts(context: SheetContext, sheet: str) -> Iterator[Layout]:
    lettering, noted = beside_views(context), notes_section(context)
    least = _COLUMN * lettering
    plain = _parts(context, least)
    for width in (least * wider for wider in _WIDER):
        parts = _parts(context, width)
        if width > least and context.area.width - width < _LEAST_PLAN:
            continue
        if len(parts) > len(plain) or parts[0].view.scale != plain[0].view.scale:
            continue
        for (whole, more, large), wide in product(_FOLDS, permutations(Wide)):
            pages = _pages(context, parts, width, whole=whole, large=large)
            for block in wide:
                pages = _with_wide(context, pages, block, noted, lettering)
            if more:
                pages = [_with_more_columns(page, width, lettering) for page in pages]
            yield Layout(sheet, tuple(map(_settled, pages)), width, lettering, noted)


def _parts(context: SheetContext, column: float) -> tuple[Part, ...]:
    area = context.area
    place = Box(area.x0, area.y0 + TITLE_STRIP, area.x1 - column - _APART, area.y1)
    return fitted_parts(context, _PLAN_TITLE, place)


def _pages(
    context: SheetContext, parts: Sequence[Part], column: float, *, whole: bool, large: bool
) -> list[PageLayout]:
    """A page for each part of the plan; walls below the last if they fit, else on pages of theirs.

    Args:
        context: What the sheet is given.
        parts: The parts of the plan.
        column: Width of the tables' column [paper in].
        whole: Whether walls are shown whole while a large scale lets them.
        large: Whether they have the largest scale that fits below a plan.
    """
    area = context.area
    beside = Box(area.x1 - column, area.y0, area.x1, area.y1)
    place = Box(area.x0, area.y0, beside.x0 - _APART, area.y1)
    pages = [_below_plan(part, place, beside) for part in parts]
    walls = walls_of(context.design)
    strip = pages[-1].free
    if walls and strip:
        try:
            placed = walls_at(walls, strip[0], 2, whole=whole, large=large)
        except ViewTooLargeError:
            pass
        else:
            pages[-1] = replace(pages[-1], walls=placed.walls, free=placed.free)
            return pages
    while walls:
        page, walls = _of_walls(walls, place, beside)
        pages.append(page)
    return pages


def _below_plan(part: Part, place: Box, beside: Box) -> PageLayout:
    """The plan at the upper end of its place, and what is free below its title."""
    frame = part.view.frame
    lowest = place.y1 - frame.height - TITLE_STRIP
    free = Box(place.x0, place.y0, place.x1 - _APART, lowest)
    strip = (free,) if free.height >= _LEAST_STRIP else ()
    return PageLayout((beside,), part, free=strip)


def _of_walls(
    walls: tuple[Wall, ...], place: Box, beside: Box
) -> tuple[PageLayout, tuple[Wall, ...]]:
    """A page with as many walls as fit, and the walls that are left."""
    for count in range(len(walls), 0, -1):
        try:
            placed = walls_at(walls[:count], place, 1, any_scale=count == 1)
        except ViewTooLargeError:
            if count == 1:
                raise
            continue
        return PageLayout((beside,), walls=placed.walls, free=placed.free), walls[count:]
    msg = "there is no wall"
    raise AssertionError(msg)


def _with_wide(
    context: SheetContext,
    pages: Sequence[PageLayout],
    block: Wide,
    noted: Section,
    lettering: float,
) -> list[PageLayout]:
    """A block in the first place below or beside views that holds it, spaces by their walls."""
    made = list(pages)
    if block is Wide.SPACES and not context.design.inputs.job.electrical.walls:
        return made
    beside_walls = block is Wide.SPACES
    order = sorted(range(len(made)), key=lambda n: beside_walls and not made[n].walls)
    for number, page in ((n, made[n]) for n in order):
        for which, free in enumerate(page.free):
            place = reduced(free, lettering)
            if place.width < _COLUMN:
                continue
            try:
                drawn, box = drawn_wide(context, block, noted, place)
            except NoRoomBelowError:
                continue
            covered = reduced(box, 1 / lettering)
            left = (*page.free[:which], *_left(free, covered), *page.free[which + 1 :])
            made[number] = replace(page, wide=(*page.wide, (block, drawn)), free=left)
            return made
    return made


def _left(free: Box, covered: Box) -> tuple[Box, ...]:
    """What is left of a place below and beside what covers its upper left corner."""
    right = min(covered.x1 + _APART, free.x1)
    foot = max(covered.y0 - GAP, free.y0)
    return (Box(free.x0, free.y0, covered.x1, foot), Box(right, free.y0, free.x1, free.y1))


def _with_more_columns(page: PageLayout, width: float, lettering: float) -> PageLayout:
    """Columns of tables in what is free below and beside the views, too."""
    more = [
        column
        for free in page.free
        if free.height >= _LEAST_COLUMN * lettering
        for column in _columns(free, width)
    ]
    return replace(page, columns=(*page.columns, *more), free=())


def _columns(place: Box, width: float) -> list[Box]:
    """Columns side by side, from the right end of a place on."""
    count = int((place.width + GAP) / (width + GAP))
    lefts = [place.x0 + n * (width + GAP) for n in range(count)]
    return [Box(x, place.y0, x + width, place.y1) for x in lefts]


def _settled(page: PageLayout) -> PageLayout:
    """A plan moves to the upper end of its place where something stands below it."""
    if page.part is None or (not page.walls and not page.wide and len(page.columns) == 1):
        return page
    view = page.part.view
    top = max(column.y1 for column in page.columns)
    moved = replace(view, at=(view.at[0], top - view.frame.height))
    return replace(page, part=replace(page.part, view=moved))
