"""Walls with their equipment: an elevation, and below it the working spaces in plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

from planset.design.electrical.wall import WorkingSpace, on_wall_box
from planset.drawing.dimension import dimension, row_offset
from planset.drawing.furniture import title_and_scale
from planset.drawing.geometry import Box, Point
from planset.drawing.labels import Label, LabelPlacer, NoRoomError
from planset.drawing.page import View
from planset.drawing.primitives import (
    Attribute,
    Block,
    Dimension,
    Insert,
    Line,
    Polyline,
    Primitive,
    Text,
)
from planset.drawing.running import running_dimensions
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_width
from planset.job.electrical.wall import EquipmentWall, OnWall
from planset.sheets.electrical_plan_wall_place import PlacedWall, ground_of
from planset.sheets.unnamed import Marked, Unnamed, or_unnamed
from planset.units import format_feet_inches

DIMS = "E-ANNO-DIMS"
TEXT = "E-ANNO-TEXT"
LEADER = "E-ANNO-NOTE"

_EQUIPMENT = "E-POWR-EQPM"
_SPACE = "E-POWR-CLER"
_WALL = "E-ELEV-WALL"
_GRADE = "E-ELEV-GRAD"
_GRADE_PAST_IN = 8.0
_BETWEEN_CUTS = 0.15  # between the words of two lines where a wall goes on [paper in]


@dataclass(frozen=True, slots=True)
class WallPage:
    """The views of one wall on a page.

    Attributes:
        views: Elevation and plan.
        paper: Their titles [paper in].
        blocks: What they show.
        unnamed: What had no room for its words.
    """

    views: tuple[View, View]
    paper: tuple[Primitive, ...]
    blocks: tuple[Block, ...]
    unnamed: tuple[str, ...]


def on_wall(tag: str) -> str:
    """Identity of a thing on its wall; on the diagram it is its tag."""
    return f"{tag}-WALL"


def wall_page(placed: PlacedWall, sheet: str) -> WallPage:
    """Both views of a wall with their words.

    Args:
        placed: The wall and its views.
        sheet: Id of the page.
    """
    of, views = placed.of, placed.views
    made = _blocks(of.wall, of.number, of.spaces)
    known = {block.name: block for block in made}
    marked = (
        _elevation_marks(_Wall(views[0], of.wall, placed.shown, known, of.spaces)),
        _plan_marks(_Wall(views[1], of.wall, placed.shown, known, of.spaces), placed.rows),
    )
    drawn = tuple(
        replace(view, annotation=tuple(m for m in marks if not isinstance(m, Unnamed)))
        for view, marks in zip(views, marked, strict=True)
    )
    unnamed = tuple(m.thing for marks in marked for m in marks if isinstance(m, Unnamed))
    titles = tuple(
        part
        for view in drawn
        for part in title_and_scale(view, sheet, (view.frame.x0 + 0.45, view.frame.y0 - 0.4))
    )
    return WallPage((drawn[0], drawn[1]), titles, made, unnamed)


def _blocks(
    wall: EquipmentWall, number: int, spaces: tuple[WorkingSpace, ...]
) -> tuple[Block, ...]:
    """Every piece in elevation and in plan, and what both views show."""
    pieces: list[Block] = []
    faces: list[Primitive] = []
    tops: list[Primitive] = []
    for item in wall.equipment:
        name = f"WALL-{number}-{item.tag}"
        box = on_wall_box(item)
        face = Polyline(box.corners, _EQUIPMENT, closed=True)
        top = Polyline(Box(box.x0, -item.depth, box.x1, 0.0).corners, _EQUIPMENT, closed=True)
        pieces += [
            Block(name, (face,), f"{item.tag} in elevation", ("TAG",)),
            Block(f"{name}-PLAN", (top,), f"{item.tag} in plan", ("TAG",)),
        ]
        tag = (Attribute("TAG", item.tag),)
        faces.append(
            Insert(name, (0.0, 0.0), _EQUIPMENT, attributes=tag, identity=on_wall(item.tag))
        )
        tops.append(Insert(f"{name}-PLAN", (0.0, 0.0), _EQUIPMENT, attributes=tag))
    outline = Box(0.0, 0.0, wall.width, wall.height)
    grade = Line((-_GRADE_PAST_IN, 0.0), (wall.width + _GRADE_PAST_IN, 0.0), _GRADE)
    high = [_outline(Box(s.left, 0.0, s.right, s.height)) for s in spaces]
    deep = [_outline(Box(s.left, -s.item.depth - s.depth, s.right, -s.item.depth)) for s in spaces]
    elevation = (Polyline(outline.corners, _WALL, closed=True), grade, *faces, *high)
    opposite = Line((0.0, -wall.free_depth), (wall.width, -wall.free_depth), _WALL)
    plan = (Line((0.0, 0.0), (wall.width, 0.0), _GRADE), opposite, *tops, *deep)
    return (
        *pieces,
        Block(f"WALL-{number}", elevation, f"{wall.name}, elevation"),
        Block(f"WALL-{number}-PLAN", plan, f"{wall.name}, working spaces in plan"),
    )


def _outline(box: Box) -> Polyline:
    return Polyline(box.corners, _SPACE, closed=True)


@dataclass(frozen=True)
class _Wall:
    """One view of a wall while its words are placed.

    Attributes:
        view: The view.
        wall: The wall.
        shown: What it shows of it [model in].
        known: The blocks by name.
        spaces: The working spaces.
    """

    view: View
    wall: EquipmentWall
    shown: Box
    known: dict[str, Block]
    spaces: tuple[WorkingSpace, ...]

    @cached_property
    def placer(self) -> LabelPlacer:
        """Knows of all that is drawn."""
        placer = LabelPlacer(self.view.frame.grown(-0.02))
        placer.keep_clear(self.view.model, self.known, self.view.on_paper)
        return placer

    def dimensioned(
        self,
        name: str,
        spans: Sequence[tuple[Point, Point]],
        offsets: Sequence[float],
        *,
        by_span: bool = False,
    ) -> Iterator[Marked]:
        """A dimension of a span at an offset that has room, else its name.

        Args:
            name: What it is of.
            spans: Where it may stand, best first.
            offsets: How far off, best first [paper in].
            by_span: Whether the first span goes before the first offset.
        """
        at, factor = self.view.on_paper.apply, self.view.scale.factor
        places = (
            [(span, offset) for span in spans for offset in offsets]
            if by_span
            else [(span, offset) for offset in offsets for span in spans]
        )
        ways = [
            dimension(at(a), at(b), offset, DIMS, factor, beyond=beyond, share=share)
            for (a, b), offset in places
            if a != b
            for beyond in ("b", "a")
            for share in (0.5, 0.3, 0.7)
        ]
        if not ways:
            return
        try:
            yield self.placer.place_dimension(ways)
        except NoRoomError:
            yield Unnamed(f"{name}: {ways[0].text}")

    def tag(self, item: OnWall, at: Point, names: str = "") -> Iterator[Marked]:
        """The tag of a piece, led to it."""
        anchor = self.view.on_paper.apply(at)
        label = Label((item.tag,), anchor, MINIMUM_HEIGHT, TEXT, LEADER, names, end="dot")
        place = partial(self.placer.place_near, label, self.view.frame, always_led=True)
        yield from or_unnamed(item.tag, place)


def _elevation_marks(on: _Wall) -> list[Marked]:
    view, wall = on.view, on.wall
    fixed: list[Primitive] = [*_tape(on), *_cuts(on), _grade(on)]
    on.placer.keep_clear(fixed, on.known)
    made: list[Marked] = list(fixed)
    for item in wall.equipment:
        half = item.width / 2 / view.scale.factor
        shares = (1.0, 0.6, 1.4, 0.3, 1.8, 2.4, -0.4, -0.8)  # the last beside it, over a wider one
        span = ((item.left, 0.0), (item.left, item.bottom))
        offsets = [-half * share for share in shares]
        made += on.dimensioned(f"{item.tag} ABOVE {ground_of(wall)}", [span], offsets)
    for item in wall.equipment:
        middle = (item.left + item.width / 2, item.bottom + item.height * 0.75)
        made += on.tag(item, middle, on_wall(item.tag))
    for height in sorted({space.height for space in on.spaces}):
        of_it = [space for space in on.spaces if space.height == height]
        rights = sorted({space.right for space in of_it}, reverse=True)
        left = min(space.left for space in of_it)
        spans = [((right, 0.0), (right, height)) for right in rights]
        spans.append(((left, height), (left, 0.0)))
        outside = (-0.2, -0.32, -0.45, -0.6, -0.8)
        # At the left the lines of equipment without a space are in its way more often.
        made += on.dimensioned("WORKING SPACE, HEIGHT", spans, outside, by_span=True)
    return made


def _grade(on: _Wall) -> Text:
    at = on.view.on_paper.apply((on.shown.x1, 0.0))
    beside_the_tape = (at[0] - 0.06, at[1] - 0.16)
    return Text(ground_of(on.wall), beside_the_tape, MINIMUM_HEIGHT, TEXT, "right")


def _tape(on: _Wall) -> tuple[Dimension, ...]:
    """Left edges from the left end of what is shown, below grade."""
    at, shown = on.view.on_paper.apply, on.shown
    lefts = {item.left for item in on.wall.equipment if item.left > shown.x0} | {shown.x1}
    return running_dimensions(
        at((shown.x0, 0.0)),
        [at((left, 0.0)) for left in sorted(lefts)],
        -0.26,
        DIMS,
        on.view.scale.factor,
    )


def _cuts(on: _Wall) -> Iterator[Primitive]:
    """A line where the wall goes on, and how far the end is that it was cut from.

    Of two such lines each has its words to itself; on too short a part these stand one above the
    other.
    """
    at, shown, wall = on.view.on_paper.apply, on.shown, on.wall
    sides = ((shown.x0, shown.x0, "left"), (shown.x1, wall.width - shown.x1, "right"))
    words = [
        (x, side, (f"{side.upper()} END OF WALL", f"{format_feet_inches(beyond)} FROM HERE"))
        for x, beyond, side in sides
        if beyond > 0
    ]
    widths = [max(text_width(line, MINIMUM_HEIGHT) for line in lines) for _, _, lines in words]
    room = (shown.x1 - shown.x0) / on.view.scale.factor
    apart = len(words) > 1 and sum(widths) * SLACK + _BETWEEN_CUTS < room
    for x, side, lines in words:
        foot, head = at((x, shown.y0)), at((x, shown.y1))
        yield Line(foot, (head[0], head[1] + 0.1), "G-ANNO-MTCH")
        left = head[0] + (0.05 if side == "left" else -0.05)
        low, high = head[1] + 0.14, head[1] + 0.3
        if apart:
            placed = list(zip(lines, (high, low), strict=True))
        else:
            placed = [(" ".join(lines), low if side == "left" else high)]
        for line, level in placed:
            yield Text(line, (left, level), MINIMUM_HEIGHT, TEXT, side)


def _plan_marks(on: _Wall, rows: Sequence[Sequence[WorkingSpace]]) -> list[Marked]:
    made: list[Marked] = []
    foot = -on.wall.free_depth
    for number, row in reversed(list(enumerate(rows))):
        for space in row:
            span = ((space.left, foot), (space.right, foot))
            made += on.dimensioned(f"{space.item.tag}, WIDTH", [span], [-row_offset(number)])
    for item in on.wall.equipment:
        made += on.tag(item, (item.left + item.width / 2, -item.depth / 2))
    for space in on.spaces:
        front = -space.item.depth
        spans = [((x, front - space.depth), (x, front)) for x in (space.left, space.right)]
        offsets = (-0.12, 0.12, -0.2, 0.2, -0.3, 0.3, -0.45, 0.45)
        made += on.dimensioned(f"{space.item.tag}, DEPTH", spans, offsets)
    spans = [((on.shown.x1, foot), (on.shown.x1, 0.0)), ((on.shown.x0, foot), (on.shown.x0, 0.0))]
    made += on.dimensioned("FREE IN FRONT OF THE WALL", spans, (0.15, -0.15, 0.25, -0.25))
    return made
