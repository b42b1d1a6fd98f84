"""Text over text."""

import pytest
from review_pages import offences, page, plan, text

from planset.drawing.dimension import dimension
from planset.drawing.primitives import Primitive, Text
from planset.drawing.text import LINE_PITCH, text_width
from planset.review.drafting.text_on_text import RULE


def test_lines_of_a_paragraph_pass() -> None:
    lines = (text("Qgyp", 1, 5 - n * 0.1 * LINE_PITCH) for n in range(3))
    assert offences(RULE, page(*lines)) == []


@pytest.mark.parametrize(
    ("gap", "found"),
    [(0.0, []), (-0.004, []), (-0.006, [("FIRST", "NEXT")])],
    ids=["touching", "a hair", "more"],
)
def test_neighbors_may_overlap_by_a_hair(gap: float, found: list[tuple[str, ...]]) -> None:
    right = 1 + text_width("FIRST", 0.1)
    assert offences(RULE, page(text("FIRST", 1, 5), text("NEXT", right + gap, 5))) == found


def test_turned_text_is_judged_by_its_own_rectangle() -> None:
    """The box around the turned line covers the other text, the line itself does not."""
    turned = text("A RATHER LONG LINE OF WORDS", 2, 2, turned=45)
    assert offences(RULE, page(turned, text("BELOW", 3, 2.2))) == []
    assert len(offences(RULE, page(turned, text("ON IT", 2.5, 2.6)))) == 1


@pytest.mark.parametrize(
    "other",
    [
        text("LABEL", 5, 5.05),
        dimension((4, 5), (6, 5), 0, "A-ANNO-DIMS", 48.0),
        Text("MIDDLE", (5, 5.1), 0.1, "A-ANNO-TEXT", "middle", 180.0),
    ],
    ids=["text", "figure of a dimension", "upside down"],
)
def test_view_paper_and_dimension_are_compared(other: Primitive) -> None:
    view = plan(text("IN VIEW", 4.8, 5.05))
    assert len(offences(RULE, page(other, views=(view,)))) == 1


def test_page_without_text_passes() -> None:
    assert offences(RULE, page()) == []
