"""The committed title blocks: room for every field, and nothing in the way of anything."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from planset.drawing.geometry import Box, box_around
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


@dataclass(frozen=True)
class Asked:
    """What is asked of a title block [in]; areas as width and height."""

    sheet: tuple[float, float]
    binding: float  # margin at the left
    margin: float  # the other three
    drawing: tuple[float, float]
    seal: tuple[float, float]
    approval: tuple[float, float]
    value: float  # least height of a field's text
    number: float  # height of the sheet id


# Margins of 24x36: Uniform Drawing System, module 2, 1-1/2 in at the binding and 3/4 in; smaller
# sheets take less (common practice, no source). Seal: 3 x 3 in kept free where it fits (common
# practice, no source). Approval: 3.75 in high and 5.75 in wide at the top right (a city's
# checklist for plans, drafting reference C.9); on 18x24 the same area upright.
ASKED = {
    "strip-11x17": Asked((17, 11), 0.75, 0.5, (12.5, 9.5), (2.3, 2.1), (2.3, 1.5), 0.1, 0.375),
    "strip-18x24": Asked((24, 18), 1, 0.5, (18, 16.7), (3, 3), (3.75, 5.75), 0.1, 0.44),
    "strip-24x36": Asked((36, 24), 1.5, 0.75, (27, 22), (3, 3), (5.75, 5.75), 0.125, 0.5),
}


def test_there_is_one_for_each_size() -> None:
    assert list(ASKED) == NAMES


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


@pytest.mark.parametrize("name", NAMES)
def test_sheet_and_border_have_their_sizes(name: str) -> None:
    sheet, asked = block(name), ASKED[name]
    assert (sheet.width, sheet.height) == asked.sheet
    (border,) = (part for part in sheet.block.primitives if isinstance(part, Polyline))
    drawn = box_around(border.points)
    assert border.closed
    right, top = asked.sheet[0] - asked.margin, asked.sheet[1] - asked.margin
    assert drawn == Box(asked.binding, asked.margin, right, top)


@pytest.mark.parametrize("name", NAMES)
def test_areas_have_the_room_asked_for(name: str) -> None:
    sheet, asked = block(name), ASKED[name]
    for area, (width, height) in (
        (sheet.drawing_area, asked.drawing),
        (sheet.seal_area, asked.seal),
        (sheet.approval_area, asked.approval),
    ):
        assert area.width >= width - 1e-9
        assert area.height >= height - 1e-9


@pytest.mark.parametrize("name", NAMES)
def test_the_building_department_has_the_top_right(name: str) -> None:
    sheet, asked = block(name), ASKED[name]
    approval = sheet.approval_area
    assert approval.x1 > sheet.width - asked.margin - 0.1
    below = [sheet.seal_area, *(place.box for place in sheet.fields.values())]
    above = sheet.fields["JURISDICTION"].box  # whose use the area is for
    assert all(box.y1 <= approval.y0 for box in below if box != above)


@pytest.mark.parametrize("name", NAMES)
def test_the_sheet_id_is_read_in_a_stack(name: str) -> None:
    """It is the lowest field, at the right edge, and larger than all other text."""
    sheet, asked = block(name), ASKED[name]
    number = sheet.fields["SHEET_ID"]
    assert number.height == asked.number
    assert number.box.y0 == min(place.box.y0 for place in sheet.fields.values())
    assert number.box.x1 > sheet.width - asked.margin - 0.1
    others = [place.height for tag, place in sheet.fields.items() if tag != "SHEET_ID"]
    assert asked.value <= min(others)
    assert max(others) <= number.height / 2


def test_the_largest_sheet_has_reference_marks_around_its_border() -> None:
    """Numbers from the left, letters from the top, each at both sides, outside the border."""
    sheet, asked = block("strip-24x36"), ASKED["strip-24x36"]
    border = Box(asked.binding, asked.margin, 36 - asked.margin, 24 - asked.margin)
    marks = [part for part in fixed_text(sheet) if len(part.text) == 1]
    assert not any(covered(mark).overlaps(border) for mark in marks)
    across = sorted((part.at[0], part.text) for part in marks if part.text.isdigit())
    down = sorted((-part.at[1], part.text) for part in marks if part.text.isalpha())
    assert [text for _, text in across] == [text for text in "12345678" for _ in range(2)]
    assert [text for _, text in down] == [text for text in "ABCDEF" for _ in range(2)]
