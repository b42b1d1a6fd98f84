"""Each dimension says the distance it is drawn at, or where so marked that on the slope."""

from __future__ import annotations

import re
from collections.abc import Iterator

from planset.drawing.dimension import ON_SLOPE
from planset.drawing.geometry import distance
from planset.drawing.primitives import Dimension, Text
from planset.finding import Finding
from planset.review.page_rule import PageRule
from planset.review.plotted import PlottedDimension
from planset.review.reviewed_page import ReviewedPage
from planset.units import FLOAT_NOISE_IN, parse_length

CLEAR = "CLEAR"
"""Word after a figure that states room there is; such a figure is rounded down."""

MINIMUM = "MIN."
"""Word after a figure that states room there must be; such a figure is rounded up."""

_DRAWN_TRUE = 0.01  # a value may differ from the geometry by this, as paper inches leave noise [in]
_FIGURE = re.compile(r'[^"]*"')
_FRACTION = re.compile(r'/(\d+)"')
_PLAN_FACTOR = 24.0  # scales from here on are plans
_PLAN_STEP, _DETAIL_STEP = 1 / 2, 1 / 8  # coarsest rounding of a figure [in]


def check(sheet: ReviewedPage) -> Iterator[Finding]:
    """Compare geometry, value and printed figure of each dimension."""
    for item in sheet.items:
        for plotted in item.dimensions:
            yield from _geometry(sheet, plotted)
            yield from _marking(sheet, plotted.dimension)
            yield from _figure(sheet, plotted)


def _geometry(sheet: ReviewedPage, plotted: PlottedDimension) -> Iterator[Finding]:
    """The value is the distance between the points, and the dimension line is as long."""
    dimension = plotted.dimension
    drawn = distance(dimension.a, dimension.b) * plotted.true_per_drawn
    line = distance(dimension.line_a, dimension.line_b) * plotted.true_per_drawn
    if abs(line - drawn) > _DRAWN_TRUE:
        yield _fault(sheet, dimension, "has a line of", line, drawn, "between its points")
    true = drawn * dimension.slope_factor
    if abs(dimension.value_in - true) > _DRAWN_TRUE:
        whence = "on the plane" if dimension.on_slope else "as drawn"
        yield _fault(sheet, dimension, "states", dimension.value_in, true, whence)


def _marking(sheet: ReviewedPage, dimension: Dimension) -> Iterator[Finding]:
    """ON SLOPE stands after a distance on the roof surface and after no other."""
    if (ON_SLOPE in dimension.text) != dimension.on_slope:
        amiss = f"lacks {ON_SLOPE}" if dimension.on_slope else f"says {ON_SLOPE} in plan"
        message = f'dimension "{dimension.text}" {amiss}; correct its words'
        yield RULE.fault(sheet, message, dimension.text)


def _figure(sheet: ReviewedPage, plotted: PlottedDimension) -> Iterator[Finding]:
    """The figure is drawn, can be read back, and is the value within its rounding."""
    dimension = plotted.dimension
    drawn = [mark.text for mark in dimension.marks if isinstance(mark, Text)]
    if drawn != [dimension.text]:
        message = f'dimension "{dimension.text}" draws the words {drawn}; draw its own figure'
        yield RULE.fault(sheet, message, dimension.text)
    printed = _printed_in(dimension.text)
    if printed is None:
        message = f'dimension "{dimension.text}" starts with no length; print feet and inches'
        yield RULE.fault(sheet, message, dimension.text)
        return
    words, step = dimension.text.split(), _step(plotted)
    under, over, so = step / 2, step / 2, "rounded"
    if CLEAR in words:
        under, over, so = step, 0.0, "rounded down"
    elif MINIMUM in words:
        under, over, so = 0.0, step, "rounded up"
    least, most = dimension.value_in - under, dimension.value_in + over
    if not least - FLOAT_NOISE_IN <= printed <= most + FLOAT_NOISE_IN:
        yield _fault(sheet, dimension, "reads", printed, dimension.value_in, f"to be {so}")


def _printed_in(text: str) -> float | None:
    """The length a dimension's text begins with [in]."""
    figure = _FIGURE.match(text)
    try:
        return parse_length(figure[0]) if figure else None
    except ValueError:
        return None


def _step(plotted: PlottedDimension) -> float:
    """The coarsest step a figure may be rounded to [in]."""
    step = _PLAN_STEP if plotted.view_factor >= _PLAN_FACTOR else _DETAIL_STEP
    fraction = _FRACTION.search(plotted.dimension.text)
    return min(step, 1 / int(fraction[1])) if fraction else step


def _fault(
    sheet: ReviewedPage, dimension: Dimension, says: str, found: float, true: float, whence: str
) -> Finding:
    return RULE.fault(
        sheet,
        f'dimension "{dimension.text}" {says} {found:.3f} in, but it is {true:.3f} in {whence}; '
        "measure it again",
        dimension.text,
        measured=found,
        limit=true,
        unit="in",
    )


RULE = PageRule(
    id="drafting.dimension-true",
    title="Dimensions equal their geometry",
    check=check,
)
