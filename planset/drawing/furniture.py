"""What stands around views on every sheet: titles, graphic scales, north arrows."""

from __future__ import annotations

from planset.drawing.geometry import Box, Point
from planset.drawing.page import Scale, View
from planset.drawing.primitives import Area, Insert, Line, Polyline, Primitive, Text
from planset.drawing.text import MINIMUM_HEIGHT, NOTE_HEIGHT, SLACK, SUBTITLE_HEIGHT, text_width
from planset.units import format_feet_inches

BUBBLE = "VIEW_BUBBLE"
NORTH_ARROW = "NORTH_ARROW"
BUBBLE_RADIUS = 5 / 16
BUBBLE_SYMBOL_RADIUS = 1 / 4  # of the symbol before it is scaled [in]
_TITLE_LAYER = "G-ANNO-TITL"
_TEXT_LAYER = "G-ANNO-TEXT"
_SYMBOL_LAYER = "G-ANNO-SYMB"
_BAR_HEIGHT = 0.06
_BESIDE_ARROW = 0.48  # where words stand clear of the arrow's letter, whichever way it points


def bubble(
    center: Point, upper: str, lower: str, *, crowded: bool = False
) -> tuple[Primitive, ...]:
    """A view bubble: the view's number over the sheet it is drawn on.

    Args:
        center: Middle of the circle [paper in].
        upper: The view's number.
        lower: The sheet's id.
        crowded: Whether thin pens run under it for want of a better place.
    """
    x, y = center
    return (
        Insert(BUBBLE, center, _SYMBOL_LAYER, scale=BUBBLE_RADIUS / BUBBLE_SYMBOL_RADIUS),
        Text(upper, (x, y + 0.13), SUBTITLE_HEIGHT, _TEXT_LAYER, "middle", crowded=crowded),
        Text(lower, (x, y - 0.12), MINIMUM_HEIGHT, _TEXT_LAYER, "middle", crowded=crowded),
    )


def title_place(place: Box, frame: Box) -> Point:
    """Where the bubble of a view's title stands: at the foot of its place, but near the view.

    Args:
        place: What the view and its title may use [paper in].
        frame: The view's window [paper in].
    """
    return (max(place.x0 + 0.3, frame.x0 + 0.15), max(place.y0 + 0.36, frame.y0 - 0.85))


def title_and_scale(view: View, sheet: str, at: Point) -> tuple[Primitive, ...]:
    """A view's title with its graphic scale at the right of it.

    Args:
        view: The view.
        sheet: Sheet it is drawn on.
        at: Middle of the bubble [paper in].
    """
    title = view_title(view.number, sheet, view.title, view.scale, at)
    return (*title, *graphic_scale(view.scale, (at[0] + 2.35, at[1] - 0.32), target=1.6))


def view_title(
    number: int, sheet: str, title: str, scale: Scale, at: Point
) -> tuple[Primitive, ...]:
    """Bubble, title over a wide rule, scale below it.

    Args:
        number: View number.
        sheet: Sheet the view is drawn on.
        title: Capitals.
        scale: The view's scale.
        at: Center of the bubble [paper in].
    """
    x, y = at
    left = x + BUBBLE_RADIUS
    height = 0.15
    scale_words = "NOT TO SCALE" if scale.label == "NTS" else f"SCALE: {scale.label}"
    right = left + 0.12 + text_width(title, height) * SLACK
    return (
        *bubble(at, str(number), sheet),
        Text(title, (left + 0.08, y + 0.06), height, _TEXT_LAYER),
        Line((left, y), (right, y), _TITLE_LAYER),
        Text(scale_words, (left + 0.08, y - 0.06 - NOTE_HEIGHT), NOTE_HEIGHT, _TEXT_LAYER),
    )


def graphic_scale(scale: Scale, at: Point, *, target: float = 2.0) -> tuple[Primitive, ...]:
    """A bar of four alternating parts that shrinks with the print.

    Args:
        scale: The view's scale.
        at: Lower left corner of the bar [paper in].
        target: Length to come near to [in].
    """
    x, y = at
    part_in = _round_part(scale.factor * target / 4)
    part = part_in / scale.factor
    made: list[Primitive] = []
    for n in range(4):
        corners = (
            (x + n * part, y),
            (x + (n + 1) * part, y),
            (x + (n + 1) * part, y + _BAR_HEIGHT),
            (x + n * part, y + _BAR_HEIGHT),
        )
        made.append(Polyline(corners, _SYMBOL_LAYER, closed=True))
        if n % 2 == 0:
            made.append(Area(corners, _SYMBOL_LAYER))
    for n in (0, 1, 2, 4):
        figure = format_feet_inches(part_in * n, denominator=1) if n else "0"
        figure = figure.replace('-0"', "")
        place = (x + n * part, y + _BAR_HEIGHT + 0.05)
        made.append(Text(figure, place, MINIMUM_HEIGHT, _TEXT_LAYER, "center"))
    return tuple(made)


def _round_part(inches: float) -> float:
    """The largest tidy length not over `inches`, at least one inch."""
    tidy = (1, 2, 3, 4, 6, 12, 24, 36, 48, 60, 96, 120, 180, 240, 360, 480, 600)
    return float(max(length for length in tidy if length <= max(inches, 1)))


def north_arrow(at: Point, north_deg: float) -> tuple[Primitive, ...]:
    """The north arrow, turned to true north.

    Args:
        at: Center [paper in].
        north_deg: Direction of true north on the page, counterclockwise from the right [deg].
    """
    return (
        Insert(NORTH_ARROW, at, _SYMBOL_LAYER, rotation_deg=north_deg - 90),
        *(
            Text(word, (at[0] + _BESIDE_ARROW, at[1] + level), MINIMUM_HEIGHT, _TEXT_LAYER)
            for word, level in (("TRUE", 0.03), ("NORTH", -0.12))
        ),
    )
