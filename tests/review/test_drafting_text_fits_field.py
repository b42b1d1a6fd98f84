"""Fields of the title block."""

from review_pages import NUMBER, judged, offences, page, text

from planset.drawing.page import Page
from planset.drawing.primitives import Attribute, Insert, Text
from planset.review.drafting.text_fits_field import RULE


def with_field(words: str, y: float = NUMBER.at[1]) -> Page:
    written = Text(words, (NUMBER.at[0], y), NUMBER.height, NUMBER.layer, NUMBER.align)
    fields = (Attribute("SHEET_ID", words, written), Attribute("ID", "carried"))
    border = Insert("BORDER", (0, 0), "G-ANNO-TTLB", attributes=fields)
    return Page("A-101", "A PAGE", "BORDER", (), (border,))


def test_field_that_fits_passes() -> None:
    assert offences(RULE, with_field("A-101")) == []
    assert offences(RULE, with_field("")) == []


def test_field_too_wide_is_caught_with_its_width() -> None:
    (finding,) = judged(RULE, with_field("A-101.10 AND ON"))
    assert finding.objects == ("A-101", "SHEET_ID", "A-101.10 AND ON")
    assert finding.limit == 1.5
    assert finding.measured is not None
    assert finding.measured > 1.5


def test_field_too_high_is_caught() -> None:
    assert offences(RULE, with_field("A-101", y=0.5)) == [("SHEET_ID", "A-101")]


def test_page_without_title_block_or_with_two_is_caught() -> None:
    bare = Page("A-101", "A PAGE", "BORDER", (), (text("WORDS", 1, 1),))
    assert offences(RULE, bare) == [("BORDER",)]
    assert offences(RULE, page(*page().paper)) == [("BORDER",)]
