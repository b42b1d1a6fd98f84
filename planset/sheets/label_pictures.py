"""Pictures on labels: a building with its roof, and the roof in plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from planset.design.design import Design
from planset.design.electrical.ratings import disconnect_name
from planset.design.layout import PlacedArray, surface_to_plan
from planset.drawing.dimension import leader
from planset.drawing.geometry import Box, Placement, Point, box_around, distance, toward
from planset.drawing.primitives import Area, Circle, Line, Polyline, Primitive, Text
from planset.drawing.text import text_width
from planset.job.electrical_checks.ids import DISCONNECT, PANEL
from planset.sheets.label_face import INK, REST_HEIGHT, Picture
from planset.sheets.plan_blocks import roof_extent

_BUILDING = (3.4, 1.7)  # width and height [in]
_UNDER_MODULES, _MODULE = 0.04, 0.07  # gap and thickness on its roof [in]
_OFF_SLOPE = (0.684, 0.729)  # square to its right slope, 0.75 up in 0.8 across
_PLAN = (3.0, 2.5)
_DOT = 0.05
_DASH = 0.05
_BOX_WORDS = "JUNCTION BOX"
_UNDER_PLAN = 0.65  # the word for the front side, and what a circle means [in]
_ROW = 0.25  # of what another mark means [in]
_BEFORE = 0.25  # of those words, for their marks [in]
_HALF = 0.06  # of a mark at a wall [in]
_MARK_PITCH = 2 * _HALF + 0.03  # least from one mark at a wall to the next [in]


def picture(name: str, design: Design) -> Picture | None:
    """The picture on a label, None for a label without one.

    Args:
        name: The label's name in `codes.nec.labels`.
        design: The design.
    """
    return _PICTURES[name](design) if name in _PICTURES else None


def _building(_: Design) -> Picture:
    """A gable end: modules on a slope, conductors down the wall, the switch at its foot."""
    return Picture(*_BUILDING, _draw_building)


def _draw_building(box: Box) -> list[Primitive]:
    def at(x: float, y: float) -> Point:
        return (box.x0 + x, box.y0 + y)

    walls = (at(0.25, 0.0), at(0.25, 0.85), at(1.45, 0.85), at(1.45, 0.0))
    roof = (at(0.05, 0.85), at(0.85, 1.6), at(1.65, 0.85))
    slope = (roof[2], roof[1])
    low, high = toward(*slope, 0.25), toward(*slope, 0.9)
    modules = (
        *(_above(point, _UNDER_MODULES) for point in (low, high)),
        *(_above(point, _UNDER_MODULES + _MODULE) for point in (high, low)),
    )
    switch = Box(box.x0 + 1.45, box.y0 + 0.3, box.x0 + 1.6, box.y0 + 0.55)
    words = at(1.98, switch.center[1] - box.y0 + REST_HEIGHT * 0.35)
    return [
        Line(at(0.0, 0.0), at(1.9, 0.0), INK),
        Polyline(walls, INK),
        Polyline(roof, INK, closed=True),
        Area(modules, INK),
        Line((switch.center[0], switch.y1), (switch.center[0], box.y0 + 0.85), INK),
        Area(switch.corners, INK),
        *leader(((words[0] - 0.06, switch.center[1]), (switch.x1, switch.center[1])), INK).marks,
        Text("YOU ARE", words, REST_HEIGHT, INK),
        Text("HERE", (words[0], words[1] - REST_HEIGHT * 1.6), REST_HEIGHT, INK),
    ]


def _above(point: Point, by: float) -> Point:
    """A point off the right slope of the picture's roof."""
    return (point[0] + by * _OFF_SLOPE[0], point[1] + by * _OFF_SLOPE[1])


def _directory(design: Design) -> Picture:
    """The roofs in plan with arrays, junction boxes, and where each source is disconnected."""
    marks = _at_walls(design)
    height = _PLAN[1] + _ROW * len(marks)
    width = max(_PLAN[0], _longest(marks) + 2 * _BEFORE)
    return Picture(width, height, lambda box: _draw_plan(design, box, marks))


def _longest(marks: Sequence[_AtWall]) -> float:
    """Width of the longest word of what marks mean [in]."""
    return max(text_width(words, REST_HEIGHT) for words in (_BOX_WORDS, *(m.words for m in marks)))


def _energized(design: Design) -> Picture:
    """The roofs in plan, a dotted line around each array."""
    return Picture(_PLAN[0], _PLAN[1], lambda box: _draw_plan(design, box, dotted=True))


class _AtWall(NamedTuple):
    """A place at a wall where a source is disconnected: what it is, its mark, where it stands.

    `at` is in plan [in], `outward` the direction away from the building.
    """

    words: str
    mark: Callable[[Point], tuple[Primitive, ...]]
    at: Point = (0.0, 0.0)
    outward: Point = (0.0, 0.0)


def _at_walls(design: Design) -> tuple[_AtWall, ...]:
    """The places that the site plan of the job tells; the words tell those of the others."""
    if design.site is None:
        return ()
    electrical = design.inputs.job.electrical
    storage = electrical.storage
    known = {one.id: one for one in design.site.equipment}
    wanted = [
        (PANEL, _AtWall("SERVICE", _full_square)),
        (DISCONNECT, _AtWall(disconnect_name(electrical), _open_square)),
    ]
    if storage is not None:
        wanted += [
            (one.id, _AtWall("PV SYSTEM DISCONNECT", _cross)) for one in electrical.inverters
        ]
        wanted.append((storage.id, _AtWall("BATTERY", _triangle)))
        if storage.shutdown_switch is not None:
            button = _AtWall("BATTERY SHUTDOWN", _diamond)
            wanted.append((storage.shutdown_switch.id, button))
    return tuple(
        one._replace(at=known[tag].at, outward=known[tag].outward)
        for tag, one in wanted
        if tag in known
    )


def _parted(marks: Sequence[_AtWall], put: Callable[[Point], Point]) -> Iterable[Point]:
    """Where each mark stands on the picture: at its place, or as near to it as others leave room.

    Those at one wall keep their order along it. They are too large for the scale of a label, and
    what lies on another mark tells nobody where to go.
    """
    at = {mark: put(mark.at) for mark in marks}
    for outward in dict.fromkeys(mark.outward for mark in marks):
        along = (-outward[1], outward[0])
        ways = {
            mark: point[0] * along[0] + point[1] * along[1]
            for mark, point in at.items()
            if mark.outward == outward
        }
        order = sorted(ways, key=ways.__getitem__)
        for mark, way in zip(order, _spread([ways[mark] for mark in order]), strict=True):
            by, (x, y) = way - ways[mark], at[mark]
            at[mark] = (x + by * along[0], y + by * along[1])
    return (at[mark] for mark in marks)


def _spread(ways: Sequence[float]) -> list[float]:
    """Rising places moved apart, those of a crowd about its middle [in]."""
    crowds: list[list[float]] = []
    for way in ways:
        crowds.append([way])
        while len(crowds) > 1 and _first(crowds[-1]) - _last(crowds[-2]) < _MARK_PITCH:
            crowds[-2:] = [crowds[-2] + crowds[-1]]
    return [_first(crowd) + n * _MARK_PITCH for crowd in crowds for n in range(len(crowd))]


def _first(crowd: Sequence[float]) -> float:
    return sum(crowd) / len(crowd) - _MARK_PITCH * (len(crowd) - 1) / 2


def _last(crowd: Sequence[float]) -> float:
    return sum(crowd) / len(crowd) + _MARK_PITCH * (len(crowd) - 1) / 2


def _full_square(at: Point) -> tuple[Primitive, ...]:
    return (Area(Box(*at, *at).grown(_HALF).corners, INK),)


def _open_square(at: Point) -> tuple[Primitive, ...]:
    return (Polyline(Box(*at, *at).grown(_HALF).corners, INK, closed=True),)


def _cross(at: Point) -> tuple[Primitive, ...]:
    a, b, c, d = Box(*at, *at).grown(_HALF).corners
    return Line(a, c, INK), Line(b, d, INK)


def _diamond(at: Point) -> tuple[Primitive, ...]:
    x, y = at
    corners = ((x - _HALF, y), (x, y - _HALF), (x + _HALF, y), (x, y + _HALF))
    return (Polyline(corners, INK, closed=True),)


def _triangle(at: Point) -> tuple[Primitive, ...]:
    x, y = at
    return (Area(((x - _HALF, y - _HALF), (x + _HALF, y - _HALF), (x, y + _HALF)), INK),)


def _draw_plan(
    design: Design, box: Box, marks: Sequence[_AtWall] = (), *, dotted: bool = False
) -> list[Primitive]:
    extent = roof_extent(design)
    under = _ROW * len(marks)
    place = Box(box.x0, box.y0 + _UNDER_PLAN + under, box.x1, box.y1)
    scale = min(place.width / extent.width, place.height / extent.height)
    x, y = extent.center
    put = Placement((place.center[0] - x * scale, place.center[1] - y * scale), 0.0, scale).apply
    made: list[Primitive] = [
        Polyline(tuple(put(point) for point in plane.outline), INK, closed=True)
        for plane in design.roof.planes
    ]
    for array in design.arrays:
        made += _array(array, put, dotted=dotted)
    made += [mark for point in _boxes(design) for mark in _box_mark(put(point))]
    for mark, at in zip(marks, _parted(marks, put), strict=True):
        made += mark.mark(at)
    middle = place.center[0]
    made.append(Text("FRONT", (middle, box.y0 + under + 0.37), REST_HEIGHT, INK, "center"))
    left = middle + 0.1 - _longest(marks) / 2
    rows = [(_BOX_WORDS, _box_mark), *((m.words, m.mark) for m in marks)]
    for number, (words, drawn) in enumerate(rows):
        y = box.y0 + under + 0.04 - _ROW * number
        made.append(Text(words, (left, y), REST_HEIGHT, INK))
        made += drawn((left - 0.15, y + REST_HEIGHT / 2))
    return made


def _array(
    array: PlacedArray, put: Callable[[Point], Point], *, dotted: bool
) -> Iterable[Primitive]:
    outlines = [
        tuple(put(corner) for corner in surface_to_plan(array.plane, module.surface))
        for module in array.modules
    ]
    for outline in outlines:
        yield Polyline(outline, INK, closed=True)
    if dotted:
        frames = box_around(point for outline in outlines for point in outline)
        around = frames.grown(_DOT).corners
        for a, b in zip(around, (*around[1:], around[0]), strict=True):
            yield from _dots(a, b)


def _dots(a: Point, b: Point) -> Iterable[Line]:
    whole = distance(a, b)
    for n in range(int(whole / (2 * _DASH)) + 1):
        start = toward(a, b, 2 * n * _DASH)
        yield Line(start, toward(start, b, min(_DASH, distance(start, b))), INK)


def _box_mark(at: Point) -> tuple[Primitive, ...]:
    return Circle(at, _DOT, INK), Circle(at, _DOT / 3, INK)


def _boxes(design: Design) -> list[Point]:
    """Junction boxes in plan [in]."""
    planes = {array.id: array.plane for array in design.arrays}
    boxes = design.inputs.job.electrical.junction_boxes
    return [planes[box.array].to_plan((box.at.along, box.at.up)) for box in boxes]


_PICTURES: Mapping[str, Callable[[Design], Picture]] = MappingProxyType(
    {
        "rapid_shutdown": _building,
        "rapid_shutdown_outside_only": _building,
        "rapid_shutdown_plan": _energized,
        "directory": _directory,
    }
)
