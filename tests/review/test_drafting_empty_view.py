"""Views that show nothing."""

from review_pages import TEXT, offences, page, plan

from planset.drawing.geometry import Box
from planset.drawing.primitives import Area, Line, Text
from planset.review.drafting.empty_view import RULE


def test_view_of_the_roof_passes() -> None:
    assert offences(RULE, page(views=(plan(),))) == []


def test_view_of_a_filled_area_passes() -> None:
    filled = plan(model=(Area(((0, 0), (9, 0), (9, 9)), TEXT),))
    assert offences(RULE, page(views=(filled,))) == []


def test_window_beside_the_model_is_caught() -> None:
    beside = plan(window=Box(100, 100, 196, 196))
    assert offences(RULE, page(views=(plan(), beside))) == []  # same number: shown once
    assert offences(RULE, page(views=(beside,))) == [("ROOF PLAN",)]


def test_words_and_annotation_alone_are_caught() -> None:
    bare = plan(Line((2, 2), (3, 3), TEXT), model=(Text("WORDS", (0, 0), 6, TEXT),))
    assert offences(RULE, page(views=(bare,))) == [("ROOF PLAN",)]
