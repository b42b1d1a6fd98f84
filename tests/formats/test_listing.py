"""The listing has a line per primitive and changes only where the page does."""

from __future__ import annotations

import dataclasses

import pytest
from pages import DRAWING, NOTES_PAGE, PLAN_PAGE, PLAN_VIEW

from planset.drawing.primitives import Line, Text
from planset.formats.listing import listing


def lines(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines()]


def test_sheet_views_and_paper_are_in_order() -> None:
    found = lines(listing(PLAN_PAGE, DRAWING.blocks))
    expected = [
        "sheet A-101 |ROOF PLAN| titleblock=BORDER-11X17",
        'view 1 |ROOF PLAN| scale |3/16" = 1\'-0"| 1:64 window -64,-64..448,320 at 1,2',
        'view 2 |FOOT| scale |3" = 1\'-0"| 1:4 window -6,-6..6,6 at 10,2',
        "paper",
        "block ARRAY-1 |Six modules|",
        "block BORDER-11X17 || tags=SHEET_NUMBER,PROJECT",
    ]
    places = [found.index(line) for line in expected]
    assert places == sorted(places)


@pytest.mark.parametrize(
    "line",
    [
        "line A-WALL-BELO -60,-70 -60,330",
        "polyline A-ROOF-OBST 300,20 340,20 340,40 300,40 closed bulges 0 1 0 1",
        "circle S-ROOF-ANCH 0,0 radius 2",
        "area S-DETL-MCUT -5,3 5,3 0,5 0,3.5",
        "text A-ANNO-TEXT 2,2.7 height 0.1 right |EAVE|",
        "text A-ANNO-DIMS 8.1,4.125 height 0.096 middle turned 90 |10'-0\" ON SLOPE|",
        "dimension A-ANNO-DIMS 7.625,3.375 7.625,4.875 drawn 8.2,3.375 8.2,4.875 "
        "|10'-0\" ON SLOPE| at 8.1,4.125 height 0.096 value 120 on slope",
        "leader A-ANNO-NOTE 6.9,6.3 6.8,6.3 4.5,5 arrow names module:0:2",
        "leader A-ANNO-NOTE 3,4.6 3,5.2 dot",
        "insert E-SOLR-PANL MODULE-44X69 at 45,70 id module:1:1",
        "insert E-SOLR-PANL MODULE-44X69 at 200,110 turned -90 scaled 0.5",
        "attribute ID=|M11|",
        "attribute SHEET_NUMBER=|A-101| text G-ANNO-TTLB-TEXT 15.25,0.7 height 0.25 center |A-101|",
        "link 10,1.45..10.8,1.65 to S-501",
    ],
)
def test_each_kind_has_its_line(line: str) -> None:
    assert lines(listing(PLAN_PAGE, DRAWING.blocks)).count(line) == 1


def test_only_blocks_in_use_are_listed() -> None:
    blocks = [line for line in lines(listing(NOTES_PAGE, DRAWING.blocks)) if "block " in line[:6]]
    assert blocks == ["block BORDER-11X17 || tags=SHEET_NUMBER,PROJECT"]


def test_noise_below_a_thousandth_does_not_show() -> None:
    exact = Line((0.0, 1.0), (2.0, 0.1), "G-ANNO-SYMB")
    noisy = Line((-1e-9, 1.0 + 2e-16), (2.0, 0.1 + 4e-4), "G-ANNO-SYMB")
    pages = [dataclasses.replace(NOTES_PAGE, paper=(part,)) for part in (exact, noisy)]
    first, second = (listing(page, {}) for page in pages)
    assert first == second
    assert "line G-ANNO-SYMB 0,1 2,0.1" in first


def test_a_change_shows_as_one_line() -> None:
    label = Text("EAVE", (2.0, 2.7), 0.1, "A-ANNO-TEXT", "right")
    moved = dataclasses.replace(label, at=(2.0, 2.8))
    annotation = tuple(moved if part == label else part for part in PLAN_VIEW.annotation)
    view = dataclasses.replace(PLAN_VIEW, annotation=annotation)
    before = listing(PLAN_PAGE, DRAWING.blocks).splitlines()
    page = dataclasses.replace(PLAN_PAGE, views=(view, *PLAN_PAGE.views[1:]))
    after = listing(page, DRAWING.blocks).splitlines()
    assert len([1 for old, new in zip(before, after, strict=True) if old != new]) == 1
