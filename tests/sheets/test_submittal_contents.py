"""DEVELOPERS.md tells where in a set the things stand that reviewers ask for, and they do."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from planset.catalog.contents import EVERY_SHEET
from planset.sheets.set import SHEETS
from tests.sheets.drawn_sets import own_sheet
from tests.sheets.submittal_contents import EXAMPLE_NAME, ITEMS, NOT_YET, OUT_OF_REACH, SAYS, Item

ROOT = Path(__file__).parents[2]
HEADING = "## What reviewers ask for"
ROW = re.compile(r"\| (.+?) \| (.+?) \| (.+?) \|")
PLACES = {item.name: item.place for item in ITEMS}


def printed_place(item: Item) -> str:
    """A place as DEVELOPERS.md writes it."""
    return f"`{item.place}`" if "::" in item.place else item.place


def test_developers_lists_what_is_asked_for_and_where_it_stands() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.partition(HEADING)[2].partition("\n## ")[0]
    rows = [row.groups() for line in section.splitlines() if (row := ROW.fullmatch(line))]
    wanted = [(one.name, one.asked, printed_place(one)) for one in ITEMS]
    assert rows[1:] == wanted  # the first row is the heading


def test_an_item_stands_somewhere_or_it_is_said_why_not() -> None:
    assert len(PLACES) == len(ITEMS)
    for item in ITEMS:
        if "::" in item.place:
            file, _, test = item.place.partition("::")
            assert f"\ndef {test}(" in (ROOT / file).read_text(encoding="utf-8")
        elif item.place not in {*SHEETS, EVERY_SHEET}:
            assert item.place.startswith((f"{NOT_YET}: ", f"{OUT_OF_REACH}: "))


def words(sheet: str) -> str:
    """What stands on a sheet of the example and on what runs over from it, in one line."""
    of = own_sheet(EXAMPLE_NAME)
    return " ".join(line for page in of.pages(sheet) for line in of.lines(page.sheet))


@pytest.mark.parametrize("name", SAYS)
def test_it_is_on_its_sheet(name: str) -> None:
    of, place = own_sheet(EXAMPLE_NAME), PLACES[name]
    every = [page.sheet for page in of.drawing.pages if "." not in page.sheet]
    for sheet in every if place == EVERY_SHEET else [place]:
        assert re.search(SAYS[name], words(sheet)), sheet


@pytest.mark.parametrize("sheet", ["C-101", "E-101", "E-602", "E-701", "Z-101", "Z-601"])
def test_what_waits_for_a_sheet_waits_no_longer_than_needed(sheet: str) -> None:
    """As soon as the sheet is drawn, its items are to be put on it."""
    waiting = [i.name for i in ITEMS if sheet in i.place and i.place.startswith(NOT_YET)]
    assert sheet not in SHEETS or not waiting
