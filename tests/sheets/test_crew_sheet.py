"""The crew sheet: what is stretched, built, set and signed, against the jobs' own measures."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from planset.drawing.geometry import distance
from planset.drawing.primitives import Line, Text
from planset.sheets.crew_lines import STRINGS, string_lines
from planset.sheets.crew_words import order_of_work
from planset.sheets.details.tables import settings
from planset.sheets.words import capitals
from tests.example_job import edited
from tests.sheets.drawn_sets import Made, example, made_of, on_sheet, own_sheet

SHEET = "Z-101"
EVERY = ("tile-gable", "shingle-hip", "cross-gable", "flat-commercial")


def words(of: Made) -> str:
    """All that stands on the crew sheet and what runs over from it, in one line."""
    return " ".join(line for page in of.pages(SHEET) for line in of.lines(page.sheet))


def test_one_string_lines_up_the_rails_of_the_example() -> None:
    (string,) = string_lines(example().design.mounts[0])
    assert (string.first, string.last) == ("R1", "R15")
    assert string.brought == tuple(f"R{n}" for n in range(2, 15))
    # The frames begin 20 in up, the rails 1 in below them, on rafters 3 to 17 at 24 in from 12 in.
    assert string.a == pytest.approx((60, 19))
    assert string.b == pytest.approx((60 + 14 * 24, 19))


def test_rails_that_end_elsewhere_have_a_string_of_their_own() -> None:
    # Rows of 5, 6 and 5 from one left end: the middle row's rails end a module farther right.
    mount = own_sheet("shingle-hip").design.mounts[0]
    strings = {(one.first, one.last): one for one in string_lines(mount)}
    assert len(string_lines(mount)) == 3
    assert strings["R3", "R4"].brought == ()
    right = [one for one in string_lines(mount) if one.brought == ("R2", "R5")]
    assert [(one.first, one.last) for one in right] == [("R1", "R6")]


def test_strings_and_both_diagonals_are_drawn_and_measure_what_the_table_says() -> None:
    of = example()
    (view,) = [view for page in of.pages(SHEET) for view in page.views]
    lines = [part for part in view.annotation if isinstance(part, Line) and part.layer == STRINGS]
    assert len(lines) == 1 + 2
    # Corner hooks 28 ft apart along the eave and 14 ft up a 5:12 slope, which plans foreshorten.
    run = 168 / (1 + (5 / 12) ** 2) ** 0.5
    lengths = [distance(line.a, line.b) * view.scale.factor for line in lines]
    diagonal = pytest.approx((336**2 + run**2) ** 0.5)
    assert [length == diagonal for length in lengths] == [False, True, True]
    assert words(of).count("31'-3 11/16\"") == 2  # (336^2 + 168^2)^(1/2) = 375.66 in


def test_a_kit_is_marked_from_its_lower_end() -> None:
    # First hook 7 in from the end, every 42 in; feet where the rail meets the long edges of frames
    # 44.6 in high, 1/2 in apart, the first 1 in from the end.
    said = words(example())
    assert 'ATTACHMENTS (5): 7", 4\'-1", 7\'-7", 11\'-1", 14\'-7"' in said
    assert 'FEET (5): 1", 3\'-9 7/8", 7\'-6 15/16", 11\'-4 1/16", 15\'-0 7/8"' in said


def test_a_spliced_kit_tells_what_carries_its_last_piece() -> None:
    said = words(own_sheet("cross-gable"))
    assert "b STANDS ON THE LAST 2 ATTACHMENTS" in said
    assert "b STANDS ON THE LAST ATTACHMENT" in said


@pytest.mark.parametrize("name", EVERY)
def test_every_setting_and_torque_stands_there_with_its_document(name: str) -> None:
    of = own_sheet(name)
    said = words(of)
    for one in of.design.mounts:
        for _, setting in settings(one.array.system):
            assert capitals(setting) in said


@pytest.mark.parametrize("name", EVERY)
def test_holds_come_first_last_and_before_modules(name: str) -> None:
    of = own_sheet(name)
    steps = order_of_work(of.design)
    assert steps[0].hold
    assert steps[-1].hold
    first_module = next(n for n, step in enumerate(steps) if step.words.startswith("Modules from"))
    assert any(step.hold for step in steps[1:first_module])
    said = words(of)
    assert len(re.findall(r"\bHOLD\b", said)) >= sum(step.hold for step in steps)
    assert "29 CFR 1926.501" in said
    assert "Modules are live in daylight" in said


def test_words_for_the_roof_are_large() -> None:
    beside_no_view = [page for page in example().pages(SHEET) if not page.views]
    heights = [
        part.height for page in beside_no_view for part in page.paper if isinstance(part, Text)
    ]
    assert len(heights) > 50
    assert min(heights) >= 1 / 8


def test_mounting_by_others_stops_the_work() -> None:
    said = words(own_sheet("flat-commercial"))
    assert "by the drawings of its designer" in said
    assert "KIT" not in said


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("size", ["11x17", "24x36"])
def test_page_review_finds_nothing(name: str, size: str) -> None:
    made = on_sheet(name, size)
    assert [text for text in made.failures() if "Sheet Z-" in text] == []


def test_a_bill_alone_is_a_file_too(tmp_path: Path) -> None:
    of = made_of(edited(tmp_path, ("E-701, Z-101, Z-601]", "E-701, Z-601]")))
    assert {page.sheet.partition(".")[0] for page in of.drawing.for_crew.pages} == {"Z-601"}
    assert of.failures() == []
