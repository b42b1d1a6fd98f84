"""Links on finished pages lead from what names a sheet or view to it, and back."""

from __future__ import annotations

from dataclasses import replace

from planset.drawing.furniture import bubble, view_title
from planset.drawing.geometry import Box
from planset.drawing.page import Page, Scale, TitleBlock, View
from planset.drawing.primitives import Link, Primitive, Text
from planset.sheets.links import linked
from tests.sheets.drawn_sets import title_block

SCALE = Scale(48, '1/4" = 1\'-0"')


def view(number: int, *annotation: Primitive) -> View:
    return View(number, f"VIEW {number}", SCALE, Box(0, 0, 96, 96), (2.0, 2.0), (), annotation)


def page(sheet: str, *paper: Primitive, views: tuple[View, ...] = ()) -> Page:
    return Page(sheet, "TITLE", block().name, views, paper)


def block() -> TitleBlock:
    return title_block()


def words(text: str, y: float = 5.0) -> Text:
    return Text(text, (5.0, y), 0.1, "G-ANNO-TEXT")


def targets(*pages: Page, others: tuple[str, ...] = ()) -> dict[str, list[tuple[str, int]]]:
    """Per sheet where its new links lead."""
    found = {}
    for before, after in zip(pages, linked(pages, block(), "G-001", others), strict=True):
        new = after.paper[len(before.paper) :]
        assert after == replace(before, paper=(*before.paper, *new))
        found[after.sheet] = [(p.sheet, p.view) for p in new if isinstance(p, Link)]
        assert len(found[after.sheet]) == len(new)
    return found


COVER = page("G-001")
TITLE = view_title(1, "S-501", "DETAIL", SCALE, (2.0, 1.0))
DETAILS = page("S-501", *TITLE, views=(view(1), view(2)))


def test_a_bubble_leads_to_its_view_and_the_view_back() -> None:
    plan = page("A-101", views=(view(1, *bubble((3, 3), "1", "S-501")),))
    assert targets(COVER, plan, DETAILS) == {
        "G-001": [],
        "A-101": [("S-501", 1), ("G-001", 0)],
        "S-501": [("A-101", 1), ("G-001", 0)],
    }


def test_a_view_nobody_calls_for_has_no_way_back() -> None:
    assert targets(COVER, page("A-101"), DETAILS)["S-501"] == [("G-001", 0)]


def test_the_way_back_is_to_the_first_who_calls() -> None:
    first = page("A-101", *bubble((3, 3), "1", "S-501"))
    second = page("S-101", *bubble((3, 3), "1", "S-501"))
    assert targets(COVER, first, second, DETAILS)["S-501"][0] == ("A-101", 0)


def test_a_legend_on_a_cover_that_runs_over_calls_for_nothing() -> None:
    legend = page("G-001.1", *bubble((3, 3), "1", "S-501"))
    assert targets(COVER, legend, DETAILS)["S-501"] == [("G-001", 0)]


def test_words_lead_to_sheet_or_view() -> None:
    plan = page("A-101", words("SEE S-501, 2/S-501 AND D-1"))
    found = targets(COVER, plan, DETAILS, others=("D-1",))
    assert found["A-101"] == [("S-501", 0), ("S-501", 2), ("D-1", 0), ("G-001", 0)]


def test_what_is_not_in_the_set_or_the_page_itself_gets_none() -> None:
    plan = page("A-101", words("A-101, S-701"), *bubble((3, 3), "1", "S-702"))
    assert targets(COVER, plan)["A-101"] == [("G-001", 0)]


def test_without_a_cover_nothing_leads_to_it() -> None:
    assert targets(page("A-101")) == {"A-101": []}


def test_what_has_a_link_gets_no_second_one() -> None:
    row = Link((4.9, 4.9), (9.0, 5.2), "S-501")
    plan = page("A-101", words("S-501"), row)
    assert targets(COVER, plan, DETAILS)["A-101"] == [("G-001", 0)]


def test_the_way_to_the_index_lies_on_the_sheet_id() -> None:
    _, plan = linked((COVER, page("A-101")), block(), "G-001")
    (link,) = plan.paper
    assert isinstance(link, Link)
    assert Box(*link.lower_left, *link.upper_right) == block().fields["SHEET_ID"].box
