"""Which part of each wall is shown, at which scale, and where its two views stand."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planset.design.design import Design
from planset.design.electrical.wall import WorkingSpace, on_wall_box, working_spaces
from planset.drawing.fit import Margins, ViewTooLargeError, fit_view
from planset.drawing.geometry import Box, Point, united
from planset.drawing.layers import OWN_LAYERS
from planset.drawing.page import DETAIL_SCALES, PLAN_SCALES, Scale, View
from planset.drawing.primitives import Insert
from planset.drawing.text import SLACK, text_width
from planset.job.electrical.wall import EquipmentWall

_EQUIPMENT = "E-POWR-EQPM"
_PLAN_TITLE = "WORKING SPACES IN PLAN"
_SIDE, _TOP, _TAPE = 0.46, 0.46, 0.85  # room beside, above and below an elevation [paper in]
_PLAN_TOP, _ROW = 0.34, 0.3  # above the plan for its words; a row of dimensions [paper in]
_TITLE = 0.8  # room for a title [paper in]
_TITLE_WIDTH = 4.75  # its bubble and graphic scale [paper in]
_BESIDE_TITLE, _TITLE_HEIGHT = 1.0, 0.15
_APART = 0.15  # of views side by side [paper in]
_LEAST_BESIDE = 3.0  # width beside walls that is worth using [paper in]
_CUT_WORDS = 3.25  # how far the end of a wall is from a cut, in words [paper in]
_AROUND_IN = 18.0  # shown beside and above working spaces of a wall that is not shown whole
_CUT_STEP_IN = 12.0
_SCALES = (DETAIL_SCALES[-1], *PLAN_SCALES[1:])
_USUAL = 48.0  # factor of the scale at which elevations are usually drawn
_LARGE = _USUAL  # factor of the least scale at which a wall is shown whole if it can


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall of the job.

    Attributes:
        number: Counted from 1.
        wall: As the job has it.
        spaces: Working spaces before it.
    """

    number: int
    wall: EquipmentWall
    spaces: tuple[WorkingSpace, ...]


@dataclass(frozen=True, slots=True)
class PlacedWall:
    """A wall and where its views stand.

    Attributes:
        of: The wall.
        shown: What its views show of it [model in].
        views: Elevation and plan, without annotation.
        rows: Spaces whose widths can be dimensioned on one line, as they lie apart.
    """

    of: Wall
    shown: Box
    views: tuple[View, View]
    rows: tuple[tuple[WorkingSpace, ...], ...]


@dataclass(frozen=True, slots=True)
class PlacedWalls:
    """Walls side by side and below one another.

    Attributes:
        walls: The walls.
        free: What they leave beside and below them [paper in].
    """

    walls: tuple[PlacedWall, ...]
    free: tuple[Box, ...]


def ground_of(wall: EquipmentWall) -> str:
    """What heights on a wall are measured from."""
    return "FLOOR" if wall.exposure == "indoors" else "GRADE"


def walls_of(design: Design) -> tuple[Wall, ...]:
    """All walls of the job."""
    walls = design.inputs.job.electrical.walls
    return tuple(Wall(n, wall, working_spaces(design, wall)) for n, wall in enumerate(walls, 1))


def walls_at(
    walls: Sequence[Wall],
    place: Box,
    first: int,
    *,
    whole: bool = True,
    large: bool = True,
    any_scale: bool = False,
) -> PlacedWalls:
    """Both views of each wall at the largest scale at which all of them fit.

    Args:
        walls: The walls.
        place: Where the views go, from its upper left corner on [paper in].
        first: Number of the first view.
        whole: Whether walls are shown whole while a large scale lets them.
        large: Whether scales are tried that are larger than the usual one of elevations.
        any_scale: Whether they may be shown at small scales.

    Raises:
        ViewTooLargeError: They do not fit.
    """
    for scale, shown in _tries(walls, whole=whole, any_scale=any_scale):
        if scale.factor < _USUAL and not large:
            continue
        for beside in (False, True):
            groups = [
                _Group(wall, box, scale, beside=beside)
                for wall, box in zip(walls, shown, strict=True)
            ]
            corners = _in_rows([group.size for group in groups], place)
            if corners:
                placed = tuple(
                    group.at(corner, first + 2 * n)
                    for n, (group, corner) in enumerate(zip(groups, corners, strict=True))
                )
                return PlacedWalls(placed, _free(groups, corners, place))
    names = ", ".join(wall.wall.name for wall in walls)
    msg = f"wall {names} does not fit {place.width:.1f} x {place.height:.1f} in"
    raise ViewTooLargeError(msg)


def _tries(
    walls: Sequence[Wall], *, whole: bool, any_scale: bool
) -> Iterator[tuple[Scale, list[Box]]]:
    """Scales, and what is shown of each wall: all of it, or what equipment and spaces need."""
    large = [scale for scale in _SCALES if scale.factor <= _LARGE]
    for scale in large if whole else ():
        yield scale, [Box(0.0, 0.0, one.wall.width, one.wall.height) for one in walls]
        yield scale, [Box(0.0, 0.0, one.wall.width, _top(one, scale)) for one in walls]
    for scale in _SCALES if any_scale else large:
        yield scale, [_part(one, scale) for one in walls]


def _needed(wall: Wall) -> Box:
    """What equipment and working spaces cover of a wall, and a little around them [in]."""
    boxes = [on_wall_box(item) for item in wall.wall.equipment]
    boxes += [Box(space.left, 0.0, space.right, space.height) for space in wall.spaces]
    need = united(boxes).grown(_AROUND_IN)
    left, right, top = _step_below(need.x0), _step_above(need.x1), _step_above(need.y1)
    return Box(max(left, 0.0), 0.0, min(right, wall.wall.width), min(top, wall.wall.height))


def _step_below(value_in: float) -> float:
    return math.floor(value_in / _CUT_STEP_IN) * _CUT_STEP_IN


def _step_above(value_in: float) -> float:
    return math.ceil(value_in / _CUT_STEP_IN) * _CUT_STEP_IN


def _part(wall: Wall, scale: Scale) -> Box:
    """What is needed of a wall, as wide at least as the words at its cuts."""
    need = _needed(wall)
    more = max(_CUT_WORDS * scale.factor - need.width, 0.0)
    left = max(_step_below(need.x0 - more / 2), 0.0)
    right = min(max(need.x1, _step_above(left + need.width + more)), wall.wall.width)
    return Box(left, need.y0, right, _top(wall, scale))


def _top(wall: Wall, scale: Scale) -> float:
    """Up to where a wall is shown: to its top where that would run through words at a cut."""
    top = _needed(wall).y1
    return top if wall.wall.height - top > _TOP * scale.factor else wall.wall.height


def _rows(spaces: tuple[WorkingSpace, ...]) -> tuple[tuple[WorkingSpace, ...], ...]:
    rows: list[list[WorkingSpace]] = []
    for space in sorted(spaces, key=lambda s: s.left):
        free = (row for row in rows if row[-1].right <= space.left)
        row = next(free, None)
        if row is None:
            rows.append([space])
        else:
            row.append(space)
    return tuple(map(tuple, rows))


class _Group:
    """Elevation and plan of a wall, one below the other or side by side, with their titles."""

    def __init__(self, wall: Wall, shown: Box, scale: Scale, *, beside: bool) -> None:
        self._wall, self._shown, self._scale, self._beside = wall, shown, scale, beside
        self._rows = _rows(wall.spaces)
        self._names = (wall.wall.name.upper(), _PLAN_TITLE)
        self._margins = (
            Margins(_SIDE, _SIDE, _TOP, _TAPE),
            Margins(_SIDE, _SIDE, _PLAN_TOP, _ROW * (len(self._rows) + 1)),
        )
        self._extents = (shown, Box(shown.x0, -wall.wall.free_depth, shown.x1, 0.0))
        width = shown.width / scale.factor + 2 * _SIDE
        self._widths = [max(width, _title_width(name)) for name in self._names]
        self._heights = [
            extent.height / scale.factor + margins.top + margins.bottom + _TITLE
            for extent, margins in zip(self._extents, self._margins, strict=True)
        ]

    @property
    def size(self) -> Point:
        """Width and height [paper in]."""
        if self._beside:
            return (sum(self._widths) + _APART, max(self._heights))
        return (max(self._widths), sum(self._heights))

    def at(self, corner: Point, first: int) -> PlacedWall:
        """The group with its upper left corner at a point [paper in]."""
        x, top = corner
        second = (x + self._widths[0] + _APART, top)
        corners = (corner, second if self._beside else (x, top - self._heights[0]))
        views = [self._view(n, corners[n], first + n) for n in (0, 1)]
        return PlacedWall(self._wall, self._shown, (views[0], views[1]), self._rows)

    def _view(self, which: int, corner: Point, number: int) -> View:
        names = (f"WALL-{self._wall.number}", f"WALL-{self._wall.number}-PLAN")
        model = (Insert(names[which], (0.0, 0.0), OWN_LAYERS),)
        extent, margins = self._extents[which], self._margins[which]
        width = extent.width / self._scale.factor + 2 * _SIDE
        height = self._heights[which] - _TITLE
        place = Box(corner[0], corner[1] - height, corner[0] + width, corner[1])
        return fit_view(number, self._names[which], extent, margins, place, (self._scale,), model)


def _title_width(title: str) -> float:
    return max(text_width(title, _TITLE_HEIGHT) * SLACK + _BESIDE_TITLE, _TITLE_WIDTH)


def _in_rows(sizes: Sequence[Point], place: Box) -> list[Point]:
    """Upper left corners of boxes in rows from the upper left corner on; none if they don't fit."""
    corners: list[Point] = []
    x, top, foot = place.x0, place.y1, place.y1
    for width, height in sizes:
        if x > place.x0 and x + width > place.x1:
            x, top = place.x0, foot
        if x + width > place.x1 + 1e-9 or top - height < place.y0 - 1e-9:
            return []
        corners.append((x, top))
        foot = min(foot, top - height)
        x += width + _APART
    return corners


def _free(groups: Sequence[_Group], corners: Sequence[Point], place: Box) -> tuple[Box, ...]:
    sizes = [group.size for group in groups]
    right = max(x + width for (x, _), (width, _) in zip(corners, sizes, strict=True))
    feet = (top - height for (_, top), (_, height) in zip(corners, sizes, strict=True))
    foot = min(feet)
    if right + _LEAST_BESIDE > place.x1:
        return (Box(place.x0, place.y0, place.x1, foot),)
    beside = Box(right + _APART, place.y0, place.x1, place.y1)
    return beside, Box(place.x0, place.y0, right, foot)
