"""Choosing the scale of a view and its place on the page."""

from __future__ import annotations

from dataclasses import dataclass

from planset.drawing.geometry import Box
from planset.drawing.page import Scale, View
from planset.drawing.primitives import Primitive


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
