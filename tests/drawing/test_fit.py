"""The scale of a view, and where it stands."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planset.drawing.fit import Margins, ViewTooLargeError, fit_view
from planset.drawing.geometry import Box
from planset.drawing.page import DETAIL_SCALES, PLAN_SCALES, Scale
from planset.drawing.primitives import Line

PLACE = Box(1.0, 2.0, 11.0, 9.0)
MARGINS = Margins(left=1.0, right=0.5, top=0.25, bottom=0.75)
SHOWN = (Line((0, 0), (1, 1), "A-ROOF-OTLN"),)


@pytest.mark.parametrize("scales", [PLAN_SCALES, DETAIL_SCALES])
def test_scales_are_as_labelled_and_the_largest_comes_first(scales: tuple[Scale, ...]) -> None:
    for scale in scales:
        inches, foot = scale.label.split(" = ")
        assert foot == "1'-0\""
        whole, _, part = inches.removesuffix('"').rpartition("-")
        top, _, bottom = part.partition("/")
        paper = int(whole or 0) + int(top) / int(bottom or 1)
        assert 12 / paper == scale.factor
    factors = [scale.factor for scale in scales]
    assert factors == sorted(factors)


@given(st.floats(10, 1200), st.floats(10, 1000), st.floats(-500, 500))
def test_it_is_the_largest_scale_that_fits(width: float, height: float, x: float) -> None:
    extent = Box(x, 20.0, x + width, 20.0 + height)
    view = fit_view(3, "ROOF PLAN", extent, MARGINS, PLACE, PLAN_SCALES, SHOWN)
    assert PLACE.contains(view.frame)
    assert view.frame.center == pytest.approx(PLACE.center)
    larger = [scale for scale in PLAN_SCALES if scale.factor < view.scale.factor]
    for scale in larger:
        wide = width / scale.factor + MARGINS.left + MARGINS.right
        high = height / scale.factor + MARGINS.top + MARGINS.bottom
        assert wide > PLACE.width or high > PLACE.height
    assert (view.number, view.title, view.model, view.annotation) == (3, "ROOF PLAN", SHOWN, ())


def test_margins_are_kept_on_paper() -> None:
    extent = Box(0, 0, 480, 240)
    view = fit_view(1, "PLAN", extent, MARGINS, PLACE, PLAN_SCALES, SHOWN)
    lower = view.on_paper.apply((0, 0))
    upper = view.on_paper.apply((480, 240))
    frame = view.frame
    assert lower == pytest.approx((frame.x0 + 1.0, frame.y0 + 0.75))
    assert upper == pytest.approx((frame.x1 - 0.5, frame.y1 - 0.25))
    assert upper[0] - lower[0] == pytest.approx(480 / view.scale.factor)


def test_what_fits_exactly_fits() -> None:
    extent = Box(0, 0, 8.5 * 48, 6.0 * 48)
    assert fit_view(1, "PLAN", extent, MARGINS, PLACE, PLAN_SCALES, SHOWN).scale.factor == 48


def test_what_fits_at_no_scale_is_told() -> None:
    with pytest.raises(ViewTooLargeError, match=r"SITE does not fit 10.0 x 7.0 in"):
        fit_view(1, "SITE", Box(0, 0, 8.5 * 192 + 1, 10), MARGINS, PLACE, PLAN_SCALES, SHOWN)
