"""The committed title blocks: room for every field, and nothing in the way of anything."""

from __future__ import annotations

from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from planset.drawing.geometry import Box
from planset.drawing.page import TitleBlock
from planset.drawing.primitives import Line, Polyline, Text
from planset.drawing.text import MINIMUM_HEIGHT, SLACK, text_box
from planset.formats.dxf_read import REQUIRED_FIELDS, read_title_block

FOLDER = Path(__file__).parents[1] / "titleblocks"
NAMES = sorted(path.stem for path in FOLDER.glob("*.dxf"))

# Long values of the kind a drafter types, invented.
LONG = {
    "PROJECT_NAME": "Whittaker-Anderson Residence",  # 28 characters
    "PROJECT_NUMBER": "2026-014",
    "ADDRESS": "11248 Sycamore Canyon, Port Larkin",  # 34
    "PARCEL": "07-118-042",
    "OWNER": "R. and M. Whittaker-Anderson",
    "CONTRACTOR": "Gullwing Bay Electric Company",
    "LICENSE": "PL-20418",
    "CONTRACTOR_ADDRESS": "11248 Netmaker Row, Port Larkin",
    "CONTRACTOR_PHONE": "(555) 555-0117",
    "JURISDICTION": "City of Port Larkin, Building Safety",
    "SHEET_TITLE": "ATTACHMENT AND RAIL PLAN",  # 24
    "SHEET_ID": "E-601.1",
    "SHEET_COUNT": "SHEET 13 OF 13",
    "SCALE": '3/32" = 1\'-0"',
    "DATE": "2026-11-25",
    "DRAWN_BY": "J. Orme",
    "CHECKED_BY": "T. Vance",
    "REVISION": "10",
    "STATUS": "ISSUED FOR PERMIT",
}


@cache
def block(name: str) -> TitleBlock:
    return read_title_block(FOLDER / f"{name}.dxf")


def fixed_text(sheet: TitleBlock) -> list[Text]:
    return [part for part in sheet.block.primitives if isinstance(part, Text)]


def areas(sheet: TitleBlock) -> dict[str, Box]:
    kept = {"drawing": sheet.drawing_area, "seal": sheet.seal_area}
    kept["approval"] = sheet.approval_area
    return kept | {tag: place.box for tag, place in sheet.fields.items()}


def covered(part: Text, slack: float = 1.0) -> Box:
    return text_box(part.text, part.at, part.height, part.align, slack=slack)


def test_there_is_one() -> None:
    assert "strip-11x17" in NAMES


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("tag", REQUIRED_FIELDS)
def test_a_long_value_stays_in_its_box(name: str, tag: str) -> None:
    place = block(name).fields[tag]
    value = Text(LONG[tag], place.at, place.height, place.layer, place.align)
    assert place.box.contains(covered(value, SLACK))
    assert place.height >= MINIMUM_HEIGHT


@pytest.mark.parametrize("name", NAMES)
def test_areas_lie_on_the_sheet_and_apart(name: str) -> None:
    sheet = block(name)
    paper = Box(0, 0, sheet.width, sheet.height)
    for area in areas(sheet).values():
        assert paper.contains(area)
    for (one, box), (other, other_box) in combinations(areas(sheet).items(), 2):
        assert not box.overlaps(other_box), f"{one} and {other}"


@pytest.mark.parametrize("name", NAMES)
def test_fixed_text_is_legible_and_in_nothing_s_way(name: str) -> None:
    sheet = block(name)
    texts = fixed_text(sheet)
    for part in texts:
        assert part.height >= MINIMUM_HEIGHT
        assert part.text == part.text.upper()
        for area, box in areas(sheet).items():
            assert not covered(part, SLACK).overlaps(box), f"{part.text} and {area}"
    for one, other in combinations(texts, 2):
        assert not covered(one, SLACK).overlaps(covered(other, SLACK))


@pytest.mark.parametrize("name", NAMES)
def test_no_line_crosses_an_area_or_a_text(name: str) -> None:
    sheet = block(name)
    kept = [*areas(sheet).values(), *(covered(part) for part in fixed_text(sheet))]
    for part in sheet.block.primitives:
        if isinstance(part, Line | Polyline):
            for box in kept:
                assert not crosses(part, box)


def crosses(part: Line | Polyline, box: Box) -> bool:
    """Whether a level or upright line runs through the inside of a box."""
    points = (part.a, part.b) if isinstance(part, Line) else (*part.points, part.points[0])
    for a, b in zip(points, points[1:], strict=False):
        assert a[0] == b[0] or a[1] == b[1]
        run = Box(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        if run.overlaps(box):
            return True
    return False


def test_a_line_through_a_box_is_seen() -> None:
    box = Box(1, 1, 3, 3)
    assert crosses(Line((0, 2), (4, 2), "0"), box)
    assert not crosses(Line((0, 1), (4, 1), "0"), box)


@pytest.mark.parametrize("name", NAMES)
def test_it_says_that_written_dimensions_govern(name: str) -> None:
    lines = [part.text for part in fixed_text(block(name))]
    assert "DO NOT SCALE DRAWINGS - WRITTEN DIMENSIONS GOVERN" in lines


def test_the_strip_for_11x17() -> None:
    sheet = block("strip-11x17")
    assert (sheet.width, sheet.height) == (17, 11)
    number = sheet.fields["SHEET_ID"]
    assert number.height >= 0.25
    # the sheet id is the lowest field, at the right edge: readable in a stack
    assert number.box.y0 == min(place.box.y0 for place in sheet.fields.values())
    assert number.box.x1 > sheet.width - 0.6
    assert sheet.drawing_area.width >= 12.5
    assert sheet.drawing_area.height >= 9.5
    for area, width, height in ((sheet.seal_area, 2.3, 2.1), (sheet.approval_area, 2.3, 1.5)):
        assert area.width >= width - 1e-9
        assert area.height >= height - 1e-9
