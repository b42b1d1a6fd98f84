"""Views over one another and over words beside them."""

from review_pages import offences, page, plan, text

from planset.review.drafting.views_apart import RULE


def test_views_side_by_side_pass() -> None:
    assert offences(RULE, page(views=(plan(), plan(number=2, at=(3.0, 1.0))))) == []


def test_overlapping_frames_are_caught() -> None:
    other = plan(number=2, title="DETAIL", at=(2.9, 1.0))
    assert offences(RULE, page(views=(plan(), other))) == [("ROOF PLAN", "DETAIL")]


def test_words_of_the_paper_in_a_frame_are_caught() -> None:
    assert offences(RULE, page(text("BESIDE", 3.1, 2), views=(plan(),))) == []
    assert offences(RULE, page(text("WITHIN", 2.8, 2), views=(plan(),))) == [
        ("ROOF PLAN", "WITHIN")
    ]


def test_annotation_of_the_view_itself_passes() -> None:
    assert offences(RULE, page(views=(plan(text("LABEL", 2, 2)),))) == []
