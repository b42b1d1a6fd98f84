"""Choosing the scale of a view and its place on the page."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from types import MappingProxyType

from planset.drawing.geometry import Box, Point
from planset.drawing.page import Scale, View
from planset.drawing.primitives import Line, Primitive, Text
from planset.drawing.text import NOTE_HEIGHT

_MATCH_LINE_OUT = 0.4  # of an upright match line above the thing it cuts [paper in]
BESIDE_MATCH_LINE = 0.06
_PAST_MATCH_LINE = MappingProxyType(
    # of a view shown past a match line, past a level one with room for its words [paper in]
    {"left": 0.12, "right": 0.12, "top": 0.32, "bottom": 0.32}
)


class ViewTooLargeError(ValueError):
    """No standard scale is small enough for the place a view was given."""


@dataclass(frozen=True, slots=True)
class Margins:
    """Room for annotation around the drawn thing [paper in]."""

    left: float
    right: float
    top: float
    bottom: float


def fit_view(
    number: int,
    title: str,
    extent: Box,
    margins: Margins,
    place: Box,
    scales: tuple[Scale, ...],
    model: tuple[Primitive, ...],
) -> View:
    """A view at the largest scale at which thing and annotation fit the place, centered in it.

    Args:
        number: View number on its sheet.
        title: Capitals.
        extent: What is drawn, in model inches.
        margins: Room for annotation [paper in].
        place: Where the view goes [paper in].
        scales: Scales to try, largest first.
        model: What the view shows.

    Raises:
        ViewTooLargeError: It fits at none of the scales.
    """
    for scale in scales:
        width = extent.width / scale.factor + margins.left + margins.right
        height = extent.height / scale.factor + margins.bottom + margins.top
        if width <= place.width + 1e-9 and height <= place.height + 1e-9:
            window = Box(
                extent.x0 - margins.left * scale.factor,
                extent.y0 - margins.bottom * scale.factor,
                extent.x1 + margins.right * scale.factor,
                extent.y1 + margins.top * scale.factor,
            )
            at = (place.center[0] - width / 2, place.center[1] - height / 2)
            return View(number, title, scale, window, at, model, ())
    msg = f"{title} does not fit {place.width:.1f} x {place.height:.1f} in at any standard scale"
    raise ViewTooLargeError(msg)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a thing that is drawn in several views.

    Attributes:
        view: The view of this part.
        extent: The part itself [model in].
        neighbors: Per side that is cut, "left", "right", "top" or "bottom", the number of the
            part beyond, counted from 0; empty for a thing drawn whole.
    """

    view: View
    extent: Box
    neighbors: Mapping[str, int]


def fit_or_split(
    title: str,
    extent: Box,
    margins: Margins,
    place: Box,
    scales: tuple[Scale, ...],
    model: tuple[Primitive, ...],
    between: tuple[Sequence[float], Sequence[float]] = ((), ()),
) -> tuple[Part, ...]:
    """One view at the largest scale that fits, or about equal parts at the smallest scale.

    Args:
        title: Capitals.
        extent: What is drawn, in model inches.
        margins: Room for annotation; past a cut there is only room for the match line [paper in].
        place: Where each view goes, on a page of its own [paper in].
        scales: Scales to try, largest first.
        model: What the views show.
        between: Where upright and level cuts run best, if they can; else they make the parts
            equal [model in].

    Raises:
        ViewTooLargeError: The margins alone fill the place.
    """
    with suppress(ViewTooLargeError):
        whole = fit_view(1, title, extent, margins, place, scales, model)
        return (Part(whole, extent, MappingProxyType({})),)
    most = {side: max(getattr(margins, side), past) for side, past in _PAST_MATCH_LINE.items()}
    wide = place.width - most["left"] - most["right"]
    high = place.height - most["top"] - most["bottom"]
    if min(wide, high) <= 0:
        msg = f"{title} leaves no room beside its annotation; give it a larger sheet"
        raise ViewTooLargeError(msg)
    factor = scales[-1].factor
    columns = math.ceil(extent.width / factor / wide - 1e-9)
    rows = math.ceil(extent.height / factor / high - 1e-9)
    across = _cuts(extent.x0, extent.x1, columns, wide * factor, between[0])
    up = _cuts(extent.y0, extent.y1, rows, high * factor, between[1])
    parts = []
    for number in range(columns * rows):
        row, column = divmod(number, columns)
        box = Box(across[column], up[rows - 1 - row], across[column + 1], up[rows - row])
        neighbors = _neighbors(number, column, columns, row, rows)
        room = Margins(
            **{
                side: past if side in neighbors else getattr(margins, side)
                for side, past in _PAST_MATCH_LINE.items()
            }
        )
        name = f"{title}, PART {number + 1}"
        view = fit_view(1, name, box, room, place, scales[-1:], model)
        parts.append(Part(view, box, neighbors))
    return tuple(parts)


def _cuts(start: float, end: float, count: int, most: float, best: Sequence[float]) -> list[float]:
    """Where a length is cut into so many parts, none longer than the most."""
    step = (end - start) / count
    slack = (most - step) / 2  # by which both ends of a part may move
    made = [start]
    for number in range(1, count):
        equal = start + number * step
        near = [place for place in best if abs(place - equal) <= slack]
        made.append(min(near, key=lambda place: abs(place - equal), default=equal))
    return [*made, end]


def _neighbors(number: int, column: int, columns: int, row: int, rows: int) -> Mapping[str, int]:
    beyond = {
        "left": (column > 0, number - 1),
        "right": (column < columns - 1, number + 1),
        "top": (row > 0, number - columns),
        "bottom": (row < rows - 1, number + columns),
    }
    return MappingProxyType({side: other for side, (cut, other) in beyond.items() if cut})


def match_lines(part: Part, sheets: Sequence[str]) -> tuple[Primitive, ...]:
    """A line along each cut side of a part, naming the sheet that goes on there.

    Args:
        part: The part.
        sheets: Sheet id of every part.
    """
    at = part.view.on_paper.apply
    a, b, c, d = (at(corner) for corner in part.extent.corners)
    sides = {"left": (a, d), "right": (b, c), "top": (d, c), "bottom": (a, b)}
    made: list[Primitive] = []
    for side, other in part.neighbors.items():
        start, end = sides[side]
        words = f"MATCH LINE, SEE {sheets[other]}"
        if side in ("left", "right"):
            start, end = _past_the_thing(part, start, end)
            inward = BESIDE_MATCH_LINE if side == "left" else -BESIDE_MATCH_LINE
            foot = "top" in part.neighbors and "bottom" not in part.neighbors
            place = (end[0] + inward, start[1] if foot else end[1] - NOTE_HEIGHT)
            align = "left" if side == "left" else "right"
        else:
            inward = BESIDE_MATCH_LINE if side == "bottom" else -BESIDE_MATCH_LINE - NOTE_HEIGHT
            place, align = (start[0] + _MATCH_LINE_OUT, start[1] + inward), "left"
        made.append(Line(start, end, "G-ANNO-MTCH"))
        made.append(Text(words, place, NOTE_HEIGHT, "G-ANNO-TEXT", align))
    return tuple(made)


def _past_the_thing(part: Part, foot: Point, head: Point) -> tuple[Point, Point]:
    """The ends of an upright match line, drawn out above the thing or, where that is cut, below."""
    if "top" not in part.neighbors:
        return foot, (head[0], head[1] + _MATCH_LINE_OUT)
    if "bottom" not in part.neighbors:
        return (foot[0], foot[1] - _MATCH_LINE_OUT), head
    return foot, head
