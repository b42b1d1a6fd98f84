"""Fire access areas on a plan: outline, hatch, and words in a gap of the hatch."""

from __future__ import annotations

from dataclasses import dataclass

from planset.design.access import AccessArea
from planset.design.design import Design
from planset.design.layout import surface_to_plan
from planset.design.roof import Plane
from planset.drawing.geometry import Box, Point, box_around
from planset.drawing.hatching import hatch
from planset.drawing.page import View
from planset.drawing.primitives import Block, Polyline, Primitive, Text
from planset.drawing.text import LINE_PITCH, NOTE_HEIGHT, SLACK, text_width
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
    made = []
    for area in design.access_areas:
        rafters = [rafter.u_in for rafter in design.rafters if rafter.plane == area.plane]
        label = _label(area, design.roof.plane(area.plane), rafters, factor)
        if label is not None:
            made.append(label)
    return tuple(made)


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


def _label(area: AccessArea, plane: Plane, rafters: list[float], factor: float) -> AreaLabel | None:
    box = box_around(surface_to_plan(plane, area.surface))
    upright = box.height > box.width
    lines = _words(area)
    long = (max(text_width(line, NOTE_HEIGHT) for line in lines) * SLACK + 2 * _GAP) * factor
    wide = (NOTE_HEIGHT * (1 + (len(lines) - 1) * LINE_PITCH) + 2 * _GAP) * factor
    width, height = (wide, long) if upright else (long, wide)
    if width > box.width or height > box.height:
        return None
    x, y = box.center
    if upright:
        lines_x = [plane.to_plan((u, area.surface.center[1]))[0] for u in rafters]
        x = _between(lines_x, box, width)
    else:
        x = box.x0 + 0.28 * box.width  # clear of what is dimensioned in the middle of the ridge
    hole = Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
    return AreaLabel(area, lines, (x, y), upright, hole)


def _between(lines: list[float], box: Box, width: float) -> float:
    """The middle of a strip of words within a box, off the lines that run along it if it can."""
    low, high = box.x0 + width / 2, box.x1 - width / 2
    steps = 20
    places = [low + (high - low) * n / steps for n in range(steps + 1)]

    def room(x: float) -> float:
        return min((abs(x - line) for line in lines), default=width)

    clear = [x for x in places if room(x) >= width / 2]
    return min(clear or places, key=lambda x: (-room(x), x))


def _words(area: AccessArea) -> tuple[str, ...]:
    width = inches(area.required_in)
    if area.kind == "pathway":
        return ("FIRE ACCESS PATHWAY", f"{width} MIN. CLEAR")
    return (f"RIDGE SETBACK {width} MIN. ON SLOPE",)
