"""Dimensions against their geometry."""

from dataclasses import replace

import pytest
from review_pages import TEXT, judged, offences, page, plan

from planset.drawing.dimension import dimension
from planset.drawing.geometry import Box
from planset.drawing.page import Scale
from planset.drawing.primitives import Block, Dimension, Insert, Text
from planset.review.drafting.dimension_true import RULE

# 48 in of roof at 1:48.
FOUR_FEET = dimension((1.5, 2), (2.5, 2), 0.3, "A-ANNO-DIMS", 48.0)
# At 5:12 the surface is 13/12 as long as its plan.
ON_SLOPE = dimension((1.5, 1.5), (1.5, 2.5), 0.3, "A-ANNO-DIMS", 48.0, slope_factor=13 / 12)
CLEAR = dimension(
    (1.5, 2), (1.5 + 17.8 / 48, 2), 0.3, "A-ANNO-DIMS", 48.0, rounding="down", suffix="CLEAR"
)

MINIMUM = dimension(
    (1.5, 2), (1.5 + 17.8 / 48, 2), 0.3, "A-ANNO-DIMS", 48.0, rounding="up", suffix="MIN."
)


def relabeled(given: Dimension, text: str) -> Dimension:
    """The dimension with other words, drawn and stated alike."""
    marks = tuple(
        replace(mark, text=text) if isinstance(mark, Text) else mark for mark in given.marks
    )
    return replace(given, text=text, marks=marks)


def found(*dimensions: Dimension) -> list[tuple[str, ...]]:
    return offences(RULE, page(views=(plan(*dimensions),)))


def test_true_dimensions_pass() -> None:
    assert (FOUR_FEET.text, ON_SLOPE.text) == ("4'-0\"", "4'-4\" ON SLOPE")
    assert CLEAR.text == "1'-5 1/2\" CLEAR"
    assert MINIMUM.text == "1'-6\" MIN."
    assert found(FOUR_FEET, ON_SLOPE, CLEAR, MINIMUM) == []


@pytest.mark.parametrize(
    ("wrong", "measured", "limit"),
    [
        (replace(FOUR_FEET, b=(2.6, 2)), 48.0, 52.8),  # line no longer as long as the distance
        (replace(FOUR_FEET, line_b=(2.6, 2.3)), 52.8, 48.0),
        (replace(FOUR_FEET, value_in=60.0), 60.0, 48.0),
        (relabeled(FOUR_FEET, "5'-0\""), 60.0, 48.0),
        (relabeled(FOUR_FEET, "4'-0 1/2\""), 48.5, 48.0),
        (relabeled(FOUR_FEET, "4'-0 1/4\""), 48.25, 48.0),  # finer figures are truer
        (relabeled(CLEAR, "1'-6\" CLEAR"), 18.0, 17.8),  # never more room than there is
        (relabeled(MINIMUM, "1'-5 1/2\" MIN."), 17.5, 17.8),  # never less than there must be
        (replace(ON_SLOPE, value_in=48.0), 48.0, 52.0),  # as long as its plan
        (replace(ON_SLOPE, slope_factor=1.25), 52.0, 60.0),  # of another plane
    ],
    ids=[
        "points",
        "line",
        "value",
        "figure",
        "half an inch",
        "quarter",
        "clearance",
        "minimum",
        "slope",
        "plane",
    ],
)
def test_wrong_dimension_is_caught(wrong: Dimension, measured: float, limit: float) -> None:
    finding = judged(RULE, page(views=(plan(wrong),)))[0]
    assert finding.outcome == "fail"
    assert finding.objects == ("A-101", wrong.text)
    assert (finding.measured, finding.limit) == pytest.approx((measured, limit))


@pytest.mark.parametrize(
    "wrong",
    [
        replace(ON_SLOPE, slope_factor=1.0, value_in=48.0),
        relabeled(ON_SLOPE, "4'-4\""),
        relabeled(FOUR_FEET, "FOUR FEET"),
        relabeled(FOUR_FEET, "4'-13\""),
        replace(FOUR_FEET, text="4'-0\" EQUAL"),
        replace(FOUR_FEET, marks=FOUR_FEET.marks[:-1]),
    ],
    ids=["not on slope", "not marked", "no figure", "13 inches", "other words", "no words"],
)
def test_wrong_words_are_caught(wrong: Dimension) -> None:
    assert (wrong.text,) in found(wrong)


def test_figures_of_a_detail_are_finer() -> None:
    """1 7/8 in rounded to half inches may stand on a plan, not on a detail at 3 in to the foot."""
    scale = Scale(4, '3" = 1\'-0"')
    coarse = dimension((1.5, 2), (1.5 + 1.875 / 4, 2), 0.3, "S-ANNO-DIMS", 4.0, denominator=2)
    fine = dimension((1.5, 2), (1.5 + 1.875 / 4, 2), 0.3, "S-ANNO-DIMS", 4.0, denominator=8)
    window = plan().window
    detail = plan(coarse, fine, scale=scale, window=Box(window.x0, window.y0, 2.0, 2.0))
    assert (coarse.text, fine.text) == ('2"', '1 7/8"')
    assert offences(RULE, page(views=(detail,))) == [('2"',)]


def test_dimension_inside_a_block_is_measured_in_the_model() -> None:
    inside = dimension((0, 0), (84, 0), -12, "A-ANNO-DIMS", 1.0)
    block = Block("DIMENSIONED", (inside,))
    true = plan(model=(Insert("DIMENSIONED", (0, 0), TEXT),))
    doubled = plan(model=(Insert("DIMENSIONED", (0, 0), TEXT, scale=2),))
    assert offences(RULE, page(views=(true,)), blocks=(block,)) == []
    assert offences(RULE, page(views=(doubled,)), blocks=(block,)) == [("7'-0\"",)]
