"""Running dimensions: every distance from one datum, as a crew reads them off one tape."""

from __future__ import annotations

from collections.abc import Sequence

from planset.drawing.dimension import (
    EXTENSION_GAP,
    ON_SLOPE,
    TEXT_GAP,
    TEXT_HEIGHT,
    leader,
)
from planset.drawing.geometry import Point, direction_deg, distance, offset_left, readable, toward
from planset.drawing.primitives import Area, Circle, Dimension, Line, Polyline, Text
from planset.drawing.text import SLACK, text_width
from planset.units import format_feet_inches

DATUM_RADIUS = 0.04
TAIL = 0.1  # of an extension line past the line of arrows


def running_dimensions(
    datum: Point,
    points: Sequence[Point],
    offset: float,
    layer: str,
    model_per_paper: float,
    *,
    slope_factor: float = 1.0,
    denominator: int = 16,
) -> tuple[Dimension, ...]:
    """Distances of points in one line from a datum in the same line.

    One line of arrows starts at a small circle over the datum; each point's figure stands at
    the end of its extension line: along the line where neighbors leave room, else across it.

    Args:
        datum: Where the tape is hooked [paper in].
        points: What is marked off, in any order, all on the same side of the datum [paper in].
        offset: Distance of the line of arrows to the left of datum-to-points; negative to
            the right [in].
        layer: Layer of the marks.
        model_per_paper: Scale factor of the view, unitless.
        slope_factor: Over 1 when the line runs up a roof slope seen in plan.
        denominator: Fractions of an inch in the figures.
    """
    ordered = sorted(points, key=lambda point: distance(datum, point))
    values = [distance(datum, point) * model_per_paper * slope_factor for point in ordered]
    suffix = f" {ON_SLOPE}" if slope_factor > 1 else ""
    figures = [format_feet_inches(value, denominator=denominator) + suffix for value in values]
    along = _have_room(ordered, figures)
    made: list[Dimension] = []
    before = datum
    for point, value, figure in zip(ordered, values, figures, strict=True):
        made.append(
            _running(
                datum,
                before,
                point,
                figure,
                offset,
                layer,
                value=value,
                along=along,
                slope_factor=slope_factor,
            )
        )
        before = point
    return tuple(made)


def _have_room(points: Sequence[Point], figures: list[str]) -> bool:
    widths = [text_width(figure, TEXT_HEIGHT) * SLACK for figure in figures]
    return all(
        distance(a, b) > (wide_a + wide_b) / 2 + TEXT_GAP
        for a, b, wide_a, wide_b in zip(points, points[1:], widths, widths[1:], strict=False)
    )


def _running(
    datum: Point,
    before: Point,
    point: Point,
    figure: str,
    offset: float,
    layer: str,
    *,
    value: float,
    along: bool,
    slope_factor: float,
) -> Dimension:
    dx, dy = offset_left(datum, point, offset)
    line_a, line_b = (datum[0] + dx, datum[1] + dy), (point[0] + dx, point[1] + dy)
    start = (before[0] + dx, before[1] + dy)
    tail = toward(line_b, point, -TAIL)
    marks: list[Line | Polyline | Circle | Area | Text] = [
        Line(toward(point, line_b, EXTENSION_GAP), tail, layer)
    ]
    if before == datum:
        marks.append(Line(toward(datum, line_a, EXTENSION_GAP), line_a, layer))
        marks.append(Circle(line_a, DATUM_RADIUS, layer))
    arrow = leader((start, line_b), layer)
    marks += arrow.marks
    text = _figure(figure, point, tail, datum, layer, along=along)
    marks.append(text)
    return Dimension(
        datum,
        point,
        line_a,
        line_b,
        figure,
        text.at,
        TEXT_HEIGHT,
        layer,
        value,
        slope_factor,
        tuple(marks),
        running=True,
    )


def _figure(
    figure: str, point: Point, tail: Point, datum: Point, layer: str, *, along: bool
) -> Text:
    """The figure past the tail of its extension line, read from the bottom or the right."""
    turn = direction_deg(*(readable(datum, point) if along else readable(point, tail)))
    half = TEXT_HEIGHT / 2 if along else text_width(figure, TEXT_HEIGHT) / 2
    at = toward(tail, point, -(TEXT_GAP + half))
    return Text(figure, at, TEXT_HEIGHT, layer, "middle", turn)
