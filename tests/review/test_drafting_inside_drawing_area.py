"""Things outside of the drawing area or cut by a view's frame."""

import pytest
from review_pages import TEXT, offences, page, plan, text

from planset.drawing.primitives import Insert, Line, Link, Primitive, Text
from planset.drawing.revision_marks import DELTA_LAYER
from planset.review.drafting.inside_drawing_area import RULE


def test_page_that_keeps_to_its_area_passes() -> None:
    everything = page(
        Line((0.5, 0.5), (7.5, 7.5), TEXT), text("IN", 1, 5), views=(plan(text("IN", 2, 2)),)
    )
    assert offences(RULE, everything) == []


@pytest.mark.parametrize(
    ("primitive", "named"),
    [
        (text("TOO FAR RIGHT", 7.4, 3), '"TOO FAR RIGHT"'),
        (Line((0.4, 1), (2, 1), TEXT), f"line on {TEXT}"),
        (Insert("MODULE", (7, 7), TEXT, scale=0.05), "block MODULE"),
        (Link((7, 7), (8, 7.2), "A-101"), "link"),
    ],
    ids=["text", "line", "insert", "link"],
)
def test_paper_outside_is_caught(primitive: Primitive, named: str) -> None:
    assert offences(RULE, page(primitive)) == [(named,)]


def test_a_delta_may_stand_on_a_field_of_the_title_block() -> None:
    on_field, beside = ((9.5, 0.3), (10.3, 0.3))  # of the box for the sheet's id
    for at, found in ((on_field, []), (beside, [("block MODULE",)])):
        made = Insert("MODULE", at, DELTA_LAYER, scale=0.005)
        assert offences(RULE, page(made)) == found
    assert offences(RULE, page(Insert("MODULE", on_field, TEXT, scale=0.005))) != []


def test_frame_outside_is_caught() -> None:
    assert offences(RULE, page(views=(plan(at=(6.0, 1.0)),))) == [("ROOF PLAN",)]


def test_annotation_that_the_frame_cuts_is_caught() -> None:
    assert offences(RULE, page(views=(plan(text("LONG LABEL", 2.8, 2)),))) == [('"LONG LABEL"',)]


def test_model_may_run_past_the_frame_but_not_its_words() -> None:
    beyond = (Line((0, 0), (500, 0), TEXT), Text("GONE", (500, 0), 6, TEXT))
    assert offences(RULE, page(views=(plan(model=beyond),))) == []
    cut = (Text("CUT", (85, 0), 6, TEXT),)
    assert offences(RULE, page(views=(plan(model=cut),))) == [('"CUT"',)]
