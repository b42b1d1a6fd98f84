"""Text plotted under 3/32 in."""

import pytest
from review_pages import TEXT, judged, offences, page, plan, text

from planset.drawing.primitives import Block, Insert, Text
from planset.review.drafting.text_height import RULE


@pytest.mark.parametrize("height", [3 / 32, 3 / 32 - 1e-12], ids=["exact", "noise"])
def test_least_height_passes(height: float) -> None:
    assert offences(RULE, page(text("3/32", 1, 1, height=height))) == []


def test_smaller_text_is_caught_with_its_height() -> None:
    (finding,) = judged(RULE, page(text("SMALL", 1, 1, height=0.09)))
    assert finding.objects == ("A-101", "SMALL")
    assert (finding.measured, finding.limit, finding.unit) == (0.09, 0.09375, "in")


@pytest.mark.parametrize(
    ("height", "found"), [(4.5, []), (4.4, [("MODEL",)])], ids=["3/32 at 1:48", "less"]
)
def test_text_in_the_model_counts_as_plotted(height: float, found: list[tuple[str, ...]]) -> None:
    view = plan(model=(Text("MODEL", (0, 0), height, TEXT),))
    assert offences(RULE, page(views=(view,))) == found


def test_text_of_a_shrunken_block_is_caught() -> None:
    block = Block("TAG", (Text("TAG", (0, 0), 0.1, "0"),))
    insert = Insert("TAG", (2, 2), TEXT, scale=0.5)
    assert offences(RULE, page(insert), blocks=(block,)) == [("TAG",)]
