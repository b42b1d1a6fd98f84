"""G-001 of the example: the index leads somewhere, and nothing that matters is left out."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest

from planset.drawing.page import Page
from planset.drawing.primitives import Insert, Link, Text
from planset.finding import Outcome
from tests.example_job import edited
from tests.sheets.drawn_sets import example, made_of, own_sheet, symbols

SHEET = "G-001"


def closed_up(words: str) -> str:
    """The words without the spaces and line ends that depend on how they wrap."""
    return "".join(words.split())


def cover() -> str:
    """Everything on the cover and on what runs over from it."""
    pages = example().pages(SHEET)
    return closed_up(" ".join(line for page in pages for line in example().lines(page.sheet)))


def for_review(pages: Iterable[Page]) -> list[Page]:
    """The pages that the cover belongs to; the crew's have an index of their own."""
    return [page for page in pages if not page.for_crew]


def missing(sentences: Iterable[str]) -> list[str]:
    whole = cover()
    return [sentence for sentence in sentences if closed_up(sentence) not in whole]


def test_every_sheet_has_a_line_in_the_index_that_leads_to_it() -> None:
    page = example().page(SHEET)
    every = [part for part in page.paper if isinstance(part, Link)]
    pages = for_review(example().drawing.pages)
    links = every[: len(pages)]  # before those of ids in notes
    assert [link.sheet for link in links] == [p.sheet for p in pages]
    for link, target in zip(links, pages, strict=True):
        (x0, y0), (x1, y1) = link.lower_left, link.upper_right
        inside = [
            part.text
            for part in page.paper
            if isinstance(part, Text) and x0 <= part.at[0] <= x1 and y0 <= part.at[1] <= y1
        ]
        assert inside[0] == target.sheet
        assert target.title.startswith(inside[1])  # a long title goes on in a second line
        assert len(inside) == 2


KINDS = ("residential", "building", "fire", "electrical", "loads", "wood", "existing")


@pytest.mark.parametrize("kind", KINDS)
def test_every_adopted_code_is_named_with_its_edition_and_source(kind: str) -> None:
    code = getattr(example().design.inputs.jurisdiction.codes, kind)
    assert missing([f"{code.code_edition} ({code.source})"]) == []


def test_every_open_matter_is_printed_whole() -> None:
    grave = (Outcome.OPEN, Outcome.ASK, Outcome.FAIL)
    count = 0
    for name in EVERY:
        of = own_sheet(name)
        lines = [line for page in of.pages(SHEET) for line in of.lines(page.sheet)]
        whole = closed_up("".join(lines))
        for finding in of.findings:
            if finding.outcome in grave:
                assert closed_up(f"{finding.message} [{finding.citation}]") in whole
                count += 1
    assert count


def test_every_assumption_is_printed_with_its_basis() -> None:
    """On the cover; what loads and framing rest on stands with the load tables."""
    assumed = example().design.assumptions
    here = [item for item in assumed if not item.structural]
    there = [item for item in assumed if item.structural]
    assert here
    assert there
    assert missing(f"{item.text} ({item.basis})" for item in here) == []
    pages = example().pages("S-601")
    tables = closed_up("".join(line for page in pages for line in example().lines(page.sheet)))
    for item in there:
        assert closed_up(item.text) in tables
        assert closed_up(item.basis) in tables


def test_the_numbers_of_the_system_are_those_of_the_design() -> None:
    design = example().design
    # 20 modules of 402 W each.
    assert missing([f"20 MODULES, {20 * 0.402:.2f} kW DC"]) == []
    assert (
        missing([f"{design.attachment_count} x {design.arrays[0].mounting.attachment.name}"]) == []
    )
    assert missing(f"{s.id}: {len(s.modules)}" for s in design.electrical.strings) == []


# --- symbols and abbreviations -------------------------------------------------------------

EVERY = ("tile-gable", "cross-gable", "shingle-hip", "flat-commercial")


def beside(name: str, heading: str) -> dict[str, str]:
    """The marks of a list on the cover with their meaning, each mark's first line of words."""
    found: dict[str, str] = {}
    of = own_sheet(name)
    for page in of.pages(SHEET):
        texts = [part for part in page.paper if isinstance(part, Text)]
        heads = [t for t in texts if t.text.removesuffix(", CONT.") in ("SYMBOLS", "ABBREVIATIONS")]
        starts = [part for part in heads if part.text in (heading, f"{heading}, CONT.")]
        for start in starts:
            x, y = start.at
            right = min((h.at[0] for h in heads if h.at[0] > x + 1e-6), default=math.inf)
            under = [h.at[1] for h in heads if h.at[1] < y and abs(h.at[0] - x) < 1e-6]
            foot = max(under, default=-math.inf)
            below = [t for t in texts if foot < t.at[1] < y and x - 1e-6 <= t.at[0] < right - 1e-6]
            lefts = sorted({round(t.at[0], 6) for t in below})
            for mark_left, words_left in zip(lefts[::2], lefts[1::2], strict=False):
                marks = [t for t in below if round(t.at[0], 6) == mark_left]
                for mark in marks:
                    (words,) = (
                        t.text
                        for t in below
                        if round(t.at[0], 6) == words_left and abs(t.at[1] - mark.at[1]) < 1e-6
                    )
                    found[mark.text] = words
    return found


@pytest.mark.parametrize("name", EVERY)
def test_the_abbreviations_are_those_that_stand_on_the_sheets(name: str) -> None:
    of = own_sheet(name)
    listed = beside(name, "ABBREVIATIONS")
    assert {"AC", "DC", "EMT", "qh"} <= set(listed)
    title_blocks = {field for page in of.drawing.pages for field in _title_block(page)}
    words = " ".join(
        line
        for page in of.drawing.pages
        for line in of.lines(page.sheet)
        if line not in title_blocks
    )
    tokens = set(re.findall(r"[A-Za-z][A-Za-z/.]*", words)) | set(re.findall(r"\(E\)", words))
    tokens |= set(re.findall(r"[A-Z]+-[A-Z0-9]+", words))
    bare = {token.rstrip(".") for token in tokens} | {"(E)"}
    for short in listed:
        assert short.rstrip(".") in bare or short.lower().rstrip(".") in bare


def _title_block(page: Page) -> Iterator[str]:
    """Yield what the title block of a page says."""
    for part in page.paper:
        if isinstance(part, Insert):
            yield from (one.value for one in part.attributes)


NAMES = {"BW", "DL", "MQ", "RS", "TR", "PL", "SK", "CH", "RTU", "MA", "DRY", "FM", "SM", "RK"}
"""Letters of model, license and tag numbers and of fuse classes, and words without a vowel."""


@pytest.mark.parametrize("name", EVERY)
def test_no_group_of_capitals_is_left_unexplained(name: str) -> None:
    """Two capitals or more without a vowel are no word."""
    of = own_sheet(name)
    shorts = beside(name, "ABBREVIATIONS")
    listed = {part.rstrip(".") for short in shorts for part in (short, *short.split("-"))}
    pages = for_review(of.drawing.pages)
    lines = [line for page in pages for line in of.lines(page.sheet)]
    bare = re.compile(r"(?<![A-Za-z0-9'-])[BCDFGHJKLMNPQRSTVWXZ]{2,}(?![A-Za-z])")
    used = {token for line in lines for token in bare.findall(line)}
    assert used - listed - NAMES == set()


@pytest.mark.parametrize("name", EVERY)
def test_the_symbols_are_those_inserted_on_the_other_sheets(name: str) -> None:
    of = own_sheet(name)
    known = symbols()

    def inserted(pages: Iterable[Page]) -> set[str]:
        parts = [part for page in pages for part in page.paper]
        parts += [p for page in pages for v in page.views for p in (*v.model, *v.annotation)]
        return {p.block for p in parts if isinstance(p, Insert)} & set(known)

    cover_pages = of.pages(SHEET)
    others = [page for page in of.drawing.pages if page not in cover_pages]
    assert inserted(cover_pages) == inserted(others) > {"BUS"}
    whole = closed_up(" ".join(line for page in cover_pages for line in of.lines(page.sheet)))
    for symbol in inserted(others):
        assert closed_up(known[symbol].block.description) in whole


def test_a_sheet_less_is_a_symbol_less(tmp_path: Path) -> None:
    job = edited(tmp_path, ("E-101, E-601, E-602, E-701, Z-101, Z-601]", "E-101, Z-101, Z-601]"))
    of = made_of(job)
    lines = [line for page in of.pages(SHEET) for line in of.lines(page.sheet)]
    assert "true north" in lines
    assert "utility service" not in lines
    assert "MPPT" not in lines


@pytest.mark.parametrize("name", EVERY)
def test_no_view_leads_back_to_the_sample_of_a_bubble(name: str) -> None:
    """Only the sheet's id in the title block, below the drawing area, leads to the cover."""
    of = own_sheet(name)
    for page in for_review(of.drawing.pages):
        if page.sheet.startswith(SHEET):
            continue
        back = [p for p in page.paper if isinstance(p, Link) and p.sheet.startswith(SHEET)]
        (link,) = back
        area = of.drawing.titleblocks[page.titleblock].drawing_area
        assert not area.holds(link.lower_left)


def test_assumptions_of_loads_are_sought_where_their_table_stands() -> None:
    (there,) = (
        p.sheet for p in example().pages("S-601") if "ASSUMPTIONS" in example().lines(p.sheet)
    )
    assert there == "S-601.1"
    assert missing([f"What loads and framing rest on is listed on {there}."]) == []


def test_a_revision_names_its_sheets_in_the_order_of_the_index() -> None:
    made = own_sheet("battery-retrofit")
    words = closed_up(" ".join(made.lines(SHEET)))
    assert closed_up("Sheets: G-002, S-601, E-101, E-601, E-602") in words
