"""Revisions stand on the cover, and the answers to the reviewer on G-002 with links."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from planset.drawing.page import Page
from planset.drawing.primitives import Insert, Link
from tests.example_job import edited
from tests.sheets.drawn_sets import Made, made_of, own_sheet

ANSWERED = "battery-retrofit"
FIRST = ('  revision: "0"', '  revision: "2"')
ISSUED = ('issued: "2026-11-25"', 'issued: "2026-12-20"')
TWO = """
revisions:
  - {number: 1, date: "2026-12-01", description: First corrections}
  - number: 2
    date: "2026-12-19"
    description: Second corrections, which take some more words than there is room for in one line
    answers:
      - {number: "3.1", comment: Show the ridge., reply: Dimensioned., sheet: A-101}
      - {number: "3.2", comment: "State the embedment of the lags, which the detail of the first
          submittal did not show for the rafters of this roof.", reply: "No change: it stands in the
          detail.", sheet: S-501}

contractor:"""


@cache
def answered() -> Made:
    return own_sheet(ANSWERED)


def linked_to(page: Page) -> set[str]:
    return {part.sheet for part in page.paper if isinstance(part, Link)}


def test_the_cover_lists_the_revision() -> None:
    words = " ".join(answered().lines("G-001"))
    assert "REVISIONS NO. DATE WHAT CHANGED 1 2026-12-09 Corrections of 2026-12-04" in words
    assert "answered Sheets: G-002, S-601, E-101, E-601, E-602 " in words


def in_title_block(page: Page) -> dict[str, str]:
    (border,) = (
        part for part in page.paper if isinstance(part, Insert) and part.block == page.titleblock
    )
    return {one.tag: one.value for one in border.attributes if one.tag.startswith("REV")}


def test_every_title_block_lists_it() -> None:
    for page in answered().drawing.pages:
        told = in_title_block(page)
        assert told["REV1_NUMBER"] == "1"
        assert told["REV1_DATE"] == "2026-12-09"
        assert told["REV1_TEXT"] == "Corrections of 2026-12-04 answered"
        assert told["REV2_NUMBER"] == ""  # for what is written by hand, or by an engineer's CAD


def test_a_first_submittal_has_no_such_tables() -> None:
    first = own_sheet("cross-gable")
    words = " ".join(first.lines("G-001") + first.lines("G-002"))
    assert "WHAT CHANGED" not in words
    assert "ANSWERS TO CORRECTIONS" not in words


def test_each_answer_leads_to_its_sheet() -> None:
    lines = answered().lines("G-002")
    start = lines.index("ANSWERS TO CORRECTIONS, REVISION 1")
    table = " ".join(lines[start : start + 18])
    assert "NO. COMMENT REPLY SHEET E-1 Show how" in table
    assert "E-602" in table
    assert {"E-602", "S-601"} <= linked_to(answered().page("G-002"))


@pytest.mark.parametrize("size", ["11x17", "24x36"])
def test_two_revisions_on_any_sheet(size: str, tmp_path: Path) -> None:
    """The newest stands first, its answers alone are printed, and the pages are in order."""
    made = made_of(edited(tmp_path, FIRST, ISSUED, ("\ncontractor:", TWO)), size)
    cover = " ".join(line for page in made.pages("G-001") for line in made.lines(page.sheet))
    cover = cover[
        cover.index("WHAT CHANGED") :
    ]  # past the title block, which lists the oldest first
    assert cover.index("2026-12-19 Second") < cover.index("2026-12-01 First corrections")
    compliance = " ".join(made.lines("G-002"))
    assert "ANSWERS TO CORRECTIONS, REVISION 2 NO. COMMENT REPLY SHEET 3.1" in compliance
    assert "ANSWERS TO CORRECTIONS, REVISION 1" not in compliance
    assert made.failures() == []
