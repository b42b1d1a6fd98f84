"""Walls with their equipment: an elevation, and below it the working spaces in plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from planset.design.design import Design
from planset.design.electrical.wall import WorkingSpace, on_wall_box, working_spaces
from planset.drawing.dimension import dimension, row_offset
from planset.drawing.fit import Margins, ViewTooLargeError, fit_view
from planset.drawing.furniture import title_and_scale
from planset.drawing.geometry import Box, Point
from planset.drawing.labels import Label, LabelPlacer, NoRoomError
from planset.drawing.page import DETAIL_SCALES, PLAN_SCALES, Scale, View
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
from planset.drawing.text import MINIMUM_HEIGHT
from planset.job.electrical.wall import EquipmentWall
from planset.sheets.context import SheetContext
from planset.sheets.unnamed import Marked, Unnamed, or_unnamed

DIMS = "E-ANNO-DIMS"
TEXT = "E-ANNO-TEXT"
LEADER = "E-ANNO-NOTE"

_EQUIPMENT = "E-POWR-EQPM"
_SPACE = "E-POWR-CLER"
_WALL = "E-ELEV-WALL"
_GRADE = "E-ELEV-GRAD"
_SIDE, _TOP, _TAPE = 0.72, 0.5, 0.85  # room beside, above and below an elevation [paper in]
_PLAN_TOP, _ROW = 0.34, 0.3  # above the plan for its words; a row of dimensions [paper in]
_TITLE = 0.85  # room for a title [paper in]
_GRADE_PAST_IN = 12.0
_SCALES = (*DETAIL_SCALES[-2:], *PLAN_SCALES[1:])


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


def wall_page(
    context: SheetContext, number: int, wall: EquipmentWall, place: Box, sheet: str
) -> WallPage:
    """Both views of a wall at the largest scale at which they fit.

    Args:
        context: What the sheet is given.
        number: Of the wall, counted from 1.
        wall: The wall.
        place: Where the views go [paper in].
        sheet: Id of the page.

    Raises:
        ViewTooLargeError: They fit at no standard scale.
    """
    spaces = working_spaces(context.design, wall)
    made = _blocks(wall, number, spaces)
    rows = _rows(spaces)
    for scale in _SCALES:
        try:
            views = _views(number, wall, place, scale, len(rows))
        except ViewTooLargeError:
            continue
        break
    else:
        msg = f"wall {wall.name} fits at no standard scale"
        raise ViewTooLargeError(msg)
    known = {block.name: block for block in made}
    marked = (
        _elevation_marks(views[0], wall, known, spaces),
        _plan_marks(views[1], wall, known, spaces, rows),
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


def _rows(spaces: tuple[WorkingSpace, ...]) -> list[list[WorkingSpace]]:
    """Spaces whose widths can be dimensioned on one line, as they do not overlap."""
    rows: list[list[WorkingSpace]] = []
    for space in sorted(spaces, key=lambda s: s.left):
        free = (row for row in rows if row[-1].right <= space.left)
        row = next(free, None)
        if row is None:
            rows.append([space])
        else:
            row.append(space)
    return rows


def _views(
    number: int, wall: EquipmentWall, place: Box, scale: Scale, rows: int
) -> tuple[View, View]:
    """The elevation at the top of the place, the plan below it."""
    names = (f"WALL-{number}", f"WALL-{number}-PLAN")
    origin = (0.0, 0.0)
    margins = Margins(_SIDE, _SIDE, _TOP, _TAPE)
    extent = Box(0.0, 0.0, wall.width, wall.height)
    model = (Insert(names[0], origin, _EQUIPMENT),)
    above = fit_view(1, wall.name.upper(), extent, margins, place, (scale,), model)
    top = place.y1 - above.frame.height
    above = replace(above, at=(above.at[0], top))
    margins = Margins(_SIDE, _SIDE, _PLAN_TOP, _ROW * (rows + 1))
    rest = Box(place.x0, place.y0 + _TITLE, place.x1, top - _TITLE)
    extent = Box(0.0, -wall.free_depth, wall.width, 0.0)
    model = (Insert(names[1], origin, _EQUIPMENT),)
    below = fit_view(2, "WORKING SPACES IN PLAN", extent, margins, rest, (scale,), model)
    return above, replace(below, at=(above.at[0], rest.y1 - below.frame.height))


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


def _placer(view: View, known: dict[str, Block]) -> LabelPlacer:
    placer = LabelPlacer(view.frame.grown(-0.02))
    placer.keep_clear(view.model, known, view.on_paper)
    return placer


def _elevation_marks(
    view: View, wall: EquipmentWall, known: dict[str, Block], spaces: tuple[WorkingSpace, ...]
) -> list[Marked]:
    placer = _placer(view, known)
    at = view.on_paper.apply
    made: list[Marked] = []
    made += _tape(view, wall)
    placer.keep_clear([m for m in made if not isinstance(m, Unnamed)], known)
    for item in wall.equipment:
        low, high = (item.left, 0.0), (item.left, item.bottom)
        half = item.width / 2 / view.scale.factor
        made += _dimensioned(
            placer,
            view,
            low,
            high,
            tuple(-half * share for share in (1.0, 0.6, 1.4, 0.3, 1.8)),
            f"{item.tag} ABOVE GRADE",
        )
    for height, right in _heights(wall, spaces):
        made += _dimensioned(
            placer, view, (right, 0.0), (right, height), (-0.3, -0.45), "WORKING SPACE, HEIGHT"
        )
    for item in wall.equipment:
        anchor = at((item.left + item.width / 2, item.bottom + item.height * 0.75))
        label = Label((item.tag,), anchor, MINIMUM_HEIGHT, TEXT, LEADER, on_wall(item.tag))
        label = replace(label, end="dot")
        made += or_unnamed(item.tag, partial(placer.place_near, label, view.frame))
    made.append(Text("GRADE", at((wall.width + _GRADE_PAST_IN, 4.0)), MINIMUM_HEIGHT, TEXT, "left"))
    return made


def _heights(
    wall: EquipmentWall, spaces: tuple[WorkingSpace, ...]
) -> Iterator[tuple[float, float]]:
    """Each height of a working space once, with the right end of the last that has it."""
    ends: dict[float, float] = {}
    for space in spaces:
        ends[space.height] = max(space.right, ends.get(space.height, space.right))
    yield from ends.items()


def _tape(view: View, wall: EquipmentWall) -> tuple[Dimension, ...]:
    """Left edges from the wall's left end, below grade."""
    at = view.on_paper.apply
    lefts = sorted({item.left for item in wall.equipment if item.left > 0} | {wall.width})
    return running_dimensions(
        at((0.0, 0.0)),
        [at((left, 0.0)) for left in lefts],
        -0.2,
        DIMS,
        view.scale.factor,
        denominator=2,
    )


def _dimensioned(
    placer: LabelPlacer,
    view: View,
    a: Point,
    b: Point,
    offsets: tuple[float, ...],
    name: str,
) -> Iterator[Marked]:
    """A dimension at the first offset that has room, else what is missing."""
    start, end = view.on_paper.apply(a), view.on_paper.apply(b)
    if start == end:
        return
    ways = [
        dimension(start, end, offset, DIMS, view.scale.factor, beyond=beyond, share=share)
        for offset in offsets
        for beyond in ("b", "a")
        for share in (0.5, 0.35, 0.65)
    ]
    try:
        yield placer.place_dimension(ways)
    except NoRoomError:
        yield Unnamed(f"{name}: {ways[0].text}")


def _plan_marks(
    view: View,
    wall: EquipmentWall,
    known: dict[str, Block],
    spaces: tuple[WorkingSpace, ...],
    rows: list[list[WorkingSpace]],
) -> list[Marked]:
    placer = _placer(view, known)
    at = view.on_paper.apply
    made: list[Marked] = []
    foot = -wall.free_depth
    for number, row in enumerate(rows):
        for space in row:
            offset = -row_offset(number)
            made += _dimensioned(
                placer,
                view,
                (space.left, foot),
                (space.right, foot),
                (offset,),
                f"{space.item.tag}, WIDTH",
            )
    made += _dimensioned(
        placer, view, (wall.width, foot), (wall.width, 0.0), (-0.3,), "FREE IN FRONT OF THE WALL"
    )
    for space in spaces:
        made += _dimensioned(
            placer,
            view,
            (space.left, -space.item.depth - space.depth),
            (space.left, -space.item.depth),
            (0.12, 0.2, -0.12, -0.2, -0.3, -0.45),
            f"{space.item.tag}, DEPTH",
        )
    for item in wall.equipment:
        anchor = at((item.left + item.width / 2, -item.depth / 2))
        label = Label((item.tag,), anchor, MINIMUM_HEIGHT, TEXT, LEADER, end="dot")
        place = partial(placer.place_near, label, view.frame)
        made += or_unnamed(f"{item.tag} IN PLAN", place)
    return made


def walls_of(design: Design) -> tuple[EquipmentWall, ...]:
    """The walls of the job."""
    return design.inputs.job.electrical.walls
