"""Fire access areas on a plan: outline, hatch by kind, and words in a gap of the hatch."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from planset.design.access.area import AccessArea, AreaKind
from planset.design.design import Design
from planset.design.layout import surface_to_plan
from planset.drawing.geometry import Box, Point, box_around, direction_deg, readable
from planset.drawing.hatching import hatch
from planset.drawing.page import View
from planset.drawing.primitives import Block, Insert, Polyline, Primitive, Text
from planset.drawing.region import Region
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, SLACK, text_width
from planset.roof.plane import Plane
from planset.sheets.plan_blocks import obstruction_extent
from planset.sheets.plan_walls import below_outline
from planset.sheets.words import required_inches

ACCESS = "FIRE-ACCESS"
ACCESS_LINES = "FIRE-ACCESS-LINES"
_OUTLINE = "F-ROOF-ACCS"

AREA_NAMES = {
    AreaKind.PATHWAY: "FIRE ACCESS PATHWAY",
    AreaKind.RIDGE_SETBACK: "RIDGE SETBACK",
    AreaKind.HIP_VALLEY_SETBACK: "HIP/VALLEY SETBACK",
    AreaKind.ESCAPE_PATHWAY: "EERO PATHWAY",
    AreaKind.EDGE_SETBACK: "EDGE SETBACK",
    AreaKind.PERIMETER: "PERIMETER",
    AreaKind.INTERIOR_PATHWAY: "INTERIOR PATHWAY",
    AreaKind.HATCH_CLEARANCE: "HATCH CLEARANCE",
}

HATCH_ANGLE_DEG = {
    AreaKind.PATHWAY: 45.0,
    AreaKind.RIDGE_SETBACK: -45.0,
    AreaKind.HIP_VALLEY_SETBACK: -45.0,
    AreaKind.ESCAPE_PATHWAY: 15.0,
    AreaKind.EDGE_SETBACK: -45.0,
    AreaKind.PERIMETER: 45.0,
    AreaKind.INTERIOR_PATHWAY: -15.0,
    AreaKind.HATCH_CLEARANCE: 75.0,
}
_CLOSE_SPACING_IN, _WIDE_SPACING_IN = 6.0, 9.0  # of setbacks and of ways [model in]
_ALONG_AREA = 0.95  # cosine of the angle below which hatch lines run along their area
_LEAST_SPACING = 0.09  # of hatch lines on paper [in]
_TOUCH = 1e-6
_GAP = 0.05  # free of hatch around the words [paper in]


@dataclass(frozen=True, slots=True)
class AreaLabel:
    """Words that stand in an access area.

    Attributes:
        area: The area.
        lines: The words.
        center: Their middle, in plan [model in].
        turn_deg: Direction they are read in, counterclockwise from the right [deg].
        hole: What the hatch leaves free, in plan [model in].
    """

    area: AccessArea
    lines: tuple[str, ...]
    center: Point
    turn_deg: float
    hole: tuple[Point, ...]


def area_labels(design: Design, factor: float) -> tuple[AreaLabel, ...]:
    """The words of every area that has room for them at a scale.

    Args:
        design: The design.
        factor: Model inches per paper inch.
    """
    made: list[AreaLabel] = []
    for area in design.access_areas:
        label = _label(design, area, factor, made)
        if label is not None:
            made.append(label)
    return tuple(made)


def access_lines_block(design: Design) -> Block:
    """Outlines of all areas."""
    made = (Polyline(in_plan(design, area), _OUTLINE, closed=True) for area in design.access_areas)
    return Block(ACCESS_LINES, tuple(made), "Outlines of fire access areas")


def access_block(design: Design, labels: tuple[AreaLabel, ...], factor: float) -> Block:
    """Outlines, as a block in it, and hatch of all areas, broken where the words stand.

    Args:
        design: The design.
        labels: The words in the areas.
        factor: Model inches per paper inch.
    """
    holes = tuple(label.hole for label in labels)
    made: list[Primitive] = [Insert(ACCESS_LINES, (0.0, 0.0), _OUTLINE)]
    for area in design.access_areas:
        corners = in_plan(design, area)
        setback = HATCH_ANGLE_DEG[area.kind] == HATCH_ANGLE_DEG[AreaKind.RIDGE_SETBACK]
        spacing = _CLOSE_SPACING_IN if setback else _WIDE_SPACING_IN
        spacing = max(spacing, _LEAST_SPACING * factor)
        angle = _across(HATCH_ANGLE_DEG[area.kind], _course(design.roof.plane(area.plane), area))
        made += hatch(corners, spacing, angle, "F-ROOF-ACCS-PATT", holes)
    return Block(ACCESS, tuple(made), "Fire access pathways and setbacks")


def _across(angle_deg: float, course: _Course) -> float:
    """A hatch angle, turned where it would run along the area itself [deg]."""
    turn = math.radians(angle_deg)
    along = abs(math.cos(turn) * course.along[0] + math.sin(turn) * course.along[1])
    return angle_deg + 60.0 if along > _ALONG_AREA else angle_deg


def in_plan(design: Design, area: AccessArea) -> tuple[Point, ...]:
    """The corners of an area in plan [in]."""
    plane = design.roof.plane(area.plane)
    return tuple(plane.to_plan(corner) for corner in area.outline)


def area_texts(labels: tuple[AreaLabel, ...], view: View) -> tuple[Text, ...]:
    """The words, on paper."""
    made: list[Text] = []
    for label in labels:
        x, y = view.on_paper.apply(label.center)
        pitch = NOTE_HEIGHT * LINE_PITCH
        first = (len(label.lines) - 1) * pitch / 2
        turn = math.radians(label.turn_deg)
        for number, words in enumerate(label.lines):
            shift = first - number * pitch
            at = (x - shift * math.sin(turn), y + shift * math.cos(turn))
            made.append(Text(words, at, NOTE_HEIGHT, "F-ANNO-TEXT", "middle", label.turn_deg))
    return tuple(made)


def led_words(area: AccessArea) -> str:
    """What a leader says of an area that has no room for words."""
    return f"{AREA_NAMES[area.kind]} {required_inches(area.required_in)} MIN."


@dataclass(frozen=True, slots=True)
class _Course:
    """The way words run in plan: along, and across from left to right or from below upward."""

    along: Point
    across: Point

    def here(self, point: Point) -> Point:
        x, y = point
        return (
            x * self.along[0] + y * self.along[1],
            x * self.across[0] + y * self.across[1],
        )

    def there(self, point: Point) -> Point:
        p, q = point
        return (
            p * self.along[0] + q * self.across[0],
            p * self.along[1] + q * self.across[1],
        )


def _label(
    design: Design, area: AccessArea, factor: float, others: list[AreaLabel]
) -> AreaLabel | None:
    """The label at the best free place along its area, None when there is none."""
    plane, corners = design.roof.plane(area.plane), in_plan(design, area)
    course = _course(plane, area)
    box = box_around(map(course.here, corners))
    lines = _words(area)
    long = (max(text_width(line, NOTE_HEIGHT) for line in lines) * SLACK + 2 * _GAP) * factor
    wide = (NOTE_HEIGHT * (1 + (len(lines) - 1) * LINE_PITCH) + 2 * _GAP) * factor
    if long > box.width or wide > box.height:
        return None
    words = [Region.of(map(course.here, other.hole)) for other in others]
    free = _free_of(Region.of(map(course.here, corners)), course, design, plane, words)
    upright = abs(course.along[1]) > abs(course.along[0])
    holes = [hole for hole in _holes(box, (long, wide), across_first=upright) if free.holds(hole)]
    if not holes:
        return None
    rafters = [
        course.here(plane.to_plan((r.u_in, 0.0)))[1]
        for r in design.rafters
        if r.plane == plane.id and abs(_along_rafters(plane, course)) > 1 - 1e-6
    ]
    hole = max(holes, key=lambda hole: _room(hole, rafters) if rafters else 0.0)
    ends = readable(*(course.there((along, 0.0)) for along in (0.0, 1.0)))
    return AreaLabel(
        area,
        lines,
        course.there(hole.center),
        direction_deg(*ends),
        tuple(map(course.there, hole.corners)),
    )


def _course(plane: Plane, area: AccessArea) -> _Course:
    """Along an area, square to where its width is taken."""
    a, b = area.across
    du, dv = b[0] - a[0], b[1] - a[1]
    start, end = readable(plane.to_plan((0.0, 0.0)), plane.to_plan((-dv, du)))
    whole = math.dist(start, end)
    tx, ty = ((e - s) / whole for s, e in zip(start, end, strict=True))
    across = (-ty, tx) if ty < 1e-9 else (ty, -tx)
    return _Course((tx, ty), across)


_ALONG = (0.25, 0.5, 0.75, 0.0, 1.0)
"""Shares of the free length of an area at which its words are tried, best first."""

_ACROSS = tuple(n / 20 for n in (10, 9, 11, 8, 12, 7, 13, 6, 14, 5, 15, 4, 16, 3, 17, 2, 18, 1, 19))


def _holes(box: Box, size: tuple[float, float], *, across_first: bool) -> Iterator[Box]:
    """Places of a size in a box, the best first."""
    long, wide = size
    room = (box.width - long, box.height - wide)
    shares = (
        [(along, across) for across in _ACROSS for along in _ALONG]
        if across_first
        else [(along, across) for along in _ALONG for across in _ACROSS]
    )
    for along, across in shares:
        x, y = box.x0 + along * room[0], box.y0 + across * room[1]
        yield Box(x, y, x + long, y + wide)


def _free_of(
    area: Region, course: _Course, design: Design, plane: Plane, words: list[Region]
) -> Region:
    """What nothing stands on of an area along a course; its own edge may be touched."""
    standing = [
        Region.of(course.here(corner) for corner in surface_to_plan(plane, array.hardware))
        for array in design.arrays
        if array.plane.id == plane.id
    ]
    standing += [
        Region.of(course.here(corner) for corner in obstruction_extent(item).corners)
        for item in design.obstructions
        if item.plane.id == plane.id
    ]
    standing += [
        Region.of(map(course.here, below_outline(design, item)))
        for item in design.inputs.job.building.openings_below_eaves or ()
        if item.plane == plane.id
    ]
    return area.grown(_TOUCH).less(*words, *standing)


def _along_rafters(plane: Plane, course: _Course) -> float:
    return plane.downslope[0] * course.along[0] + plane.downslope[1] * course.along[1]


def _room(hole: Box, rafters: list[float]) -> float:
    """How far the nearest rafter stays off words that run along it; 0 when it runs through [in]."""
    return min((max(hole.y0 - y, y - hole.y1, 0.0) for y in rafters), default=hole.height)


def _words(area: AccessArea) -> tuple[str, ...]:
    width = required_inches(area.required_in)
    match area.kind:
        case AreaKind.PATHWAY | AreaKind.ESCAPE_PATHWAY:
            return (AREA_NAMES[area.kind], f"{width} MIN. CLEAR")
        case AreaKind.PERIMETER | AreaKind.INTERIOR_PATHWAY | AreaKind.HATCH_CLEARANCE:
            return (f"{AREA_NAMES[area.kind]} {width} MIN. CLEAR",)
        case _:
            return (f"{AREA_NAMES[area.kind]} {width} MIN. ON SLOPE",)
