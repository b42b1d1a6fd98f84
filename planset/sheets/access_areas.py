"""Fire access areas on a plan: outline, hatch, and words in a gap of the hatch."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.access_area import AccessArea
from planset.design.design import Design
from planset.design.layout import surface_to_plan
from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.hatching import hatch
from planset.drawing.page import View
from planset.drawing.primitives import Block, Polyline, Primitive, Text
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, SLACK, text_width
from planset.roof.plane import Plane
from planset.sheets.plan_blocks import obstruction_extent
from planset.sheets.words import inches

ACCESS = "FIRE-ACCESS"

_HATCH_SPACING_IN = {"pathway": 9.0, "ridge setback": 6.0}
_HATCH_ANGLE_DEG = {"pathway": 45.0, "ridge setback": -45.0}
_GAP = 0.05  # free of hatch around the words [paper in]


@dataclass(frozen=True, slots=True)
class AreaLabel:
    """Words that stand in an access area.

    Attributes:
        area: The area.
        lines: The words.
        center: Their middle, in plan [model in].
        upright: Whether they run up the page.
        hole: What the hatch leaves free, in plan [model in].
    """

    area: AccessArea
    lines: tuple[str, ...]
    center: Point
    upright: bool
    hole: Box


def area_labels(design: Design, factor: float) -> tuple[AreaLabel, ...]:
    """The words of every area that has room for them at a scale.

    Args:
        design: The design.
        factor: Model inches per paper inch.
    """
    made = (_label(design, area, factor) for area in design.access_areas)
    return tuple(label for label in made if label is not None)


def access_block(design: Design, labels: tuple[AreaLabel, ...]) -> Block:
    """Outlines and hatch of all areas, the hatch broken where the words stand."""
    holes = {label.area: label.hole for label in labels}
    made: list[Primitive] = []
    for area in design.access_areas:
        corners = surface_to_plan(design.roof.plane(area.plane), area.surface)
        made.append(Polyline(corners, "F-ROOF-ACCS", closed=True))
        gap = (holes[area].corners,) if area in holes else ()
        spacing, angle = _HATCH_SPACING_IN[area.kind], _HATCH_ANGLE_DEG[area.kind]
        made += hatch(corners, spacing, angle, "F-ROOF-ACCS-PATT", gap)
    return Block(ACCESS, tuple(made), "Fire access pathways and ridge setbacks")


def area_texts(labels: tuple[AreaLabel, ...], view: View) -> tuple[Text, ...]:
    """The words, on paper."""
    made: list[Text] = []
    for label in labels:
        x, y = view.on_paper.apply(label.center)
        pitch = NOTE_HEIGHT * LINE_PITCH
        first = (len(label.lines) - 1) * pitch / 2
        for number, words in enumerate(label.lines):
            shift = first - number * pitch
            at = (x - shift, y) if label.upright else (x, y + shift)
            turn = 90.0 if label.upright else 0.0
            made.append(Text(words, at, NOTE_HEIGHT, "F-ANNO-TEXT", "middle", turn))
    return tuple(made)


def _label(design: Design, area: AccessArea, factor: float) -> AreaLabel | None:
    """The label at the best free place along its area, None when there is none."""
    plane = design.roof.plane(area.plane)
    box = box_around(surface_to_plan(plane, area.surface))
    upright = box.height > box.width
    lines = _words(area)
    long = (max(text_width(line, NOTE_HEIGHT) for line in lines) * SLACK + 2 * _GAP) * factor
    wide = (NOTE_HEIGHT * (1 + (len(lines) - 1) * LINE_PITCH) + 2 * _GAP) * factor
    width, height = (wide, long) if upright else (long, wide)
    if width > box.width or height > box.height:
        return None
    xs = _ACROSS if upright else _ALONG
    ys = _ALONG if upright else _ACROSS
    taken = _stands_on(design, plane)
    holes = [
        Box(x, y, x + width, y + height)
        for x in (box.x0 + share * (box.width - width) for share in xs)
        for y in (box.y0 + share * (box.height - height) for share in ys)
    ]
    free = [hole for hole in holes if not any(hole.overlaps(other) for other in taken)]
    if not free:
        return None
    rafters = [plane.to_plan((r.u_in, 0.0))[0] for r in design.rafters if r.plane == plane.id]
    hole = max(free, key=lambda hole: _room(hole, rafters) if upright else 0.0)
    return AreaLabel(area, lines, hole.center, upright, hole)


_ALONG = (0.25, 0.5, 0.75, 0.0, 1.0)
"""Shares of the free length of an area at which its words are tried, best first."""

_ACROSS = tuple(n / 20 for n in (10, 9, 11, 8, 12, 7, 13, 6, 14, 5, 15, 4, 16, 3, 17, 2, 18, 1, 19))


def _stands_on(design: Design, plane: Plane) -> list[Box]:
    """What stands on a plane, in plan [in]."""
    arrays = [array.hardware for array in design.arrays if array.plane.id == plane.id]
    standing = [item for item in design.obstructions if item.plane.id == plane.id]
    return [
        *(box_around(surface_to_plan(plane, surface)) for surface in arrays),
        *(obstruction_extent(item) for item in standing),
    ]


def _room(hole: Box, rafters: list[float]) -> float:
    """How far the nearest rafter stays off words that run along it; 0 when it runs through [in]."""
    return min((max(hole.x0 - x, x - hole.x1, 0.0) for x in rafters), default=hole.width)


def _words(area: AccessArea) -> tuple[str, ...]:
    width = inches(area.required_in)
    if area.kind == "pathway":
        return ("FIRE ACCESS PATHWAY", f"{width} MIN. CLEAR")
    return (f"RIDGE SETBACK {width} MIN. ON SLOPE",)
