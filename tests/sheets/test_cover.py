"""G-001 of the example: the index leads somewhere, and nothing that matters is left out."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from planset.drawing.primitives import Link, Text
from planset.finding import Outcome
from tests.sheets.drawn_sets import example

SHEET = "G-001"


def closed_up(words: str) -> str:
    """The words without the spaces and line ends that depend on how they wrap."""
    return "".join(words.split())


def cover() -> str:
    """Everything on the cover and on what runs over from it."""
    pages = example().pages(SHEET)
    return closed_up(" ".join(line for page in pages for line in example().lines(page.sheet)))


def missing(sentences: Iterable[str]) -> list[str]:
    whole = cover()
    return [sentence for sentence in sentences if closed_up(sentence) not in whole]


def test_every_sheet_has_a_line_in_the_index_that_leads_to_it() -> None:
    page = example().page(SHEET)
    links = [part for part in page.paper if isinstance(part, Link)]
    assert [link.sheet for link in links] == [p.sheet for p in example().drawing.pages]
    for link, target in zip(links, example().drawing.pages, strict=True):
        (x0, y0), (x1, y1) = link.lower_left, link.upper_right
        inside = [
            part.text
            for part in page.paper
            if isinstance(part, Text) and x0 <= part.at[0] <= x1 and y0 <= part.at[1] <= y1
        ]
        assert inside == [target.sheet, target.title]


KINDS = ("residential", "building", "fire", "electrical", "loads", "wood", "existing")


@pytest.mark.parametrize("kind", KINDS)
def test_every_adopted_code_is_named_with_its_edition_and_source(kind: str) -> None:
    code = getattr(example().design.inputs.jurisdiction.codes, kind)
    assert missing([f"{code.code_edition} ({code.source})"]) == []


def test_every_open_matter_is_printed_whole() -> None:
    grave = (Outcome.OPEN, Outcome.ASK, Outcome.FAIL)
    found = [finding for finding in example().findings if finding.outcome in grave]
    assert any(finding.outcome is Outcome.OPEN for finding in found)
    assert missing(f"{finding.message} [{finding.citation}]" for finding in found) == []


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
    assert missing(f"{s.id}: {len(s.modules)}" for s in design.circuits.strings) == []
