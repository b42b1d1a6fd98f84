"""Ink in the seal and approval areas."""

from review_pages import TEXT, offences, page, text, titled

from planset.drawing.page import Page
from planset.drawing.primitives import Attribute, Insert, Line
from planset.review.drafting.reserved_areas_empty import RULE


def test_lines_along_an_area_pass() -> None:
    """The title block of these pages draws a rectangle along its seal area."""
    assert offences(RULE, page()) == []


def test_words_and_lines_in_an_area_are_caught() -> None:
    approval, seal = text("NOTE", 9, 5), Line((7, 2), (9, 2), TEXT)
    assert offences(RULE, page(approval, seal)) == [(f"line on {TEXT}",), ("NOTE",)]


def test_field_of_the_title_block_that_runs_into_an_area_is_caught() -> None:
    field = Attribute("SHEET_ID", "A-101", text("A-101", 8.5, 0.95))
    border = Insert("BORDER", (0, 0), "G-ANNO-TTLB", attributes=(field,))
    assert border != titled()
    assert offences(RULE, Page("A-101", "", "BORDER", (), (border,))) == [("A-101",)]
